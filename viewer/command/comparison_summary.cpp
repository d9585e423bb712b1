#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <viewer/command/comparison_summary.hpp>
#include <viewer/command/counted.hpp>
#include <viewer/command/text_wrap.hpp>

namespace tintfall {
namespace {

using namespace colorlib;

constexpr std::size_t inner = 4;
constexpr std::size_t most_pairs_shown = 24;
constexpr double well_known_factor =
    1.5;  // a standard deviation within it needs no remark: 20 repeats and more
constexpr const char* coordinate_names[] = {"L*", "a*", "b*"};

void line(std::size_t indent, std::string_view text, std::ostream& out) {
  out << std::string(indent, ' ') << wrapped(text, indent, indent + 2) << '\n';
}

std::string shared_name(const std::map<std::string, std::string>& names, const std::string& id) {
  const auto found = names.find(id);
  return found == names.end() ? std::string() : found->second;
}

std::size_t widest_participant(const RoundTable& table) {
  std::size_t widest = 9;  // "collector"
  for (const auto& who : table.participants) widest = std::max(widest, who.name.size());
  return std::min<std::size_t>(widest, 40);
}

void print_head(const Comparison& comparison, const ComparisonWords& words, std::ostream& out) {
  const auto& table = comparison.table;
  if (!words.title.title.empty()) out << words.title.title << '\n';
  if (!words.title.remark.empty()) line(2, words.title.remark, out);
  const auto collectors =
      static_cast<std::size_t>(std::count_if(table.participants.begin(), table.participants.end(),
                                             [](const Participant& who) { return who.is_collector; }));
  line(2,
       fmt::format("{} of {} by {}   (CIELAB, D50, 2°; ± is expanded uncertainty)",
                   counted(table.readings.size(), "reading"), counted(table.items.size(), "item"),
                   collectors == 0 ? "collectors who are not named" : counted(collectors, "collector")),
       out);
  const auto& tolerance = comparison.options.rule.tolerance_de00;
  line(2,
       tolerance
           ? fmt::format(
                 "same: the true difference is at most ΔE00 {:.1f} (95 %); different: it is surely more",
                 *tolerance)
           : std::string("different: the uncertainties do not explain the difference (E_n above 1); same: no "
                         "difference "
                         "shown, and one beyond ΔE00 2.0 ruled out (95 %)"),
       out);
}

void print_item(const Comparison& comparison, const ItemConsensus& item, const ComparisonWords& words,
                std::ostream& out) {
  const auto& table = comparison.table;
  const std::string title = shared_name(words.item_titles, table.items[item.item]);
  out << fmt::format("\n  {}{}\n", comparison.item_name(item.item), title.empty() ? "" : ", " + title);
  const Vector3 lab = vector_from(item.assigned.lab);
  std::string assigned;
  for (std::size_t k = 0; k < 3; ++k) {
    const int axis = static_cast<int>(k);
    assigned += fmt::format("   {} {:.1f} ± {:.1f}", coordinate_names[k], lab[k],
                            2 * std::sqrt(std::max(0.0, item.assigned.covariance(axis, axis))));
  }
  if (item.reference)
    line(inner, fmt::format("reference{}   ({})", assigned, *item.reference), out);
  else if (item.participants.size() > 1)
    line(inner, fmt::format("consensus{}   (robust mean in Lab of {})", assigned, item.participants.size()),
         out);
  else
    line(inner, fmt::format("one collector only{}", assigned), out);
  const std::size_t width = widest_participant(table);
  out << fmt::format("    {:<{}}  n  {:>6} {:>6} {:>6}   {:>5}", "collector", width, "L*", "a*", "b*",
                     "ΔE00");
  const bool scored = std::any_of(item.participants.begin(), item.participants.end(),
                                  [](const auto& distance) { return distance.agreement.has_value(); });
  if (scored)
    out << fmt::format("   {:>5}   {:<18}{}", "E_n", "E_n of L* a* b*", item.judged ? "  verdict" : "");
  out << '\n';
  for (const ParticipantDistance& distance : item.participants) {
    const RoundCell* cell = table.cell(item.item, distance.participant);
    const Lab& mean = cell->mean.lab;
    out << fmt::format("    {:<{}} {:>2}  {:>6.2f} {:>6.2f} {:>6.2f}   {:>4.2f}",
                       table.participants[distance.participant].name, width, cell->readings.size(), mean.l,
                       mean.a, mean.b, distance.de00);
    if (const auto& agreement = distance.agreement) {
      out << fmt::format("   {:>5}   {:>+5.2f} {:>+5.2f} {:>+5.2f}", en_text(agreement->en),
                         agreement->en_lab[0], agreement->en_lab[1], agreement->en_lab[2]);
      if (item.judged) out << "   " << verdict_word(agreement->verdict);
    }
    out << '\n';
  }
}

/// Pairs by verdict, the most telling first.
void print_pairs(const Comparison& comparison, bool all, std::ostream& out) {
  if (comparison.pairs.empty()) return;
  std::size_t count[3] = {};
  for (const ThingPair& pair : comparison.pairs) ++count[static_cast<std::size_t>(pair.agreement.verdict)];
  out << fmt::format("\n  In pairs: {} same, {} different, {} undecided\n", count[0], count[1], count[2]);
  auto pairs = comparison.pairs;
  std::stable_sort(pairs.begin(), pairs.end(),
                   [](const ThingPair& a, const ThingPair& b) { return a.agreement.en > b.agreement.en; });
  const std::size_t shown = all ? pairs.size() : std::min(pairs.size(), most_pairs_shown);
  std::size_t widest = 0;
  for (std::size_t i = 0; i < shown; ++i)
    widest = std::max(
        widest, comparison.things[pairs[i].a].label.size() + comparison.things[pairs[i].b].label.size());
  widest = std::min<std::size_t>(widest, 70);
  for (std::size_t i = 0; i < shown; ++i) {
    const Agreement& found = pairs[i].agreement;
    out << fmt::format("    {:<{}}   ΔE00 {:>5.2f} ± {:.2f}   E_n {:>5}   {}\n",
                       comparison.things[pairs[i].a].label + " – " + comparison.things[pairs[i].b].label,
                       widest + 3, found.de00, found.de00_expanded, en_text(found.en),
                       verdict_word(found.verdict));
  }
  if (shown < pairs.size())
    line(inner,
         fmt::format("and {} more that lie closer (--verbose or --json shows them)", pairs.size() - shown),
         out);
}

void print_groups(const Comparison& comparison, std::ostream& out) {
  if (comparison.things.size() < 3) return;
  out << fmt::format("\n  {} whose members cannot be told apart (single linkage, risk {:g} a pair)\n",
                     counted(comparison.groups.size(), "group"), comparison.options.group_risk);
  for (const ColorGroup& group : comparison.groups) {
    std::vector<std::string> members;
    for (const std::size_t member : group.members) members.push_back(comparison.things[member].label);
    line(inner,
         fmt::format("{}{}", fmt::join(members, ", "),
                     group.chained
                         ? fmt::format("   (a chain: its ends, ΔE00 {:.1f} apart, can be told apart)",
                                       group.widest_de00)
                         : std::string()),
         out);
  }
}

void print_outliers(const Comparison& comparison, const ItemPrecision& item, std::size_t k,
                    std::ostream& out) {
  const Precision& precision = item.of_lab[k];
  for (std::size_t j = 0; j < precision.cells.size(); ++j) {
    const PrecisionCell& cell = precision.cells[j];
    const std::string& who = comparison.table.participants[item.participants[j]].name;
    if (cell.mandel_h && std::abs(*cell.mandel_h) > *precision.h_critical_5)
      line(inner,
           fmt::format("{} {}: {} stands out by its mean (Mandel h {} at 5 %)",
                       comparison.item_name(item.item), coordinate_names[k], who,
                       beside_critical(*cell.mandel_h, *precision.h_critical_5)),
           out);
    if (cell.mandel_k && *cell.mandel_k > *cell.k_critical_5)
      line(inner,
           fmt::format("{} {}: {} scatters more than the others (Mandel k {} at 5 %)",
                       comparison.item_name(item.item), coordinate_names[k], who,
                       beside_critical(*cell.mandel_k, *cell.k_critical_5)),
           out);
  }
  if (precision.cochran && *precision.cochran > *precision.cochran_critical_5)
    line(inner,
         fmt::format("{} {}: the scatters of the collectors are unequal (Cochran C {} at 5 %)",
                     comparison.item_name(item.item), coordinate_names[k],
                     beside_critical(*precision.cochran, *precision.cochran_critical_5)),
         out);
}

/// " (the true one 0.6 to 2.9 times that, 95 %)": a standard deviation from a handful of repeats says little.
std::string interval_of_few(double degrees_of_freedom) {
  const DeviationFactors factors = deviation_interval(degrees_of_freedom);
  if (factors.high < well_known_factor) return {};
  return fmt::format(" (the true one {:.1f} to {:.1f} times that, 95 %)", factors.low, factors.high);
}

void print_precision(const Comparison& comparison, std::ostream& out) {
  if (comparison.precision.empty()) return;
  out << "\n  Repeatability and reproducibility (ISO 5725-2), L* / a* / b*: two readings differ by more than "
         "the limit once in 20\n";
  for (const ItemPrecision& item : comparison.precision) {
    const auto& p = item.of_lab;
    out << fmt::format(
        "    {}: one collector s_r {:.2f} / {:.2f} / {:.2f}{}, limit {:.1f} / {:.1f} / {:.1f};  different "
        "collectors "
        "s_R {:.2f} / {:.2f} / {:.2f}, limit {:.1f} / {:.1f} / {:.1f}\n",
        comparison.item_name(item.item), p[0].repeatability_sd, p[1].repeatability_sd, p[2].repeatability_sd,
        interval_of_few(p[0].repeatability_dof), p[0].repeatability_limit, p[1].repeatability_limit,
        p[2].repeatability_limit, p[0].reproducibility_sd, p[1].reproducibility_sd, p[2].reproducibility_sd,
        p[0].reproducibility_limit, p[1].reproducibility_limit, p[2].reproducibility_limit);
  }
  for (const ItemPrecision& item : comparison.precision)
    for (std::size_t k = 0; k < 3; ++k) print_outliers(comparison, item, k, out);
}

void print_bias(const Comparison& comparison, std::size_t i, const ComparisonWords& words,
                std::ostream& out) {
  const CollectorBias& bias = comparison.biases[i];
  const std::string& id = comparison.table.participants[bias.participant].name;
  const std::string name = shared_name(words.collector_names, id);
  std::string figures;
  for (std::size_t k = 0; k < 3; ++k) {
    figures += fmt::format("   {} {:+.1f}", coordinate_names[k], bias.bias[k]);
    if (bias.basis != BiasBasis::too_few) figures += fmt::format(" ± {:.1f}", bias.half_width[k]);
  }
  std::string said = "no bias shown";
  if (bias.basis == BiasBasis::too_few) said = "too few readings to judge";
  if (!bias.words.empty()) said = fmt::format("{}", fmt::join(bias.words, ", "));
  line(inner, fmt::format("{}{}{}   {}", id, name.empty() ? "" : " " + name, figures, said), out);
  const auto& differences = comparison.differences[i];
  if (!bias.words.empty() && !differences.empty())
    line(inner + 2, fmt::format("in {}'s records: {}", id, fmt::join(differences, "; ")), out);
}

void print_biases(const Comparison& comparison, const ComparisonWords& words, std::ostream& out) {
  if (comparison.biases.empty()) return;
  const bool reference = std::any_of(comparison.biases.begin(), comparison.biases.end(),
                                     [](const auto& bias) { return bias.against == BiasAgainst::reference; });
  out << fmt::format("\n  Bias of each collector, from {}; ± is the 95 % interval\n",
                     reference ? "the references" : "the consensus of the others");
  for (std::size_t i = 0; i < comparison.biases.size(); ++i) print_bias(comparison, i, words, out);
  const bool any_word = std::any_of(comparison.biases.begin(), comparison.biases.end(),
                                    [](const auto& bias) { return !bias.words.empty(); });
  if (any_word)
    line(inner, "What differs in the records stands beside a bias; whether it is the cause, it cannot say.",
         out);
}

void print_ellipsoids(const Comparison& comparison, bool all, std::ostream& out) {
  for (const ItemEllipsoid& item : comparison.ellipsoids) {
    const LabEllipsoid& found = item.ellipsoid;
    if (!all && found.readings < ellipsoid_worth_printing) continue;
    line(inner,
         fmt::format("{}: the next {} falls within d² {:.1f} of the mean (95 %, n = {}); semi-axes {:.2f}, "
                     "{:.2f}, {:.2f} in Lab",
                     comparison.item_name(item.item), item.of_collectors ? "collector's mean" : "reading",
                     found.prediction_limit, found.readings, found.prediction_semi_axes[0],
                     found.prediction_semi_axes[1], found.prediction_semi_axes[2]),
         out);
  }
}

}  // namespace

void print_comparison(const Comparison& comparison, const ComparisonWords& words, std::ostream& out) {
  print_head(comparison, words, out);
  for (const ItemConsensus& item : comparison.consensus) print_item(comparison, item, words, out);
  print_pairs(comparison, words.verbose, out);
  print_groups(comparison, out);
  print_precision(comparison, out);
  print_biases(comparison, words, out);
  const bool worth =
      std::any_of(comparison.ellipsoids.begin(), comparison.ellipsoids.end(),
                  [](const auto& item) { return item.ellipsoid.readings >= ellipsoid_worth_printing; });
  if (worth || (words.verbose && !comparison.ellipsoids.empty())) {
    out << "\n  Where further readings will lie\n";
    print_ellipsoids(comparison, words.verbose, out);
  }
  if (!comparison.remarks.empty() || !comparison.left_out.empty()) out << "\n  Please note\n";
  for (const std::string& remark : comparison.remarks) line(inner, remark, out);
  for (const LeftOut& left : comparison.left_out)
    line(inner, fmt::format("left out: {}. {}", left.what, left.why), out);
  out << '\n';
}

}  // namespace tintfall
