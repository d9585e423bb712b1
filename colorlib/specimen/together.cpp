#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/specimen/outlier_photos_internal.hpp>
#include <colorlib/specimen/region_reading.hpp>
#include <colorlib/specimen/thickest_tenth.hpp>
#include <colorlib/specimen/together.hpp>
#include <limits>

namespace colorlib {
namespace {

using Photos = std::vector<const Reading*>;  ///< the readings whose mean counts

/// A share's mean over the photos that tell it.
std::optional<double> mean_share(const Photos& photos, std::optional<double> Reading::*share_of) {
  double sum = 0;
  int count = 0;
  for (const Reading* one : photos)
    if (const auto& share = one->*share_of) sum += *share, ++count;
  return count > 0 ? std::optional<double>(sum / count) : std::nullopt;
}

Lab mean_lab(const Photos& photos) {
  Vector3 mean{};
  for (const Reading* one : photos)
    for (std::size_t k = 0; k < 3; ++k)
      mean[k] += vector_from(one->lab)[k] / static_cast<double>(photos.size());
  return lab_from(mean);
}

/// Every flag of any photo, once.
std::vector<Flag> flags_of(const Photos& photos) {
  std::vector<Flag> flags;
  for (const Reading* one : photos)
    for (const Flag& flag : one->flags)
      if (std::none_of(flags.begin(), flags.end(), [&](const Flag& f) { return f.code == flag.code; }))
        flags.push_back(flag);
  return flags;
}

/// Of the mean: what photos share stays, what differs from photo to photo shrinks with their number.
std::vector<BudgetComponent> mean_budget(const Photos& photos) {
  const auto count = static_cast<double>(photos.size());
  std::vector<BudgetComponent> budget;
  for (const Reading* one : photos)
    for (const auto& part : one->budget) {
      auto sum = std::find_if(budget.begin(), budget.end(),
                              [&](const BudgetComponent& b) { return b.name == part.name; });
      if (sum == budget.end()) sum = budget.insert(sum, {part.name, {}});
      const double share = shared_between_photos(part.name) ? 1 / count : 1 / (count * count);
      sum->covariance = sum->covariance + share * part.covariance;
    }
  return budget;
}

/// Without covariance, agreement and thickest tenth yet.
Reading mean_reading(const Photos& photos) {
  Reading mean = *photos.front();  // what is not told of all photos is told of one that counts
  mean.lab = mean_lab(photos);
  mean.pixels = 0;
  mean.glint_share = 0;
  for (const Reading* one : photos) {
    mean.pixels += one->pixels;
    mean.glint_share = std::max(mean.glint_share, one->glint_share);
  }
  mean.coverage_share = mean_share(photos, &Reading::coverage_share);
  mean.foreign_share = mean_share(photos, &Reading::foreign_share);
  mean.flags = flags_of(photos);
  mean.budget = mean_budget(photos);
  return mean;
}

/// Covariance of a photo's Lab as the photos show it.
Matrix3 scatter_of(const Photos& photos, const Lab& mean) {
  Matrix3 scatter;
  for (const Reading* one : photos) {
    const Vector3 away{one->lab.l - mean.l, one->lab.a - mean.a, one->lab.b - mean.b};
    scatter = scatter + 1 / (static_cast<double>(photos.size()) - 1) * outer(away);
  }
  return scatter;
}

/// What the photos differ by beyond what their budgets say; it belongs to the mean, too.
Matrix3 beyond_budget(const Matrix3& scatter, const std::vector<BudgetComponent>& budget,
                      std::size_t photos) {
  Matrix3 budgeted;  // what should differ between photos, of the mean
  for (const auto& part : budget)
    if (!shared_between_photos(part.name)) budgeted = budgeted + part.covariance;
  Matrix3 beyond;
  for (int k = 0; k < 3; ++k)
    beyond(k, k) = std::max(scatter(k, k) / static_cast<double>(photos) - budgeted(k, k), 0.0);
  return beyond;
}

/// Of all photos, those that were refused or left out too, with the mean.
PhotoAgreement agreement_of(std::span<const Reading* const> readings, OutlierPhotos photos, const Lab& mean,
                            const Matrix3& scatter) {
  PhotoAgreement agreement;
  agreement.photos = photos.used.size() + photos.left_out.size();
  for (const Reading* one : readings)
    agreement.de00_from_mean.push_back(one == nullptr || one->refused
                                           ? std::numeric_limits<double>::quiet_NaN()
                                           : difference_ciede2000(mean, one->lab));
  double squares = 0;
  for (const std::size_t i : photos.used) squares += std::pow(agreement.de00_from_mean[i], 2);
  agreement.repeatability_de00 = std::sqrt(squares / (static_cast<double>(photos.used.size()) - 1));
  for (int k = 0; k < 3; ++k) agreement.repeatability[static_cast<std::size_t>(k)] = std::sqrt(scatter(k, k));
  agreement.outliers = std::move(photos.left_out);
  return agreement;
}

}  // namespace

bool shared_between_photos(std::string_view component) {
  constexpr std::string_view own[] = {"noise", "light", "coefficients", "glint", "black-level"};
  return std::find(std::begin(own), std::end(own), component) == std::end(own);
}

Result<Reading> combined(std::span<const Reading* const> readings, const TogetherOptions& options) {
  OutlierPhotos sifted = outlier_photos(readings, options);
  if (sifted.used.size() < 2)
    return fail(
        ErrorCode::untrustworthy,
        fmt::format(
            "Reading the photos together: the region stands in {} of {} photos, at least two are needed.",
            sifted.used.size(), readings.size()),
        "Leave --together out, or take more photos.");
  Photos photos;
  for (const std::size_t i : sifted.used) photos.push_back(readings[i]);

  Reading result = mean_reading(photos);
  const Matrix3 scatter = scatter_of(photos, result.lab);
  const Matrix3 beyond = beyond_budget(scatter, result.budget, photos.size());
  if (const double by_photos = expanded_de00(result.lab, beyond); by_photos > says_nothing_de00)
    return fail(
        ErrorCode::untrustworthy,
        fmt::format("Reading the photos together: region '{}' differs so much between {} photos that "
                    "its mean would be stated within ΔE00 {:.0f} (95 %); more than {:.0f} says nothing.",
                    result.id, photos.size(), by_photos, says_nothing_de00),
        "Read the photos one by one: the region must hold the same specimen in each of them.");
  result.budget.push_back({"repeatability", beyond});
  result.lab_covariance = Matrix3{};
  for (const auto& part : result.budget) result.lab_covariance = result.lab_covariance + part.covariance;
  result.lab_expanded = expanded_uncertainty(result.lab_covariance);
  result.de00_expanded = expanded_de00(result.lab, result.lab_covariance);
  result.tenth = mean_tenth(photos, result.lab, result.lab_covariance);

  if (!sifted.left_out.empty()) result.flags.push_back(flag("outlier-photo"));
  if (photos.size() == 2 && distance_from(*photos[0], {photos[1]}, options) > options.outlier_distance)
    result.flags.push_back(flag("photos-disagree"));
  result.agreement = agreement_of(readings, std::move(sifted), result.lab, scatter);
  return result;
}

}  // namespace colorlib
