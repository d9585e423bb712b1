#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/colorimetry/spectrum.hpp>

namespace colorlib {
namespace {

// A reflectance must tell about this range itself; what lies outside weighs little enough to be held.
constexpr double needed_from_nm = 400, needed_to_nm = 700, coarsest_nm = 20;

bool all_finite(const Spectrum& spectrum) {
  return std::isfinite(spectrum.start_nm) && std::isfinite(spectrum.step_nm) &&
         std::all_of(spectrum.values.begin(), spectrum.values.end(),
                     [](double v) { return std::isfinite(v); });
}

/// What is wrong with the samples of any spectrum, or nothing.
std::string complaint_about(const Spectrum& spectrum) {
  if (spectrum.values.size() < 2)
    return fmt::format("holds {} samples, at least two are needed", spectrum.values.size());
  if (!all_finite(spectrum)) return "holds a value that is not a finite number";
  if (spectrum.step_nm <= 0)
    return fmt::format("has steps of {:g} nm, they must be positive", spectrum.step_nm);
  return {};
}

std::string complaint_about_reflectance(const Spectrum& reflectance) {
  if (auto complaint = complaint_about(reflectance); !complaint.empty()) return complaint;
  if (reflectance.step_nm > coarsest_nm)
    return fmt::format("has steps of {:g} nm, at most {:g} nm can be used", reflectance.step_nm, coarsest_nm);
  if (reflectance.start_nm > needed_from_nm || reflectance.end_nm() < needed_to_nm)
    return fmt::format("reaches from {:g} to {:g} nm, {:g} to {:g} nm are needed", reflectance.start_nm,
                       reflectance.end_nm(), needed_from_nm, needed_to_nm);
  return {};
}

bool same_grid(const Spectrum& a, const Spectrum& b) {
  return a.start_nm == b.start_nm && a.step_nm == b.step_nm && a.values.size() == b.values.size();
}

std::string complaint_about_observer(const Observer& observer) {
  for (const auto* function : {&observer.x_bar, &observer.y_bar, &observer.z_bar}) {
    if (auto complaint = complaint_about(*function); !complaint.empty()) return complaint;
    if (!same_grid(*function, observer.x_bar))
      return "has colour-matching functions on different wavelengths";
  }
  return {};
}

tl::unexpected<Error> refusal(std::string_view thing, const std::string& complaint) {
  return fail(ErrorCode::bad_call,
              fmt::format("Summing a spectrum to a colour: the {} {}.", thing, complaint),
              "Give a spectrum in even steps of at most 20 nm from 400 nm or less to 700 nm or more.");
}

/// The sums for reflectance 1 where `reflectance` is null.
Result<Xyz> summed(const Spectrum* reflectance, const Spectrum& illuminant, const Observer& observer) {
  if (const auto complaint = complaint_about_observer(observer); !complaint.empty())
    return refusal("observer", complaint);
  if (const auto complaint = complaint_about(illuminant); !complaint.empty())
    return refusal("illuminant", complaint);
  Xyz sum;
  double norm = 0;
  for (std::size_t i = 0; i < observer.x_bar.values.size(); ++i) {
    const double wavelength = observer.x_bar.wavelength_nm(i);
    const double power = value_at(illuminant, wavelength);
    const double light = reflectance ? power * value_at(*reflectance, wavelength) : power;
    sum.x += light * observer.x_bar.values[i];
    sum.y += light * observer.y_bar.values[i];
    sum.z += light * observer.z_bar.values[i];
    norm += power * observer.y_bar.values[i];
  }
  if (!(norm > 0)) return refusal("illuminant", "has no power where the observer sees");
  const Xyz xyz{sum.x / norm, sum.y / norm, sum.z / norm};
  if (!std::isfinite(xyz.x) || !std::isfinite(xyz.y) || !std::isfinite(xyz.z))
    return refusal("spectrum", "is too large to be summed");
  return xyz;
}

}  // namespace

double value_at(const Spectrum& spectrum, double wavelength_nm) {
  const auto& values = spectrum.values;
  if (values.empty()) return 0;
  const double place = (wavelength_nm - spectrum.start_nm) / spectrum.step_nm;
  if (!(place > 0)) return values.front();
  if (place >= static_cast<double>(values.size() - 1)) return values.back();
  const std::size_t count = std::min<std::size_t>(4, values.size());
  const auto below = static_cast<std::size_t>(place);
  const std::size_t first = std::min(below > 0 ? below - 1 : 0, values.size() - count);
  const double offset = place - static_cast<double>(first);
  double sum = 0;
  for (std::size_t i = 0; i < count; ++i) {
    double weight = 1;
    for (std::size_t j = 0; j < count; ++j)
      if (j != i)
        weight *= (offset - static_cast<double>(j)) / (static_cast<double>(i) - static_cast<double>(j));
    sum += weight * values[first + i];
  }
  return sum;
}

Spectrum resampled(const Spectrum& spectrum, double start_nm, double step_nm, std::size_t count) {
  Spectrum result{start_nm, step_nm, {}};
  result.values.reserve(count);
  for (std::size_t i = 0; i < count; ++i)
    result.values.push_back(value_at(spectrum, result.wavelength_nm(i)));
  return result;
}

Result<Xyz> xyz_from_reflectance(const Spectrum& reflectance, const Spectrum& illuminant,
                                 const Observer& observer) {
  if (const auto complaint = complaint_about_reflectance(reflectance); !complaint.empty())
    return refusal("reflectance", complaint);
  return summed(&reflectance, illuminant, observer);
}

Result<White> white_of(const Spectrum& illuminant, const Observer& observer) {
  return summed(nullptr, illuminant, observer);
}

Result<Lab> lab_from_reflectance(const Spectrum& reflectance, const Spectrum& illuminant,
                                 const Observer& observer) {
  const auto xyz = xyz_from_reflectance(reflectance, illuminant, observer);
  if (!xyz) return fail(xyz.error());
  const auto white = white_of(illuminant, observer);
  if (!white) return fail(white.error());
  return lab_from_xyz(*xyz, *white);
}

}  // namespace colorlib
