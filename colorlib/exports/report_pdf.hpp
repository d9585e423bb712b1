#pragma once
/// A printed report of collections: A4, one page a collection, a further one where readings need it.

#include <colorlib/records/catalogue_entry.hpp>
#include <filesystem>
#include <string>
#include <vector>

namespace colorlib {

/// The bytes of a PDF. Each reading shows a swatch, its name, L*, a*, b* with their expanded uncertainties (k
/// = 2) as figures and as bars on one scale, its 95 % tolerance in dE00 and its flags. From `pictures`
/// (empty: none) each record takes PHOTO.overlay.png, or else the photograph PHOTO, if its content hash is
/// the record's. Pictures are drawn anew and hold no position or other metadata. Equal calls give equal
/// bytes. Errors: cannot_write.
Result<std::string> report_pdf(const std::vector<CatalogueEntry>& entries,
                               const std::filesystem::path& pictures);

}  // namespace colorlib
