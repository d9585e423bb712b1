#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <colorlib/base/median.hpp>
#include <colorlib/chart/reference_plausibility_internal.hpp>
#include <colorlib/colorimetry/color_difference.hpp>

namespace colorlib {
namespace {

/// No scale of 100 stays below it on a sheet whose paper is white; a scale of 1 never passes it.
constexpr double scale_of_one = 1.5;
/// Chroma that the chart has to ask for before its absence says anything.
constexpr double strong_chroma = 20;
/// Half of the patches farther off than this: no print. Prints of the simulated scenes are 1 to 4 off; a
/// print of 70 % of the contrast and 65 % of the chroma (uncoated paper) 9.5; of half the chroma, darker and
/// with a cast of 8 units 13; rows in another order 22 and more, on every shipped chart.
constexpr double farthest_print_de00 = 20;
/// Coordinates have to vary this much over the chart (standard deviation) before they are compared.
constexpr double least_spread = 5;
constexpr std::size_t least_patches = 8;
/// A mended reading of the file has to follow the chart better by this: the sum of three correlations, which
/// neither a cast nor a loss of contrast changes. On the shipped charts a print that is just as asked loses
/// 1.0 or more by any of the mends.
constexpr double far_better = 0.5;

/// How a file may have been written: which of its columns holds which coordinate, and with which sign.
struct Mend {
  std::array<std::size_t, 3> column;
  std::array<double, 3> sign;
  const char* words;
};
constexpr std::array mends{
    Mend{{0, 2, 1}, {1, 1, 1}, "the columns a* and b* are exchanged"},
    Mend{{1, 0, 2}, {1, 1, 1}, "the columns L* and a* are exchanged"},
    Mend{{2, 1, 0}, {1, 1, 1}, "the columns L* and b* are exchanged"},
    Mend{{0, 1, 2}, {1, -1, 1}, "the sign of a* is turned"},
    Mend{{0, 1, 2}, {1, 1, -1}, "the sign of b* is turned"},
    Mend{{0, 1, 2}, {1, -1, -1}, "the signs of a* and b* are turned"},
    Mend{{0, 1, 2}, {-1, 1, 1}, "L* counts from white to black"},
};

/// Centred values of one coordinate, and their norm.
struct Centred {
  std::vector<double> values;
  double norm = 0;
};

std::array<Centred, 3> centred(const std::vector<Lab>& colours) {
  std::array<Centred, 3> parts;
  const auto count = static_cast<double>(colours.size());
  for (std::size_t k = 0; k < 3; ++k) {
    double mean = 0, square = 0;
    for (const Lab& colour : colours) mean += vector_from(colour)[k] / count;
    for (const Lab& colour : colours) {
      const double off = vector_from(colour)[k] - mean;
      parts[k].values.push_back(off);
      square += off * off;
    }
    parts[k].norm = std::sqrt(square);
  }
  return parts;
}

double correlation(const Centred& one, const Centred& other) {
  if (one.norm == 0 || other.norm == 0) return 0;
  double sum = 0;
  for (std::size_t i = 0; i < one.values.size(); ++i) sum += one.values[i] * other.values[i];
  return sum / (one.norm * other.norm);
}

std::vector<Lab> nominal_of(const ChartDefinition& chart) {
  std::vector<Lab> colours;
  for (const Patch& patch : chart.patches) colours.push_back(patch.nominal_lab);
  return colours;
}

double largest_ab(const std::vector<Lab>& colours) {
  double largest = 0;
  for (const Lab& colour : colours) largest = std::max({largest, std::abs(colour.a), std::abs(colour.b)});
  return largest;
}

/// What makes the file follow the chart far better, if anything does.
const Mend* evident_mend(const std::array<Centred, 3>& file, const std::array<Centred, 3>& chart) {
  const auto score = [&](const Mend& mend) {
    double sum = 0;
    for (std::size_t k = 0; k < 3; ++k) sum += mend.sign[k] * correlation(file[mend.column[k]], chart[k]);
    return sum;
  };
  const double as_it_stands = score({{0, 1, 2}, {1, 1, 1}, ""});
  const auto best = std::max_element(mends.begin(), mends.end(), [&](const Mend& one, const Mend& other) {
    return score(one) < score(other);
  });
  return score(*best) > as_it_stands + far_better ? &*best : nullptr;
}

}  // namespace

std::optional<ImplausibleReference> why_no_print_has(const std::vector<Lab>& values,
                                                     const ChartDefinition& chart) {
  const double lightest =
      std::max_element(values.begin(), values.end(), [](const Lab& one, const Lab& other) {
        return one.l < other.l;
      })->l;
  const double strongest = largest_ab(values);
  if (lightest <= scale_of_one)
    return ImplausibleReference{
        fmt::format("its lightest patch has L* {:.2f}, as if {} stood on a scale of 0 to 1", lightest,
                    strongest <= scale_of_one ? "L*, a* and b*" : "L*"),
        "Multiply them by 100, or export them as they are meant: L* from 0 to 100, a* and b* beside it."};
  const std::vector<Lab> nominal = nominal_of(chart);
  const auto asked = centred(nominal);
  const double enough = least_spread * std::sqrt(static_cast<double>(values.size()));
  if (values.size() < least_patches ||
      std::any_of(asked.begin(), asked.end(), [&](const Centred& part) { return part.norm < enough; }))
    return std::nullopt;
  std::vector<double> apart;
  for (std::size_t i = 0; i < values.size(); ++i)
    apart.push_back(difference_ciede2000(values[i], nominal[i]));
  const double middle = median(std::move(apart));
  const std::string far = fmt::format(
      "half of its patches are ΔE00 {:.0f} or more from what {} asks its printer for", middle, chart.name);
  if (strongest <= scale_of_one && largest_ab(nominal) >= strong_chroma)
    return ImplausibleReference{
        fmt::format("{}: its a* and b* are no larger than {:.2f}, as if they stood on a scale of 0 to 1", far,
                    strongest),
        "Export a* and b* as they are meant; a print without colours cannot serve."};
  if (const Mend* mend = evident_mend(centred(values), asked))
    return ImplausibleReference{fmt::format("{}, and would follow it if {}", far, mend->words),
                                "Correct the columns and their names, and give the file again."};
  if (middle > farthest_print_de00)
    return ImplausibleReference{far,
                                "Check that the rows, columns and scales are right, and that the file was "
                                "measured on a print of this chart."};
  return std::nullopt;
}

}  // namespace colorlib
