#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <colorlib/naming/scale_conditions.hpp>

namespace colorlib {
namespace {

struct KnownWhite {
  std::string_view name;
  White white;
};
// D55: [CIE 15:2004 Table T.3].
constexpr std::array known_whites = {KnownWhite{"D50", white_d50}, KnownWhite{"D55", {0.95682, 1, 0.92149}},
                                     KnownWhite{"D65", white_d65}, KnownWhite{"C", white_c},
                                     KnownWhite{"A", white_a}};

/// Letters and digits that belong together, upper case.
std::vector<std::string> tokens_of(std::string_view line) {
  std::vector<std::string> tokens(1);
  for (const char c : line) {
    if (std::isalnum(static_cast<unsigned char>(c)))
      tokens.back() += static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    else if (!tokens.back().empty())
      tokens.emplace_back();
  }
  if (tokens.back().empty()) tokens.pop_back();
  return tokens;
}

bool is_daylight(std::string_view token) {
  return token.size() == 3 && token[0] == 'D' && std::isdigit(static_cast<unsigned char>(token[1])) &&
         std::isdigit(static_cast<unsigned char>(token[2]));
}

/// A single letter, or F and a number, as illuminants are called.
bool is_short_name(std::string_view token) {
  if (token.size() == 1) return token == "A" || token == "B" || token == "C" || token == "E";
  return token[0] == 'F' && token.size() <= 3 &&
         std::all_of(token.begin() + 1, token.end(), [](unsigned char c) { return std::isdigit(c); });
}

}  // namespace

std::optional<White> known_white(std::string_view illuminant) {
  const auto known = std::find_if(known_whites.begin(), known_whites.end(),
                                  [&](const KnownWhite& white) { return white.name == illuminant; });
  if (known == known_whites.end()) return std::nullopt;
  return known->white;
}

Result<ScaleConditions> scale_conditions_from(const std::vector<std::string>& lines,
                                              std::string_view scale_name) {
  std::vector<std::string> illuminants;
  bool ten_degrees = false;
  for (const auto& line : lines) {
    const auto tokens = tokens_of(line);
    const auto speaks_of = [&](std::string_view word) {
      return std::find(tokens.begin(), tokens.end(), word) != tokens.end();
    };
    const bool of_observer = speaks_of("OBSERVER") || speaks_of("CIE") || speaks_of("ILLUMINANT");
    const bool of_light = speaks_of("ILLUMINANT") || speaks_of("WHITE");
    for (std::size_t i = 0; i < tokens.size(); ++i) {
      const bool after_illuminant = i > 0 && tokens[i - 1] == "ILLUMINANT";
      if (is_daylight(tokens[i]) || (of_light && after_illuminant && is_short_name(tokens[i])))
        illuminants.push_back(tokens[i]);
      const bool angle =
          tokens[i] == "10" && ((i + 1 < tokens.size() && tokens[i + 1].rfind("DEG", 0) == 0) ||
                                (i > 0 && (is_daylight(tokens[i - 1]) || tokens[i - 1] == "OBSERVER")));
      ten_degrees |=
          angle || tokens[i] == "10DEG" || tokens[i] == "10DEGREE" || (of_observer && tokens[i] == "1964");
    }
  }
  std::sort(illuminants.begin(), illuminants.end());
  illuminants.erase(std::unique(illuminants.begin(), illuminants.end()), illuminants.end());
  const auto refused = [&](const std::string& found, const char* advice) {
    return fail(ErrorCode::unreadable_table, fmt::format("Reading the scale '{}': {}.", scale_name, found),
                advice);
  };
  if (ten_degrees)
    return refused("its colours are for the 10 degree observer, those of the 2 degree observer were needed",
                   "Export the scale again for the CIE 1931 2 degree observer.");
  if (illuminants.size() > 1)
    return refused(
        fmt::format("it states the illuminants {}, one was needed", fmt::join(illuminants, " and ")),
        "State the light of the values once, as '# illuminant: D50'.");
  if (illuminants.empty()) return ScaleConditions{};
  const auto white = known_white(illuminants.front());
  if (!white)
    return refused(fmt::format("its colours are for illuminant {}; A, C, D50, D55 and D65 can be used",
                               illuminants.front()),
                   "Export the scale again for D50, 2 degree.");
  return ScaleConditions{illuminants.front(), *white};
}

}  // namespace colorlib
