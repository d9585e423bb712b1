#include <fmt/format.h>

#include <colorlib/records/reagent_regions.hpp>
#include <colorlib/specimen/regions.hpp>
#include <vector>

namespace colorlib {

bool met_reagent(std::string_view region_kind) {
  return region_kind != region_kind_name(RegionKind::control) &&
         region_kind != region_kind_name(RegionKind::water);
}

std::string reagent_of(const CatalogueRecord& record, const CatalogueReading& reading) {
  return met_reagent(reading.kind) ? record.reagent : std::string();
}

std::string reagent_words(const CatalogueRecord& record) {
  std::vector<std::string> without;
  for (const CatalogueReading& reading : record.readings)
    if (!met_reagent(reading.kind)) without.push_back(reading.region);
  if (record.reagent.empty() || without.empty()) return record.reagent;
  return fmt::format("{} (not on {})", record.reagent, fmt::join(without, ", "));
}

}  // namespace colorlib
