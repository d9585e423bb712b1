#pragma once
/// The photographs that a record was made of.

#include <colorlib/records/catalogue_entry.hpp>
#include <string>
#include <vector>

namespace colorlib {

/// File names: that under which the record is catalogued, then those that were read together with it, in
/// their order. Of a series only the first is named.
std::vector<std::string> photo_names(const CatalogueRecord& record);
/// "a.jpg, b.jpg"
std::string photo_words(const CatalogueRecord& record);

}  // namespace colorlib
