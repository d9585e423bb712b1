#include <algorithm>
#include <array>
#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/comparison/bias.hpp>
#include <colorlib/comparison/combined_uncertainty.hpp>

namespace colorlib {
namespace {

constexpr std::size_t fewest_items = 3, fewest_repeat_dof = 2;

/// One collector's offset on one item.
struct Offset {
  const RoundCell* cell = nullptr;
  Vector3 value{};
  double de00 = 0;
  UncertainColor assigned;
};

Vector3 difference(const Lab& a, const Lab& b) { return {a.l - b.l, a.a - b.a, a.b - b.b}; }

std::vector<UncertainColor> means_without(const RoundTable& table, std::size_t item,
                                          std::size_t participant) {
  std::vector<UncertainColor> means;
  for (const RoundCell* cell : table.cells_of_item(item))
    if (cell->participant != participant) means.push_back(cell->mean);
  return means;
}

using References = std::vector<std::optional<ReferenceColor>>;

std::vector<Offset> offsets_of(const RoundTable& table, std::size_t participant, const References& references,
                               BiasAgainst against) {
  std::vector<Offset> offsets;
  for (const RoundCell& cell : table.cells) {
    if (cell.participant != participant) continue;
    Offset offset;
    offset.cell = &cell;
    if (against == BiasAgainst::reference) {
      if (!references[cell.item]) continue;
      offset.assigned = references[cell.item]->color;
    } else {
      const auto others = means_without(table, cell.item, participant);
      if (others.empty()) continue;
      offset.assigned = consensus_value(others);
    }
    offset.value = difference(cell.mean.lab, offset.assigned.lab);
    offset.de00 = difference_ciede2000(cell.mean.lab, offset.assigned.lab);
    offsets.push_back(offset);
  }
  return offsets;
}

double mean_at(const std::vector<Offset>& offsets, std::size_t k) {
  double sum = 0;
  for (const Offset& offset : offsets) sum += offset.value[k];
  return sum / static_cast<double>(offsets.size());
}

/// How far the mean offset may be off because this collector's readings scatter.
UncertaintyPart own_part(const RoundTable& table, const std::vector<Offset>& offsets, BiasBasis basis,
                         std::size_t k) {
  const double count = static_cast<double>(offsets.size());
  if (basis == BiasBasis::items) {
    const double mean = mean_at(offsets, k);
    double squares = 0;
    for (const Offset& offset : offsets) squares += std::pow(offset.value[k] - mean, 2);
    return {std::sqrt(squares / (count - 1) / count), count - 1};
  }
  double squares = 0, dof = 0, inverse_sizes = 0;
  for (const Offset& offset : offsets) {
    const double middle = vector_from(offset.cell->mean.lab)[k];
    for (const std::size_t i : offset.cell->readings)
      squares += std::pow(vector_from(table.readings[i].color.lab)[k] - middle, 2);
    dof += static_cast<double>(offset.cell->readings.size() - 1);
    inverse_sizes += 1.0 / static_cast<double>(offset.cell->readings.size());
  }
  return {std::sqrt(squares / dof * inverse_sizes) / count, dof};
}

/// How far the assigned values may be off together.
UncertaintyPart assigned_part(const RoundTable& table, const std::vector<Offset>& offsets,
                              std::size_t participant, BiasAgainst against, std::size_t k) {
  const int axis = static_cast<int>(k);
  double stated = 0;
  for (const Offset& offset : offsets)
    stated += offset.assigned.covariance(axis, axis) / static_cast<double>(offsets.size());
  if (against == BiasAgainst::reference) return {std::sqrt(stated)};
  // The other collectors' own offsets from what this one is measured from.
  std::vector<double> others;
  for (std::size_t other = 0; other < table.participants.size(); ++other) {
    if (other == participant) continue;
    double sum = 0, count = 0;
    for (const Offset& offset : offsets)
      if (const RoundCell* cell = table.cell(offset.cell->item, other)) {
        sum += difference(cell->mean.lab, offset.assigned.lab)[k];
        ++count;
      }
    if (count > 0) others.push_back(sum / count);
  }
  const double count = static_cast<double>(others.size());
  if (others.size() < 2) return {std::sqrt(stated)};
  double mean = 0, squares = 0;
  for (const double offset : others) mean += offset / count;
  for (const double offset : others) squares += std::pow(offset - mean, 2);
  return {std::sqrt(squares / (count - 1) / count), count - 1};
}

BiasBasis basis_of(const std::vector<Offset>& offsets) {
  if (offsets.size() >= fewest_items) return BiasBasis::items;
  std::size_t dof = 0;
  for (const Offset& offset : offsets) dof += offset.cell->readings.size() - 1;
  return dof >= fewest_repeat_dof ? BiasBasis::repeats : BiasBasis::too_few;
}

}  // namespace

std::vector<std::string> bias_words(const Vector3& bias, const Vector3& half_width) {
  constexpr std::array<std::array<const char*, 2>, 3> words{
      {{"lighter", "darker"}, {"redder", "greener"}, {"yellower", "bluer"}}};
  std::vector<std::size_t> shown;
  for (std::size_t k = 0; k < 3; ++k)
    if (half_width[k] > 0 && std::abs(bias[k]) > half_width[k]) shown.push_back(k);
  std::stable_sort(shown.begin(), shown.end(),
                   [&](std::size_t a, std::size_t b) { return std::abs(bias[a]) > std::abs(bias[b]); });
  std::vector<std::string> said;
  for (const std::size_t k : shown) said.emplace_back(words[k][bias[k] > 0 ? 0 : 1]);
  return said;
}

std::vector<CollectorBias> biases_of(const RoundTable& table, const References& references) {
  std::vector<CollectorBias> biases;
  for (std::size_t participant = 0; participant < table.participants.size(); ++participant) {
    if (!table.participants[participant].is_collector) continue;
    CollectorBias bias;
    bias.participant = participant;
    bias.against = BiasAgainst::reference;
    auto offsets = offsets_of(table, participant, references, bias.against);
    if (offsets.empty()) {
      bias.against = BiasAgainst::others;
      offsets = offsets_of(table, participant, references, bias.against);
    }
    if (offsets.empty()) continue;
    bias.basis = basis_of(offsets);
    bias.items = offsets.size();
    for (const Offset& offset : offsets) {
      bias.readings += offset.cell->readings.size();
      bias.de00 += offset.de00 / static_cast<double>(offsets.size());
    }
    for (std::size_t k = 0; k < 3; ++k) {
      bias.bias[k] = mean_at(offsets, k);
      if (bias.basis == BiasBasis::too_few) continue;
      const auto whole = combined({own_part(table, offsets, bias.basis, k),
                                   assigned_part(table, offsets, participant, bias.against, k)});
      bias.standard[k] = whole.standard;
      bias.half_width[k] = whole.half_width_95;
      bias.effective_dof[k] = whole.effective_dof;
    }
    bias.words = bias_words(bias.bias, bias.half_width);
    biases.push_back(std::move(bias));
  }
  return biases;
}

}  // namespace colorlib
