#include <fmt/format.h>

#include <algorithm>
#include <colorlib/comparison/round_table.hpp>
#include <map>
#include <set>

namespace colorlib {
namespace {

/// Items with readings of several kinds get one name a kind.
void part_kinds(std::vector<ComparedReading>& readings) {
  std::map<std::string, std::set<RegionKind>> kinds;
  for (const auto& reading : readings) kinds[reading.item].insert(reading.kind);
  for (auto& reading : readings) {
    if (kinds[reading.item].size() < 2) continue;
    const auto kind = region_kind_name(reading.kind);
    reading.item = reading.item.empty() ? std::string(kind) : fmt::format("{} {}", reading.item, kind);
  }
}

UncertainColor mean_of(const RoundTable& table, const std::vector<std::size_t>& readings) {
  UncertainColor mean;
  const double share = 1.0 / static_cast<double>(readings.size());
  for (const std::size_t i : readings) {
    const UncertainColor& color = table.readings[i].color;
    mean.lab.l += share * color.lab.l;
    mean.lab.a += share * color.lab.a;
    mean.lab.b += share * color.lab.b;
    mean.covariance = mean.covariance + share * color.covariance;
  }
  return mean;
}

std::string shown(const std::string& item) { return item.empty() ? "not said" : item; }

}  // namespace

const RoundCell* RoundTable::cell(std::size_t item, std::size_t participant) const {
  const auto found = std::find_if(cells.begin(), cells.end(), [&](const RoundCell& c) {
    return c.item == item && c.participant == participant;
  });
  return found == cells.end() ? nullptr : &*found;
}

std::vector<const RoundCell*> RoundTable::cells_of_item(std::size_t item) const {
  std::vector<const RoundCell*> found;
  for (const RoundCell& cell : cells)
    if (cell.item == item) found.push_back(&cell);
  return found;
}

RoundTable round_table_from(std::vector<ComparedReading> readings) {
  RoundTable table;
  part_kinds(readings);
  table.readings = std::move(readings);
  std::map<std::string, std::size_t> items;
  std::map<std::pair<bool, std::string>, std::size_t> participants;
  std::map<std::pair<std::size_t, std::size_t>, RoundCell> cells;
  for (std::size_t i = 0; i < table.readings.size(); ++i) {
    const ComparedReading& reading = table.readings[i];
    const auto [item, new_item] = items.emplace(reading.item, table.items.size());
    if (new_item) table.items.push_back(reading.item);
    const Participant who{reading.collector.empty() ? reading.label : reading.collector,
                          !reading.collector.empty()};
    const auto [place, new_participant] =
        participants.emplace(std::pair{who.is_collector, who.name}, table.participants.size());
    if (new_participant) table.participants.push_back(who);
    RoundCell& cell = cells[{item->second, place->second}];
    cell.item = item->second;
    cell.participant = place->second;
    cell.readings.push_back(i);
  }
  for (auto& [place, cell] : cells) {
    cell.mean = mean_of(table, cell.readings);
    table.cells.push_back(std::move(cell));
  }
  return table;
}

std::vector<std::string> remarks_on(const RoundTable& table) {
  std::vector<std::string> remarks;
  std::size_t no_item = 0, no_collector = 0;
  std::map<std::string, std::map<std::string, std::set<std::string>>> values;  // item, trait -> values
  for (const auto& reading : table.readings) {
    no_item += reading.item.empty();
    no_collector += reading.collector.empty();
    for (const Trait& trait : reading.traits)
      if (trait.name == "tissue" || trait.name == "state" || trait.name == "surface")
        values[reading.item][trait.name].insert(trait.value);
  }
  const std::size_t count = table.readings.size();
  if (no_item > 0)
    remarks.push_back(
        no_item == count
            ? std::string("No record says which item it shows: all are taken as one item.")
            : fmt::format("{} of {} readings do not say which item they show: these are taken as one item.",
                          no_item, count));
  if (no_collector > 0)
    remarks.push_back(
        fmt::format("{} of {} readings name no collector: each counts as somebody's only reading, and takes "
                    "no part in precision and bias.",
                    no_collector, count));
  for (const auto& [item, traits] : values)
    for (const auto& [trait, said] : traits)
      if (said.size() > 1)
        remarks.push_back(fmt::format("Item {} mixes readings of different {}: {}.", shown(item), trait,
                                      fmt::join(said, ", ")));
  return remarks;
}

}  // namespace colorlib
