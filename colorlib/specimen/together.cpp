#include <fmt/format.h>

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/specimen/region_reading.hpp>
#include <colorlib/specimen/thickest_tenth.hpp>
#include <colorlib/specimen/together.hpp>
#include <limits>
#include <map>

namespace colorlib {
namespace {

/// L*, a*, b* of the median photo by coordinate.
Lab median_of(const std::vector<const Reading*>& readings) {
  Vector3 middle{};
  for (std::size_t axis = 0; axis < 3; ++axis) {
    std::vector<double> values;
    for (const Reading* r : readings) values.push_back(vector_from(r->lab)[axis]);
    std::sort(values.begin(), values.end());
    const std::size_t half = values.size() / 2;
    middle[axis] = values.size() % 2 == 1 ? values[half] : (values[half - 1] + values[half]) / 2;
  }
  return lab_from(middle);
}

Matrix3 own_part(const Reading& reading, const TogetherOptions& options) {
  Matrix3 own;
  for (const auto& part : reading.budget)
    if (!shared_between_photos(part.name)) own = own + part.covariance;
  const Vector3 weight = ciede2000_axis_weights(reading.lab);
  for (int k = 0; k < 3; ++k)
    own(k, k) += std::pow(options.least_difference * weight[static_cast<std::size_t>(k)], 2);
  return own;
}

/// A share's mean over the photos that tell it.
std::optional<double> mean_share(std::span<const Reading* const> readings,
                                 const std::vector<std::size_t>& used,
                                 std::optional<double> Reading::*share_of) {
  double sum = 0;
  int count = 0;
  for (const std::size_t i : used)
    if (const auto& share = readings[i]->*share_of) sum += *share, ++count;
  return count > 0 ? std::optional<double>(sum / count) : std::nullopt;
}

/// How far a photo lies from the others, in standard deviations of what photos differ by.
double distance_from(const Reading& reading, const std::vector<const Reading*>& others,
                     const TogetherOptions& options) {
  const Lab middle = median_of(others);
  // Lack of fit differs a little from light to light, too: a quarter of its variance counts as the photo's
  // own.
  const Matrix3 spread = own_part(reading, options) + 0.25 * reading.lab_covariance;
  const Eigen::Vector3d away(reading.lab.l - middle.l, reading.lab.a - middle.a, reading.lab.b - middle.b);
  const Eigen::Matrix3d covariance =
      Eigen::Map<const Eigen::Matrix<double, 3, 3, Eigen::RowMajor>>(spread.m.data());
  // The median of the others is uncertain as well.
  const double share = 1 + 1.57 / static_cast<double>(others.size());
  return std::sqrt(away.dot((share * covariance).ldlt().solve(away)));
}

}  // namespace

bool shared_between_photos(std::string_view component) {
  constexpr std::string_view own[] = {"noise", "light", "coefficients", "glint", "black-level"};
  return std::find(std::begin(own), std::end(own), component) == std::end(own);
}

Result<Reading> combined(std::span<const Reading* const> readings, const TogetherOptions& options) {
  std::vector<std::size_t> used;
  for (std::size_t i = 0; i < readings.size(); ++i)
    if (readings[i] != nullptr && !readings[i]->refused) used.push_back(i);
  const std::size_t standing = used.size();
  if (standing < 2)
    return fail(
        ErrorCode::untrustworthy,
        fmt::format(
            "Reading the photos together: the region stands in {} of {} photos, at least two are needed.",
            standing, readings.size()),
        "Leave --together out, or take more photos.");
  PhotoAgreement agreement;
  agreement.photos = standing;
  // The farthest goes first; more than half of the photos always stay.
  while (used.size() >= 3 && 2 * (used.size() - 1) > standing) {
    std::size_t farthest = 0;
    double most = 0;
    for (std::size_t u = 0; u < used.size(); ++u) {
      std::vector<const Reading*> others;
      for (const std::size_t i : used)
        if (i != used[u]) others.push_back(readings[i]);
      if (const double distance = distance_from(*readings[used[u]], others, options); distance > most)
        most = distance, farthest = u;
    }
    if (most <= options.outlier_distance) break;
    agreement.outliers.push_back(used[farthest]);
    used.erase(used.begin() + static_cast<std::ptrdiff_t>(farthest));
  }

  Reading result = *readings[used.front()];  // what is not told of all photos is told of one that counts
  const double count = static_cast<double>(used.size());
  Vector3 mean{};
  for (const std::size_t i : used)
    for (std::size_t k = 0; k < 3; ++k) mean[k] += vector_from(readings[i]->lab)[k] / count;
  result.lab = lab_from(mean);
  Matrix3 scatter;
  std::map<std::string, Matrix3> parts;
  std::vector<std::string> order;
  result.pixels = 0;
  result.glint_share = 0;
  result.coverage_share = mean_share(readings, used, &Reading::coverage_share);
  result.foreign_share = mean_share(readings, used, &Reading::foreign_share);
  result.flags.clear();
  for (const std::size_t i : used) {
    const Reading& one = *readings[i];
    const Vector3 lab = vector_from(one.lab);
    const Vector3 away{lab[0] - mean[0], lab[1] - mean[1], lab[2] - mean[2]};
    scatter = scatter + 1 / (count - 1) * outer(away);
    result.pixels += one.pixels;
    result.glint_share = std::max(result.glint_share, one.glint_share);
    for (const auto& part : one.budget) {
      if (!parts.contains(part.name)) order.push_back(part.name);
      const double share = shared_between_photos(part.name) ? 1 / count : 1 / (count * count);
      parts[part.name] = parts[part.name] + share * part.covariance;
    }
    for (const Flag& flag : one.flags)
      if (std::none_of(result.flags.begin(), result.flags.end(),
                       [&](const Flag& f) { return f.code == flag.code; }))
        result.flags.push_back(flag);
  }
  Matrix3 budgeted;  // what should differ between photos, of the mean
  result.budget.clear();
  for (const std::string& name : order) {
    result.budget.push_back({name, parts[name]});
    if (!shared_between_photos(name)) budgeted = budgeted + parts[name];
  }
  // What the photos show beyond that belongs to the mean, too.
  Matrix3 beyond;
  for (int k = 0; k < 3; ++k) beyond(k, k) = std::max(scatter(k, k) / count - budgeted(k, k), 0.0);
  if (const double by_photos = expanded_de00(result.lab, beyond); by_photos > says_nothing_de00)
    return fail(
        ErrorCode::untrustworthy,
        fmt::format("Reading the photos together: region '{}' differs so much between {} photos that "
                    "its mean would be stated within ΔE00 {:.0f} (95 %); more than {:.0f} says nothing.",
                    result.id, used.size(), by_photos, says_nothing_de00),
        "Read the photos one by one: the region must hold the same specimen in each of them.");
  result.budget.push_back({"repeatability", beyond});
  result.lab_covariance = Matrix3{};
  for (const auto& part : result.budget) result.lab_covariance = result.lab_covariance + part.covariance;
  result.lab_expanded = expanded_uncertainty(result.lab_covariance);
  result.de00_expanded = expanded_de00(result.lab, result.lab_covariance);
  std::vector<const Reading*> counting;
  for (const std::size_t i : used) counting.push_back(readings[i]);
  result.tenth = mean_tenth(counting, result.lab, result.lab_covariance);

  double squares = 0;
  for (const Reading* one : readings)
    agreement.de00_from_mean.push_back(one == nullptr || one->refused
                                           ? std::numeric_limits<double>::quiet_NaN()
                                           : difference_ciede2000(result.lab, one->lab));
  for (const std::size_t i : used) squares += std::pow(agreement.de00_from_mean[i], 2);
  agreement.repeatability_de00 = std::sqrt(squares / (count - 1));
  for (int k = 0; k < 3; ++k) agreement.repeatability[static_cast<std::size_t>(k)] = std::sqrt(scatter(k, k));
  std::sort(agreement.outliers.begin(), agreement.outliers.end());
  if (!agreement.outliers.empty()) result.flags.push_back(flag("outlier-photo"));
  const bool disagree = used.size() == 2 && distance_from(*readings[used[0]], {readings[used[1]]}, options) >
                                                options.outlier_distance;
  if (disagree) result.flags.push_back(flag("photos-disagree"));
  result.agreement = std::move(agreement);
  return result;
}

}  // namespace colorlib
