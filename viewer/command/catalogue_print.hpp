#pragma once
/// What a catalogue answers, as lines for a person and as JSON.

#include <colorlib/records/catalogue.hpp>
#include <nlohmann/json_fwd.hpp>
#include <ostream>
#include <vector>

namespace tintfall {

void print_lines(const std::vector<colorlib::CatalogueLine>& lines, std::ostream& out);
void print_hits(const std::vector<colorlib::CatalogueHit>& hits, const colorlib::CatalogueQuery& query,
                bool color, std::ostream& out);
void print_entry(const colorlib::CatalogueEntry& entry, bool color, std::ostream& out);
void print_history(const std::vector<colorlib::CatalogueChange>& changes, std::ostream& out);

nlohmann::ordered_json json_from(const std::vector<colorlib::CatalogueLine>& lines);
nlohmann::ordered_json json_from(const std::vector<colorlib::CatalogueHit>& hits,
                                 const colorlib::CatalogueQuery& query);
nlohmann::ordered_json json_from(const colorlib::CatalogueEntry& entry);

}  // namespace tintfall
