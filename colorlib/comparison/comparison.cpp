#include <fmt/format.h>

#include <algorithm>
#include <colorlib/comparison/comparison.hpp>
#include <colorlib/comparison/record_differences.hpp>

namespace colorlib {
namespace {

using References = std::vector<std::optional<ReferenceColor>>;

/// One place an item, filled where there is a reference.
Result<References> by_item(const RoundTable& table, const std::vector<ReferenceColor>& references) {
  References placed(table.items.size());
  for (const ReferenceColor& reference : references) {
    auto found = std::find(table.items.begin(), table.items.end(), reference.item);
    if (found == table.items.end() && reference.item.empty() && table.items.size() == 1)
      found = table.items.begin();
    if (found == table.items.end())
      return fail(ErrorCode::bad_call,
                  fmt::format("The reference {} is of item '{}', which no reading shows.", reference.source,
                              reference.item),
                  "Give the reference record the item's name, or leave it out.");
    auto& place = placed[static_cast<std::size_t>(found - table.items.begin())];
    if (place)
      return fail(ErrorCode::bad_call,
                  fmt::format("Item '{}' has two references: {} and {}.", reference.item, place->source,
                              reference.source),
                  "Choose one.");
    place = reference;
  }
  return placed;
}

std::vector<ComparedThing> things_of(const RoundTable& table, ComparedUnit unit) {
  std::vector<ComparedThing> things;
  for (const RoundCell& cell : table.cells) {
    const std::string& who = table.participants[cell.participant].name;
    if (unit == ComparedUnit::collector_mean)
      things.push_back(
          {table.items[cell.item].empty() ? who : fmt::format("{} {}", table.items[cell.item], who),
           cell.item, cell.mean});
    else
      for (const std::size_t i : cell.readings)
        things.push_back({table.readings[i].label, cell.item, table.readings[i].color});
  }
  return things;
}

Result<std::vector<ThingPair>> pairs_of(const Comparison& comparison, Progress& progress) {
  const auto& things = comparison.things;
  std::vector<ThingPair> pairs;
  const bool once_each = comparison.table.items.size() == things.size();
  for (std::size_t i = 0; i < things.size(); ++i)
    for (std::size_t j = i + 1; j < things.size(); ++j) {
      if (!comparison.options.all_pairs && !once_each && things[i].item != things[j].item) continue;
      if (pairs.size() == most_pairs)
        return fail(ErrorCode::bad_call,
                    fmt::format("Comparing {} readings in pairs: there are more than {} pairs.",
                                things.size(), most_pairs),
                    "Compare fewer at a time, one item or one season.");
      pairs.push_back({i, j, {}});
    }
  for (std::size_t i = 0; i < pairs.size(); ++i) {
    if (i % 64 == 0) {
      if (progress.cancelled()) return fail(ErrorCode::cancelled, "The work was stopped.", "Start it again.");
      progress.report(static_cast<double>(i) / static_cast<double>(pairs.size()), "comparing pairs");
    }
    pairs[i].agreement =
        agreement_between(things[pairs[i].a].color, things[pairs[i].b].color, comparison.options.rule);
  }
  return pairs;
}

std::optional<ItemPrecision> precision_of_item(const RoundTable& table, std::size_t item) {
  ItemPrecision result;
  result.item = item;
  std::array<std::vector<std::vector<double>>, 3> cells;
  for (const RoundCell* cell : table.cells_of_item(item)) {
    if (!table.participants[cell->participant].is_collector) continue;
    result.participants.push_back(cell->participant);
    for (std::size_t k = 0; k < 3; ++k) {
      cells[k].emplace_back();
      for (const std::size_t i : cell->readings)
        cells[k].back().push_back(vector_from(table.readings[i].color.lab)[k]);
    }
  }
  for (std::size_t k = 0; k < 3; ++k) {
    auto found = precision_of(cells[k]);
    if (!found) return std::nullopt;
    result.of_lab[k] = std::move(*found);
  }
  return result;
}

std::optional<ItemEllipsoid> ellipsoid_of_item(const RoundTable& table, std::size_t item) {
  const auto cells = table.cells_of_item(item);
  ItemEllipsoid result;
  result.item = item;
  result.of_collectors = cells.size() > 1;
  std::vector<Lab> colors;
  for (const RoundCell* cell : cells) {
    if (result.of_collectors)
      colors.push_back(cell->mean.lab);
    else
      for (const std::size_t i : cell->readings) colors.push_back(table.readings[i].color.lab);
  }
  auto found = ellipsoid_of(colors);
  if (!found) return std::nullopt;
  result.ellipsoid = *found;
  return result;
}

void add_remarks(Comparison& comparison) {
  comparison.remarks = remarks_on(comparison.table);
  const bool small =
      std::any_of(comparison.consensus.begin(), comparison.consensus.end(),
                  [](const auto& item) { return !item.judged && item.participants.size() > 1; });
  if (small)
    comparison.remarks.push_back(
        fmt::format("Below {} collectors, distances from their own consensus are described, not judged.",
                    consensus_worth_judging));
  const bool few = std::any_of(comparison.biases.begin(), comparison.biases.end(),
                               [](const auto& bias) { return bias.basis == BiasBasis::too_few; });
  if (few)
    comparison.remarks.push_back(
        "Where a collector has fewer than three items and fewer than three readings, the bias is described, "
        "not judged.");
  const bool once = std::any_of(comparison.biases.begin(), comparison.biases.end(),
                                [](const auto& bias) { return bias.basis == BiasBasis::repeats; });
  if (once)
    comparison.remarks.push_back(
        "With fewer than three items a bias holds for these items only: on other colours it may be another.");
}

}  // namespace

std::string Comparison::item_name(std::size_t item) const {
  return table.items[item].empty() ? "(item not said)" : table.items[item];
}

Result<Comparison> compare(ChosenReadings chosen, const std::vector<ReferenceColor>& references,
                           const ComparisonOptions& options, Progress& progress) {
  const auto& tolerance = options.rule.tolerance_de00;
  if (tolerance && !(*tolerance > 0 && *tolerance <= most_tolerance_de00))
    return fail(ErrorCode::bad_call,
                fmt::format("A tolerance of ΔE00 {} was asked for; it lies above 0 and at most at {}.",
                            *tolerance, most_tolerance_de00),
                "Say for example 2, or leave it out.");
  leave_out_copies(chosen);
  const std::size_t needed = references.empty() ? 2 : 1;
  if (chosen.readings.size() < needed)
    return fail(
        ErrorCode::untrustworthy,
        fmt::format("Comparing readings: {} can be used, {} needed.{}", chosen.readings.size(),
                    needed == 2 ? "two are" : "one is",
                    chosen.left_out.empty() ? std::string()
                                            : fmt::format(" Left out: {}: {}", chosen.left_out.front().what,
                                                          chosen.left_out.front().why)),
        "Add records with a reading that stands and states its uncertainty.");
  Comparison result;
  result.options = options;
  result.left_out = std::move(chosen.left_out);
  result.table = round_table_from(std::move(chosen.readings));
  const auto placed = by_item(result.table, references);
  if (!placed) return fail(placed.error());
  result.things = things_of(result.table, options.unit);
  auto pairs = pairs_of(result, progress);
  if (!pairs) return fail(pairs.error());
  result.pairs = std::move(*pairs);
  for (std::size_t item = 0; item < result.table.items.size(); ++item) {
    result.consensus.push_back(consensus_of(result.table, item, (*placed)[item], options.rule));
    if (auto precision = precision_of_item(result.table, item))
      result.precision.push_back(std::move(*precision));
    if (auto ellipsoid = ellipsoid_of_item(result.table, item)) result.ellipsoids.push_back(*ellipsoid);
  }
  result.biases = biases_of(result.table, *placed);
  for (const CollectorBias& bias : result.biases)
    result.differences.push_back(record_differences(result.table, bias.participant));
  std::vector<UncertainColor> colors;
  for (const ComparedThing& thing : result.things) colors.push_back(thing.color);
  auto groups = groups_of(colors, options.group_risk, progress);
  if (!groups) return fail(groups.error());
  result.groups = std::move(*groups);
  add_remarks(result);
  return result;
}

}  // namespace colorlib
