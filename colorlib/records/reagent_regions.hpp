#pragma once
/// Which regions of a record met the reagent that it names: untreated controls and drops of water did not.

#include <colorlib/records/catalogue_entry.hpp>
#include <string>
#include <string_view>

namespace colorlib {

/// `region_kind`: a `region_kind_name`.
bool met_reagent(std::string_view region_kind);
/// The reagent of one reading of a record; empty where it met none.
std::string reagent_of(const CatalogueRecord& record, const CatalogueReading& reading);
/// The reagent of a record, and which of its regions did not meet it: "KOH 5 % (not on W, C)".
std::string reagent_words(const CatalogueRecord& record);

}  // namespace colorlib
