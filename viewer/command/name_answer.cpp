#include <fmt/format.h>

#include <algorithm>
#include <colorlib/colorimetry/chromatic_adaptation.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/naming/color_distribution.hpp>
#include <colorlib/naming/name_sentence.hpp>
#include <nlohmann/json.hpp>
#include <viewer/command/json_text.hpp>
#include <viewer/command/name_answer.hpp>
#include <viewer/command/swatch.hpp>

namespace tintfall {
namespace {

using namespace colorlib;
using nlohmann::ordered_json;

constexpr std::size_t swatch_columns = 4;

Matrix3 covariance_of(const NameQuestion& question) {
  const auto variance = [&](std::size_t i) {
    return question.lab_expanded[i] * question.lab_expanded[i] / 4;
  };
  return Matrix3::diagonal(variance(0), variance(1), variance(2));
}

bool is_exact_question(const NameQuestion& question) { return question.lab_expanded == Vector3{}; }

TermAnswer answer_of_entry(const ScaleEntry& entry, const Lab& lab, const std::vector<Lab>& distribution) {
  TermAnswer said;
  said.term = entry.name;
  said.kind = "scale entry";
  said.de00 = difference_ciede2000(lab, entry.lab);
  said.tolerance_de00 = entry.tolerance_de00;
  said.probability = share_within(distribution, entry.lab, entry.tolerance_de00);
  said.answer = answer_from(said.probability);
  return said;
}

ordered_json json_of(const NamedAnswer& named) {
  ordered_json object;
  object["term"] = named.asked;
  object["kind"] = named.answer.kind;
  if (!named.scale.empty()) object["scale"] = named.scale;
  object["answer"] = answer_word(named.answer.answer);
  object["probability"] = rounded(named.answer.probability, 3);
  object["de00"] = rounded(named.answer.de00, 2);
  object["tolerance_de00"] = rounded(named.answer.tolerance_de00, 2);
  return object;
}

}  // namespace

Result<NameAnswer> answer_to(const NameQuestion& question, const NamingTools& tools) {
  const Lab& lab = question.color.lab;
  const Matrix3 covariance = covariance_of(question);
  const auto distribution = distribution_of(lab, covariance);
  NameAnswer said;
  said.words = tools.namer.describe(lab, covariance, tools.options);
  said.within = tools.namer.names_within(lab, tools.tolerance_de00, tools.options.level);
  for (const auto& term : question.terms) {
    bool known = false;
    for (const auto& scale : tools.scales)
      if (const ScaleEntry* entry = scale.find(term)) {
        said.answers.push_back({term, scale.name(), answer_of_entry(*entry, lab, distribution)});
        known = true;
      }
    const std::optional<double> tolerance =
        tools.tolerance_stated ? std::optional<double>(tools.tolerance_de00) : std::nullopt;
    const std::string published = tools.wording.published_for(term);
    // A word may be a term of several kinds: the kind asked for goes first.
    std::optional<TermKind> kind = tools.options.terms;
    if (tools.namer.trade_terms().find(published, kind) == nullptr) kind.reset();
    auto answer = tools.namer.answer(lab, covariance, published, tolerance, kind);
    if (!answer && !known) return fail(answer.error());
    if (answer) said.answers.push_back({term, "", std::move(*answer)});
  }
  for (const auto& scale : tools.scales) said.scales.push_back(scale.answer(lab, distribution));
  return said;
}

ordered_json json_from(const std::vector<ScaleAnswer>& scales) {
  auto list = ordered_json::array();
  for (const auto& scale : scales) {
    ordered_json object;
    object["scale"] = scale.scale;
    object["matches"] = ordered_json::array();
    for (const auto& match : scale.matches)
      object["matches"].push_back({{"entry", match.entry},
                                   {"de00", rounded(match.de00, 2)},
                                   {"tolerance_de00", rounded(match.tolerance_de00, 2)},
                                   {"within", answer_word(match.within)},
                                   {"within_probability", rounded(match.within_probability, 3)},
                                   {"nearest_probability", rounded(match.nearest_probability, 3)}});
    list.push_back(std::move(object));
  }
  return list;
}

ordered_json json_from(const NameQuestion& question, const NameAnswer& answer, const NamingTools& tools) {
  const auto& words = answer.words;
  const auto& lab = question.color.lab;
  const auto& wording = tools.wording;
  ordered_json object;
  object["input"] = question.typed;
  object["input_kind"] = color_text_kind_word(question.color.kind);
  if (question.color.kind == ColorTextKind::lab && question.white != "D50")
    object["input_white"] = question.white;
  object["lab"] = {rounded(lab.l, 2), rounded(lab.a, 2), rounded(lab.b, 2)};
  object["white"] = "D50";
  object["observer"] = "CIE 1931 2 degree";
  if (!is_exact_question(question)) {
    object["lab_expanded"] = {rounded(question.lab_expanded[0], 2), rounded(question.lab_expanded[1], 2),
                              rounded(question.lab_expanded[2], 2)};
    object["de00_expanded"] = rounded(words.de00_expanded, 2);
  }
  object["munsell"] = words.munsell;
  object["munsell_conditions"] = "illuminant C, 2 degree, adapted by Bradford";
  object["outside_renotation"] = words.outside_renotation;
  object["level"] = static_cast<int>(tools.options.level);
  object["name"] = wording.said(words.name.name);
  if (wording.said(words.name.name) != words.name.name) object["published_name"] = words.name.name;
  object["name_confidence"] = rounded(words.name.probability, 3);
  object["alternatives"] = ordered_json::array();
  for (const auto& other : words.alternatives)
    object["alternatives"].push_back({{"name", wording.said(other.name)},
                                      {"probability", rounded(other.probability, 3)},
                                      {"de00", rounded(other.de00, 2)}});
  object["margin_de00"] = rounded(words.margin_de00, 2);
  object["sentence"] = sentence_from(words, wording);
  object["trade_terms_of"] = term_kind_word(tools.options.terms);
  object["trade_terms"] = ordered_json::array();
  for (const auto& term : words.trade_terms) object["trade_terms"].push_back(wording.said(term));
  object["deposit_classes"] = ordered_json::array();
  for (const auto& name : words.deposit_classes) object["deposit_classes"].push_back(wording.said(name));
  object["tolerance_de00"] = rounded(tools.tolerance_de00, 2);
  object["within_tolerance"] = ordered_json::array();
  for (const auto& near : answer.within)
    object["within_tolerance"].push_back(
        {{"name", wording.said(near.name)}, {"de00", rounded(near.de00, 2)}});
  if (!answer.answers.empty()) {
    object["answers"] = ordered_json::array();
    for (const auto& named : answer.answers) object["answers"].push_back(json_of(named));
  }
  if (!answer.scales.empty()) object["scales"] = json_from(answer.scales);
  return object;
}

void print(const NameQuestion& question, const NameAnswer& answer, const NamingTools& tools, bool color,
           std::ostream& out) {
  const auto& words = answer.words;
  const auto& lab = question.color.lab;
  const auto& wording = tools.wording;
  const auto line = [&out](std::string_view what, const std::string& said) {
    out << fmt::format("  {:<16} {}\n", what, said);
  };
  const auto joined = [&wording](const std::vector<std::string>& names) {
    std::string list;
    for (const auto& name : names) list += (list.empty() ? "" : ", ") + wording.said(name);
    return list;
  };
  if (color) {
    write_swatch(lab, swatch_columns, out);
    out << ' ';
  }
  out << sentence_from(words, wording) << '\n';
  std::string figures = fmt::format("{:.2f}  {:.2f}  {:.2f}", lab.l, lab.a, lab.b);
  if (!is_exact_question(question))
    figures += fmt::format("  ± {:.2f}  {:.2f}  {:.2f} (k = 2)", question.lab_expanded[0],
                           question.lab_expanded[1], question.lab_expanded[2]);
  line("CIELAB", figures + "  (D50, CIE 1931 2 degree observer)");
  if (question.color.kind == ColorTextKind::srgb_hex)
    line("", "from an sRGB code (D65), adapted by Bradford");
  if (question.color.kind == ColorTextKind::lab && question.white != "D50")
    line("", fmt::format("from CIELAB under {}, adapted by Bradford", question.white));
  line("Munsell", words.munsell +
                      (words.outside_renotation ? "  (nearest; beyond the published colours)" : "") +
                      "  (illuminant C)");
  std::string near;
  for (const auto& name : answer.within)
    near += fmt::format("{}{}{}", near.empty() ? "" : ", ", wording.said(name.name),
                        name.de00 > 0 ? fmt::format(" ({:.1f})", name.de00) : "");
  line("margin", fmt::format("ΔE00 {:.1f} to the nearest other name", words.margin_de00));
  line(fmt::format("within {:.1f}", tools.tolerance_de00), near);
  line(fmt::format("{} terms", term_kind_word(tools.options.terms)),
       words.trade_terms.empty() ? "no trade term within tolerance" : joined(words.trade_terms));
  if (!words.deposit_classes.empty()) line("deposit class", joined(words.deposit_classes));
  for (const auto& scale : answer.scales) {
    for (const auto& match : scale.matches)
      line(&match == &scale.matches.front() ? scale.scale : "",
           fmt::format("{}: ΔE00 {:.1f}, within its tolerance of {:.1f}: {}{}", match.entry, match.de00,
                       match.tolerance_de00, answer_word(match.within),
                       !is_exact_question(question) && scale.matches.size() > 1
                           ? fmt::format("; nearest entry: {}", percentage_from(match.nearest_probability))
                           : ""));
  }
  for (const auto& named : answer.answers) {
    const auto& said = named.answer;
    const std::string likely = is_exact_question(question) ? "" : percentage_from(said.probability) + "; ";
    line(named.asked + "?",
         fmt::format("{} ({}{}{}; ΔE00 {:.1f}{})", answer_word(said.answer), likely, said.kind,
                     named.scale.empty() ? "" : " of " + named.scale, said.de00,
                     said.tolerance_de00 > 0 ? fmt::format(", tolerance {:.1f}", said.tolerance_de00) : ""));
  }
}

}  // namespace tintfall
