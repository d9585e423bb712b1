#pragma once
/// A printed report of collections: A4, one page a collection, a further one where readings need it.

#include <colorlib/base/image.hpp>
#include <colorlib/records/catalogue_entry.hpp>
#include <cstddef>
#include <filesystem>
#include <string>
#include <vector>

namespace colorlib {

/// The bytes of a PDF. Each reading shows a swatch, its name, L*, a*, b* with their expanded uncertainties (k
/// = 2) as figures and as bars on one scale, its 95 % tolerance in dE00 and its flags. From `pictures`
/// (empty: none) each record takes PHOTO.overlay.png, or else the photograph PHOTO, if its content hash is
/// the record's. Pictures are drawn anew and hold no position or other metadata. Equal calls give equal
/// bytes. `pictures_found`, when given, is set to how many records found theirs. Errors: cannot_write.
Result<std::string> report_pdf(const std::vector<CatalogueEntry>& entries,
                               const std::filesystem::path& pictures, std::size_t* pictures_found = nullptr);

/// The report's first pages as they will be printed, at most `most`, for a look before it is written.
/// `px_per_mm` in [0.5, 12]. Errors: bad_call, cannot_write.
Result<std::vector<Image8>> report_pictures(const std::vector<CatalogueEntry>& entries,
                                            const std::filesystem::path& pictures, double px_per_mm,
                                            std::size_t most);

}  // namespace colorlib
