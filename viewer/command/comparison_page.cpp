#include <fmt/format.h>

#include <algorithm>
#include <viewer/command/comparison_page.hpp>

namespace tintfall {

using namespace colorlib;

namespace {

std::string joined(const std::map<std::string, std::string>& names, const std::string& id,
                   std::string_view between) {
  const auto found = names.find(id);
  return found == names.end() || found->second.empty() ? id
                                                       : fmt::format("{}{}{}", id, between, found->second);
}

RoundPageBias bias_from(const Comparison& comparison, std::size_t i) {
  const CollectorBias& bias = comparison.biases[i];
  RoundPageBias result;
  result.name = comparison.table.participants[bias.participant].name;
  result.bias = bias.bias;
  result.half_width = bias.half_width;
  result.words = bias.basis == BiasBasis::too_few ? "too few readings to judge"
                 : bias.words.empty()             ? "no bias shown"
                                                  : fmt::format("{}", fmt::join(bias.words, ", "));
  if (!bias.words.empty() && !comparison.differences[i].empty())
    result.beside =
        fmt::format("in {}'s records: {}", result.name, fmt::join(comparison.differences[i], "; "));
  return result;
}

RoundPageItem item_from(const Comparison& comparison, const ItemConsensus& item,
                        const ComparisonWords& words) {
  RoundPageItem result;
  result.name = joined(words.item_titles, comparison.item_name(item.item), ", ");
  result.assigned = item.assigned.lab;
  result.assigned_from = item.reference ? fmt::format("reference: {}", *item.reference)
                                        : fmt::format("consensus of {}", item.participants.size());
  for (const ParticipantDistance& distance : item.participants) {
    RoundPageMean mean;
    mean.collector = comparison.table.participants[distance.participant].name;
    mean.lab = comparison.table.cell(item.item, distance.participant)->mean.lab;
    mean.de00 = distance.de00;
    if (item.judged && distance.agreement) mean.verdict = verdict_word(distance.agreement->verdict);
    result.means.push_back(std::move(mean));
  }
  return result;
}

}  // namespace

RoundPage page_from(const Comparison& comparison, const ComparisonWords& words) {
  RoundPage page;
  page.title = words.title.title.empty() ? std::string("Comparison of readings") : words.title.title;
  page.remark = words.title.remark;
  const bool reference = std::any_of(comparison.biases.begin(), comparison.biases.end(),
                                     [](const auto& bias) { return bias.against == BiasAgainst::reference; });
  page.bias_from = reference ? "the references" : "the consensus of the others";
  for (std::size_t i = 0; i < comparison.biases.size(); ++i) page.biases.push_back(bias_from(comparison, i));
  for (const ItemConsensus& item : comparison.consensus)
    page.items.push_back(item_from(comparison, item, words));
  if (std::any_of(page.biases.begin(), page.biases.end(),
                  [](const auto& bias) { return !bias.beside.empty(); }))
    page.notes.emplace_back(
        "What differs in the records stands beside a bias; whether it is the cause, it cannot say.");
  page.notes.insert(page.notes.end(), comparison.remarks.begin(), comparison.remarks.end());
  for (const LeftOut& left : comparison.left_out)
    page.notes.push_back(fmt::format("Left out: {}. {}", left.what, left.why));
  return page;
}

}  // namespace tintfall
