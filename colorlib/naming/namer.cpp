#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/naming/color_distribution.hpp>
#include <colorlib/naming/name_distance.hpp>
#include <colorlib/naming/name_probability.hpp>
#include <colorlib/naming/namer.hpp>
#include <limits>

namespace colorlib {
namespace {

constexpr std::size_t most_trade_terms = 2;

bool is_finite(const Lab& lab) {
  return std::isfinite(lab.l) && std::isfinite(lab.a) && std::isfinite(lab.b);
}

}  // namespace

struct Namer::Tables {
  MunsellRenotation renotation;
  ColorNames names;
  TradeTerms terms;
};

Result<Namer> Namer::load(const std::filesystem::path& folder) {
  const auto reference = folder / "reference";
  auto renotation = MunsellRenotation::load(reference / "munsell_renotation.csv");
  if (!renotation) return fail(renotation.error());
  auto names = ColorNames::load(reference / "block_names.csv", reference / "blocks.csv");
  if (!names) return fail(names.error());
  auto terms = TradeTerms::load(reference / "trade_terms.csv", reference / "deposit_classes.csv");
  if (!terms) return fail(terms.error());
  Namer namer;
  namer.tables_ =
      std::make_shared<Tables>(Tables{std::move(*renotation), std::move(*names), std::move(*terms)});
  return namer;
}

const MunsellRenotation& Namer::renotation() const { return tables_->renotation; }
const ColorNames& Namer::names() const { return tables_->names; }
const TradeTerms& Namer::trade_terms() const { return tables_->terms; }

ColorDescription Namer::describe(const Lab& lab, const Matrix3& covariance) const {
  return describe(lab, covariance, {});
}

ColorDescription Namer::describe(const Lab& lab, const Matrix3& covariance,
                                 const NamingOptions& options) const {
  ColorDescription words;
  const MunsellMatch match = renotation().munsell_from_lab(lab);
  words.munsell = notation_from(match.munsell);
  words.outside_renotation = match.outside;
  if (!is_finite(lab)) return words;

  const auto distribution = distribution_of(lab, covariance);
  words.de00_expanded = expanded_difference(lab, distribution);
  const auto shares = block_shares(distribution, renotation(), names());
  const auto probabilities = name_probabilities(shares, names(), options.level);
  const NameDistances distances(lab, renotation(), names());
  const auto& all_names = names().names_at(options.level);
  for (const auto& share : probabilities) {
    const bool first = &share == &probabilities.front();
    if (!first && share.probability < least_listed_probability) break;
    const NameShare said{all_names[share.name_index], share.probability,
                         distances.to_name(share.name_index, options.level)};
    if (first)
      words.name = said;
    else
      words.alternatives.push_back(said);
  }
  words.margin_de00 = distances.to_other_than(probabilities.front().name_index, options.level).de00;

  for (const auto& term : trade_terms().matches(lab, options.terms)) {
    if (words.trade_terms.size() == most_trade_terms) break;
    words.trade_terms.push_back(term.term->term);
    const auto& deposit_class = term.term->deposit_class;
    if (!deposit_class.empty() && std::find(words.deposit_classes.begin(), words.deposit_classes.end(),
                                            deposit_class) == words.deposit_classes.end())
      words.deposit_classes.push_back(deposit_class);
  }
  return words;
}

std::vector<NameShare> Namer::names_within(const Lab& lab, double tolerance_de00, NameLevel level) const {
  if (!is_finite(lab)) return {};
  std::vector<NameShare> near;
  for (const auto& found : NameDistances(lab, renotation(), names()).within(tolerance_de00, level))
    near.push_back({names().names_at(level)[found.name_index], 0, found.de00});
  return near;
}

Result<TermAnswer> Namer::answer(const Lab& lab, const Matrix3& covariance, std::string_view term,
                                 std::optional<double> tolerance_de00, std::optional<TermKind> kind) const {
  if (!is_finite(lab))
    return fail(ErrorCode::bad_call, "The colour asked about is not finite.", "Give plain numbers.");
  const auto distribution = distribution_of(lab, covariance);
  TermAnswer said;
  said.term = term;

  std::vector<const TradeTerm*> wanted;
  if (const TradeTerm* found = trade_terms().find(term, kind)) {
    wanted.push_back(found);
    said.kind = fmt::format("{} term", term_kind_word(found->kind));
  } else if (trade_terms().find_class(term)) {
    for (const auto& known : trade_terms().terms())
      if (known.deposit_class == term) wanted.push_back(&known);
    said.kind = "deposit class";
  }
  if (!wanted.empty()) {
    said.de00 = std::numeric_limits<double>::infinity();
    for (const TradeTerm* one : wanted) {
      const double de00 = difference_ciede2000(lab, one->center);
      if (de00 >= said.de00) continue;
      said.de00 = de00;
      said.tolerance_de00 = tolerance_de00.value_or(one->tolerance_de00);
    }
    const auto inside = std::count_if(distribution.begin(), distribution.end(), [&](const Lab& color) {
      return std::any_of(wanted.begin(), wanted.end(), [&](const TradeTerm* one) {
        return difference_ciede2000(color, one->center) <= tolerance_de00.value_or(one->tolerance_de00);
      });
    });
    said.probability = static_cast<double>(inside) / static_cast<double>(distribution.size());
    said.answer = answer_from(said.probability);
    return said;
  }

  for (const NameLevel level : {NameLevel::full, NameLevel::middle, NameLevel::broad}) {
    const auto name = names().find(term, level);
    if (!name) continue;
    said.kind = "block name";
    for (const auto& share :
         name_probabilities(block_shares(distribution, renotation(), names()), names(), level))
      if (share.name_index == *name) said.probability = share.probability;
    said.de00 = NameDistances(lab, renotation(), names()).to_name(*name, level);
    said.answer = answer_from(said.probability);
    return said;
  }
  return fail(ErrorCode::bad_call,
              fmt::format("Looking up the word '{}': it is no trade term, deposit class or block name.",
                          term.substr(0, 60)),
              "'tintfall name --known' lists the words there are.");
}

std::vector<int> Namer::blocks_of(const std::vector<Lab>& colors) const {
  std::vector<int> blocks;
  blocks.reserve(colors.size());
  for (const auto& color : colors)
    blocks.push_back(names().block_of(renotation().munsell_from_lab(color).munsell));
  return blocks;
}

}  // namespace colorlib
