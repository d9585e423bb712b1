#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/naming/munsell.hpp>
#include <optional>

namespace colorlib {
namespace {

constexpr std::array<std::string_view, 10> families = {"R", "YR", "Y", "GY", "G", "BG", "B", "PB", "P", "RP"};
constexpr double greatest_chroma = 60;
constexpr const char* how_to_write = "Write hue, value and chroma like '7.5YR 5/6', or a neutral like 'N 5'.";

tl::unexpected<Error> refused(std::string_view text, std::string_view found) {
  return fail(ErrorCode::bad_call,
              fmt::format("Reading the Munsell notation '{}': {}.", text.substr(0, 40), found), how_to_write);
}

/// ASTM D1535, Y in percent.
double percent_luminance(double v) {
  return ((((0.00081939 * v - 0.020484) * v + 0.23352) * v - 0.22533) * v + 1.1914) * v;
}
double percent_luminance_slope(double v) {
  return (((5 * 0.00081939 * v - 4 * 0.020484) * v + 3 * 0.23352) * v - 2 * 0.22533) * v + 1.1914;
}

/// Munsell values at even steps of the square root of the luminance.
class ValueTable {
 public:
  ValueTable() {
    std::size_t place = 0;
    constexpr double fine_step = 1.0 / 512;
    for (std::size_t i = 0; i < values_.size(); ++i) {
      const double percent = 100 * static_cast<double>(i * i) / (last * last);
      while (percent_luminance(static_cast<double>(place + 1) * fine_step) < percent && place < 5119) ++place;
      const double low = static_cast<double>(place) * fine_step;
      values_[i] = low + (percent - percent_luminance(low)) / percent_luminance_slope(low);
    }
  }
  double value_at(double percent) const {
    const double at = std::sqrt(percent / 100) * last;
    const auto i = std::min(static_cast<std::size_t>(at), values_.size() - 2);
    return values_[i] + (at - static_cast<double>(i)) * (values_[i + 1] - values_[i]);
  }

 private:
  static constexpr double last = 512;
  std::array<double, 513> values_{};
};

std::string upper_without_blanks(std::string_view text) {
  std::string result;
  for (const char c : text)
    if (!std::isspace(static_cast<unsigned char>(c)))
      result += static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  return result;
}

std::optional<double> number_within(std::string_view text, double least, double greatest) {
  const auto number = number_from(text);
  if (!number || !(*number >= least && *number <= greatest)) return std::nullopt;
  return number;
}

std::optional<double> hue_of(std::string_view compact) {
  const auto letters = compact.find_first_not_of("0123456789.");
  if (letters == std::string_view::npos || letters == 0) return std::nullopt;
  const auto family = std::find(families.begin(), families.end(), compact.substr(letters));
  const auto step = number_within(compact.substr(0, letters), 0, 10);
  if (family == families.end() || !step) return std::nullopt;
  return wrapped_hue_step(static_cast<double>(family - families.begin()) * 10 + *step);
}

Result<Munsell> neutral_from(std::string_view text, std::string_view value_and_chroma) {
  const auto slash = value_and_chroma.find('/');
  const auto value = number_within(value_and_chroma.substr(0, slash), 0, 10);
  if (!value) return refused(text, "the value of a neutral is a number from 0 to 10");
  if (slash != std::string_view::npos) {
    const auto chroma = value_and_chroma.substr(slash + 1);
    if (!chroma.empty() && number_from(chroma) != 0.0) return refused(text, "a neutral has no chroma");
  }
  return Munsell{0, *value, 0};
}

}  // namespace

double wrapped_hue_step(double hue_step) {
  const double wrapped = std::fmod(hue_step, 100.0);
  const double positive = wrapped < 0 ? wrapped + 100.0 : wrapped;
  return positive < 100.0 ? positive : 0.0;  // -1e-20 + 100 rounds to 100
}

double hue_steps_between(double from, double to) {
  const double way = wrapped_hue_step(to - from);
  return way > 50 ? way - 100 : way;
}

std::string notation_from(const Munsell& munsell) {
  const double value = std::round(munsell.value * 10) / 10;
  const double chroma = std::round(munsell.chroma * 10) / 10;
  if (!(chroma > 0)) return fmt::format("N {:.1f}", value);
  const int tenths = static_cast<int>(std::lround(wrapped_hue_step(munsell.hue_step) * 10)) % 1000;
  // 0 of a family is written as 10 of the one before.
  const int family = (tenths + 999) % 1000 / 100;
  const double step = (tenths - family * 100 + 1000) % 1000 / 10.0;
  return fmt::format("{:.1f}{} {:.1f}/{:.1f}", step, families[static_cast<std::size_t>(family)], value,
                     chroma);
}

Result<double> hue_step_from(std::string_view text) {
  const auto hue = hue_of(upper_without_blanks(text));
  if (!hue) return refused(text, "the hue is a number from 0 to 10 and one of R YR Y GY G BG B PB P RP");
  return *hue;
}

Result<Munsell> munsell_from_notation(std::string_view text) {
  const std::string compact = upper_without_blanks(text);
  if (compact.empty()) return refused(text, "nothing is written");
  if (compact.front() == 'N') return neutral_from(text, std::string_view(compact).substr(1));
  const auto letters_end = compact.find_last_of("RYGBP");
  const auto slash = compact.find('/');
  if (letters_end == std::string::npos || slash == std::string::npos || slash < letters_end)
    return refused(text, "there is no hue letter, or no slash between value and chroma");
  const std::string_view whole = compact;
  const auto hue = hue_of(whole.substr(0, letters_end + 1));
  if (!hue) return refused(text, "the hue is a number from 0 to 10 and one of R YR Y GY G BG B PB P RP");
  const auto value = number_within(whole.substr(letters_end + 1, slash - letters_end - 1), 0, 10);
  if (!value) return refused(text, "the value is a number from 0 to 10");
  const auto chroma = number_within(whole.substr(slash + 1), 0, greatest_chroma);
  if (!chroma) return refused(text, "the chroma is a number from 0 to 60");
  return Munsell{*chroma > 0 ? *hue : 0.0, *value, *chroma};
}

double luminance_from_munsell_value(double value) {
  return percent_luminance(std::clamp(value, 0.0, 10.0)) / 100;
}

double munsell_value_from_luminance(double y) {
  const double percent = std::clamp(y, 0.0, 1.0) * 100;
  if (!(percent > 0)) return 0;  // NaN too
  // Against the square root the value is nearly straight, so a table starts close by.
  static const ValueTable starts;
  double value = starts.value_at(percent);
  for (int i = 0; i < 20; ++i) {
    const double step = (percent_luminance(value) - percent) / percent_luminance_slope(value);
    value -= step;
    if (std::abs(step) < 1e-6) break;  // the next step would be its square
  }
  return std::clamp(value, 0.0, 10.0);
}

}  // namespace colorlib
