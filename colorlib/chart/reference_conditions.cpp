#include <algorithm>
#include <colorlib/chart/reference_conditions_internal.hpp>
#include <iterator>
#include <set>
#include <vector>

namespace colorlib {
namespace {

struct KnownWhite {
  std::string_view name;
  White white;
};
/// CIE 1931 observer, Y = 1 [ASTM E308, Table 5].
constexpr KnownWhite known_whites[] = {
    {"A", white_a},
    {"C", white_c},
    {"D50", white_d50},
    {"D55", {0.95682, 1.0, 0.92149}},
    {"D65", white_d65},
    {"D75", {0.94972, 1.0, 1.22638}},
    {"E", {1.0, 1.0, 1.0}},
    {"F2", {0.99186, 1.0, 0.67393}},
    {"F7", {0.95041, 1.0, 1.08747}},
    {"F11", {1.00962, 1.0, 0.64350}},
};

bool is_letter_or_digit(char c) { return (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9'); }

/// Runs of letters and digits in capitals; a degree sign counts as the word DEGREE.
std::vector<std::string> tokens_of(std::string_view text) {
  std::vector<std::string> tokens(1);
  const std::string upper = upper_case(text);
  for (std::size_t i = 0; i < upper.size(); ++i) {
    if (is_letter_or_digit(upper[i])) {
      tokens.back() += upper[i];
      continue;
    }
    // U+00B0 in UTF-8, or the single byte of Latin-1.
    if (upper[i] == '\xB0') tokens.emplace_back("DEGREE");
    if (!tokens.back().empty()) tokens.emplace_back();
  }
  std::vector<std::string> kept;
  std::copy_if(tokens.begin(), tokens.end(), std::back_inserter(kept),
               [](const auto& t) { return !t.empty(); });
  return kept;
}

/// D50, F11, ...: a name that can mean nothing else, even in prose.
bool is_numbered_illuminant(std::string_view token) {
  if (token.size() < 2 || token.size() > 3) return false;
  const bool digits =
      std::all_of(token.begin() + 1, token.end(), [](char c) { return c >= '0' && c <= '9'; });
  return digits && ((token[0] == 'D' && token.size() == 3) || (token[0] == 'F' && token[1] != '0'));
}

/// What one text says; single letters count as illuminants only after the word ILLUMINANT, or where
/// `whole_is_name`.
struct Stated {
  std::set<std::string> illuminants;
  std::set<int> observers;
};

void read_text(std::string_view text, bool whole_is_name, Stated& stated) {
  const auto tokens = tokens_of(text);
  for (std::size_t i = 0; i < tokens.size(); ++i) {
    const std::string& token = tokens[i];
    const std::string_view before = i > 0 ? std::string_view(tokens[i - 1]) : std::string_view();
    const std::string_view after =
        i + 1 < tokens.size() ? std::string_view(tokens[i + 1]) : std::string_view();
    const bool named = before == "ILLUMINANT" || (before == "CIE" && whole_is_name);
    if (is_numbered_illuminant(token) ||
        (token.size() == 1 && token[0] >= 'A' && token[0] <= 'E' && (named || (whole_is_name && i == 0))))
      stated.illuminants.insert(token);
    if (token == "1931" || token == "1964") {
      if (before == "CIE" || before == "OBSERVER" || after == "OBSERVER" || after == "STANDARD" ||
          whole_is_name)
        stated.observers.insert(token == "1931" ? 2 : 10);
    }
    if (token == "2DEG" || token == "2DEGREE") stated.observers.insert(2);
    if (token == "10DEG" || token == "10DEGREE") stated.observers.insert(10);
    if (token == "2" || token == "10") {
      const bool of_angle = after.starts_with("DEG") || before.starts_with("OBSERVER");
      // "D65/10" and "D50 2": the figure behind an illuminant is the observer's angle.
      if (of_angle || is_numbered_illuminant(before) || (whole_is_name && tokens.size() == 1))
        stated.observers.insert(token == "2" ? 2 : 10);
    }
  }
}

}  // namespace

ReferenceConditions conditions_of(const ReferenceSheet& sheet) {
  Stated formal, prose;
  for (const auto& [keyword, text] : sheet.statements) {
    if (keyword == "ILLUMINANT" || keyword == "OBSERVER" || keyword == "ILLUMINATION_NAME" ||
        keyword == "OBSERVER_ANGLE")
      read_text(text, true, formal);
    else if (keyword == "WEIGHTING_FUNCTION" || keyword == "COMPUTATIONAL_PARAMETER")
      read_text(text, false, formal);
    else if (keyword == "DESCRIPTOR" || keyword == "MEASUREMENT_SOURCE" || keyword == "COMMENT")
      read_text(text, false, prose);
  }
  const auto& illuminants = formal.illuminants.empty() ? prose.illuminants : formal.illuminants;
  const auto& observers = formal.observers.empty() ? prose.observers : formal.observers;
  ReferenceConditions conditions;
  if (illuminants.size() > 1) {
    for (const std::string& name : illuminants)
      conditions.contradiction += (conditions.contradiction.empty() ? "the illuminants " : " and ") + name;
  } else if (observers.size() > 1) {
    conditions.contradiction = "observers of 2 and of 10 degree";
  }
  if (illuminants.size() == 1) {
    conditions.illuminant = *illuminants.begin();
    const auto* known = std::find_if(std::begin(known_whites), std::end(known_whites),
                                     [&](const KnownWhite& k) { return k.name == conditions.illuminant; });
    if (known != std::end(known_whites)) conditions.white = known->white;
  }
  if (observers.size() == 1) conditions.observer_deg = *observers.begin();
  return conditions;
}

}  // namespace colorlib
