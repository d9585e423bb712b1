#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/comparison/consensus.hpp>

namespace colorlib {
namespace {

Matrix3 mean_covariance(const std::vector<UncertainColor>& means) {
  Matrix3 sum;
  for (const auto& mean : means) sum = sum + mean.covariance;
  return (1.0 / static_cast<double>(means.size())) * sum;
}

std::vector<Lab> colors_of(const std::vector<UncertainColor>& means) {
  std::vector<Lab> colors;
  for (const auto& mean : means) colors.push_back(mean.lab);
  return colors;
}

}  // namespace

UncertainColor consensus_value(const std::vector<UncertainColor>& means) {
  if (means.size() == 1) return means.front();
  const RobustLabMean robust = robust_lab_mean(colors_of(means));
  if (means.size() >= 4) return {robust.mean, robust.covariance};
  const double share = 1.0 / static_cast<double>(means.size());
  return {robust.mean, share * (mean_covariance(means) + robust.spread)};
}

ItemConsensus consensus_of(const RoundTable& table, std::size_t item,
                           const std::optional<ReferenceColor>& reference, const AgreementRule& rule) {
  ItemConsensus result;
  result.item = item;
  const auto cells = table.cells_of_item(item);
  std::vector<UncertainColor> means;
  for (const RoundCell* cell : cells) means.push_back(cell->mean);
  const auto colors = colors_of(means);
  result.robust = robust_lab_mean(colors);
  for (std::size_t k = 0; k < 3; ++k) {
    std::vector<double> values;
    for (const Lab& lab : colors) values.push_back(vector_from(lab)[k]);
    result.by_coordinate[k] = algorithm_a(values);
  }
  result.assigned = reference ? reference->color : consensus_value(means);
  if (reference) result.reference = reference->source;
  result.judged = reference.has_value() || cells.size() >= consensus_worth_judging;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    ParticipantDistance distance;
    distance.participant = cells[i]->participant;
    distance.de00 = difference_ciede2000(means[i].lab, result.assigned.lab);
    if (reference) {
      distance.agreement = agreement_between(means[i], reference->color, rule);
    } else if (cells.size() > 1) {
      auto others = means;
      others.erase(others.begin() + static_cast<std::ptrdiff_t>(i));
      distance.agreement = agreement_between(means[i], consensus_value(others), rule);
    }
    result.participants.push_back(distance);
    for (const std::size_t reading : cells[i]->readings) {
      result.readings.push_back(reading);
      result.reading_de00.push_back(
          difference_ciede2000(table.readings[reading].color.lab, result.assigned.lab));
    }
  }
  return result;
}

}  // namespace colorlib
