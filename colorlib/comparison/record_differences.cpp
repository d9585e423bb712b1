#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/comparison/record_differences.hpp>
#include <map>
#include <set>

namespace colorlib {
namespace {

/// What the records of one participant say.
struct Sayings {
  std::map<std::string, std::set<std::string>> traits;
  std::map<std::string, std::size_t> flags;  ///< readings that carry each
  std::size_t readings = 0;
  std::vector<double> light, check;
};

std::vector<Sayings> sayings_of(const RoundTable& table) {
  std::vector<Sayings> all(table.participants.size());
  for (const RoundCell& cell : table.cells) {
    Sayings& own = all[cell.participant];
    for (const std::size_t i : cell.readings) {
      const ComparedReading& reading = table.readings[i];
      ++own.readings;
      for (const Trait& trait : reading.traits) own.traits[trait.name].insert(trait.value);
      for (const std::string& flag : std::set<std::string>(reading.flags.begin(), reading.flags.end()))
        ++own.flags[flag];
      if (reading.lighting_spread_de00 > 0) own.light.push_back(reading.lighting_spread_de00);
      if (reading.check_de00_mean > 0) own.check.push_back(reading.check_de00_mean);
    }
  }
  return all;
}

double mean_of(const std::vector<double>& values) {
  double sum = 0;
  for (const double value : values) sum += value;
  return values.empty() ? 0 : sum / static_cast<double>(values.size());
}

/// `own` where it is half as much again as the median of the others, in words.
void add_if_worse(const char* phrase, double own, std::vector<double> others,
                  std::vector<std::string>& found) {
  constexpr double least_worth_saying_de00 = 0.5;
  if (others.empty() || own < least_worth_saying_de00) return;
  std::sort(others.begin(), others.end());
  if (own <= 1.5 * others[others.size() / 2]) return;
  const std::string range = others.size() == 1
                                ? fmt::format("{:.1f}", others.front())
                                : fmt::format("{:.1f} to {:.1f}", others.front(), others.back());
  found.push_back(fmt::format("{} ΔE00 {:.1f} (others: {})", phrase, own, range));
}

}  // namespace

std::vector<std::string> record_differences(const RoundTable& table, std::size_t participant) {
  const auto all = sayings_of(table);
  const Sayings& own = all[participant];
  std::vector<std::string> found;
  for (const auto& [name, values] : own.traits) {
    std::set<std::string> others, own_only = values;
    std::size_t same_as_another = 0;
    for (std::size_t other = 0; other < all.size(); ++other) {
      if (other == participant) continue;
      const auto said = all[other].traits.find(name);
      if (said == all[other].traits.end()) continue;
      for (const std::string& value : said->second) {
        if (!others.insert(value).second) ++same_as_another;
        own_only.erase(value);
      }
    }
    if (own_only.empty() || all.size() < 2) continue;
    std::string phrase = fmt::format("{}: {}", name, fmt::join(own_only, ", "));
    // Where everybody says something else there is no "others" worth listing.
    if (others.size() == 1 || same_as_another > 0)
      phrase += fmt::format(" (others: {})", fmt::join(others, ", "));
    found.push_back(std::move(phrase));
  }
  std::vector<double> light, check;
  for (std::size_t other = 0; other < all.size(); ++other) {
    if (other == participant) continue;
    if (!all[other].light.empty()) light.push_back(mean_of(all[other].light));
    if (!all[other].check.empty()) check.push_back(mean_of(all[other].check));
  }
  add_if_worse("light across the sheet differs by", mean_of(own.light), light, found);
  add_if_worse("patches of the sheet are met within", mean_of(own.check), check, found);
  for (const auto& [flag, count] : own.flags) {
    const bool also_others = std::any_of(all.begin(), all.end(), [&](const Sayings& other) {
      const auto carried = other.flags.find(flag);
      return &other != &own && carried != other.flags.end() && 2 * carried->second > other.readings;
    });
    if (2 * count > own.readings && !also_others && all.size() > 1)
      found.push_back(fmt::format("flag {} on {} of {} readings", flag, count, own.readings));
  }
  return found;
}

}  // namespace colorlib
