#include <gmock/gmock.h>

#include <cmath>
#include <colorlib/calibration/error_budget.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/specimen/together.hpp>
#include <random>

#include "tests/support/color_matchers.hpp"

namespace colorlib {
namespace {

constexpr double shared_sd = 0.3, own_sd = 0.4;

Reading reading_of(const Lab& lab) {
  Reading reading;
  reading.id = std::string("A");  // GCC 12 warns falsely of a literal assigned here
  reading.kind = RegionKind::deposit;
  reading.lab = lab;
  reading.pixels = 1000;
  reading.budget = {
      {"lack-of-fit", Matrix3::diagonal(shared_sd * shared_sd, shared_sd * shared_sd, shared_sd * shared_sd)},
      {"light", Matrix3::diagonal(own_sd * own_sd, own_sd * own_sd, own_sd * own_sd)}};
  for (const auto& part : reading.budget) reading.lab_covariance = reading.lab_covariance + part.covariance;
  return reading;
}

std::vector<const Reading*> pointers(const std::vector<Reading>& readings) {
  std::vector<const Reading*> all;
  for (const auto& reading : readings) all.push_back(&reading);
  return all;
}

bool has_flag(const Reading& reading, std::string_view code) {
  for (const Flag& flag : reading.flags)
    if (flag.code == code) return true;
  return false;
}

TEST(Together, MeanAndWhatItsUncertaintyHolds) {
  const std::vector<Reading> photos{reading_of({50, 10, 20}), reading_of({50.6, 10, 20}),
                                    reading_of({49.4, 10, 20})};
  const auto mean = combined(pointers(photos), {});
  ASSERT_TRUE(mean) << mean.error().message;
  EXPECT_NEAR(mean->lab.l, 50, 1e-12);
  EXPECT_EQ(mean->pixels, 3000u);
  EXPECT_NEAR(mean->agreement->repeatability[0], 0.6, 1e-12);
  EXPECT_NEAR(mean->agreement->repeatability[1], 0, 1e-12);
  EXPECT_TRUE(mean->agreement->outliers.empty());
  // L*: seen 0.6 is more than the expected 0.4; a*: expected 0.4 stands. The shared part does not shrink.
  EXPECT_NEAR(mean->lab_covariance(0, 0), shared_sd * shared_sd + 0.36 / 3, 1e-12);
  EXPECT_NEAR(mean->lab_covariance(1, 1), shared_sd * shared_sd + own_sd * own_sd / 3, 1e-12);
  Matrix3 sum;
  for (const auto& part : mean->budget) sum = sum + part.covariance;
  EXPECT_EQ(sum, mean->lab_covariance);
}

TEST(Together, TheTenthKeepsItsMeanWayFromTheMean) {
  std::vector<Reading> photos{reading_of({50, 10, 20}), reading_of({50.6, 10, 20})};
  const Matrix3 own = Matrix3::diagonal(0.09, 0.04, 0.04);
  for (Reading& photo : photos) {
    photo.tenth.emplace();
    photo.tenth->lab = {photo.lab.l - 3, photo.lab.a + 2, photo.lab.b};
    photo.tenth->lab_covariance = photo.lab_covariance + own;
  }
  photos[1].tenth->lab.l -= 1;
  const auto mean = combined(pointers(photos), {});
  ASSERT_TRUE(mean && mean->tenth);
  EXPECT_NEAR(mean->tenth->lab.l, 50.3 - 3.5, 1e-12);
  EXPECT_NEAR(mean->tenth->lab.a, 12, 1e-12);
  EXPECT_NEAR(mean->tenth->de00_from_mean, difference_ciede2000(mean->lab, mean->tenth->lab), 1e-12);
  // What blurs the way is the same in every photo: it does not shrink with their number.
  EXPECT_NEAR(mean->tenth->lab_covariance(0, 0), mean->lab_covariance(0, 0) + 0.09, 1e-12);
  photos[1].tenth.reset();
  EXPECT_FALSE(combined(pointers(photos), {})->tenth);
}

TEST(Together, TheOutlierIsNamedAndLeftOut) {
  const std::vector<Reading> photos{reading_of({50, 10, 20}), reading_of({50.3, 10.1, 20}),
                                    reading_of({56, 10, 12}), reading_of({49.8, 9.9, 20.2})};
  const auto mean = combined(pointers(photos), {});
  ASSERT_TRUE(mean);
  EXPECT_THAT(mean->agreement->outliers, testing::ElementsAre(2u));
  EXPECT_NEAR(mean->lab.l, (50 + 50.3 + 49.8) / 3, 1e-12);
  EXPECT_TRUE(has_flag(*mean, "outlier-photo"));
  EXPECT_GT(mean->agreement->de00_from_mean[2], 5);
}

TEST(Together, GoodPhotosAreHardlyEverCalledOutliersAndCoverageHolds) {
  std::mt19937_64 random(20261125);
  std::normal_distribution<double> unit;
  int outliers = 0, covered = 0;
  constexpr int trials = 1000;
  const Lab truth{50, 10, 20};
  for (int trial = 0; trial < trials; ++trial) {
    const Lab common{truth.l + shared_sd * unit(random), truth.a + shared_sd * unit(random),
                     truth.b + shared_sd * unit(random)};
    std::vector<Reading> photos;
    for (int i = 0; i < 3; ++i)
      photos.push_back(reading_of({common.l + own_sd * unit(random), common.a + own_sd * unit(random),
                                   common.b + own_sd * unit(random)}));
    const auto mean = combined(pointers(photos), {});
    ASSERT_TRUE(mean);
    outliers += !mean->agreement->outliers.empty();
    covered += difference_ciede2000(mean->lab, truth) <= mean->de00_expanded;
  }
  std::printf("%d trials: %d outliers called, truth within the tolerance %d times\n", trials, outliers,
              covered);
  EXPECT_LE(outliers, 0.01 * trials);
  EXPECT_GE(covered, 0.94 * trials);
  EXPECT_LE(covered, 0.995 * trials);
}

TEST(Together, NothingOfAPhotoLeftOutIsKept) {
  std::vector<Reading> photos{reading_of({56, 10, 12}), reading_of({50.3, 10.1, 20}),
                              reading_of({50, 10, 20}), reading_of({49.8, 9.9, 20.2})};
  photos[0].glint_share = 0.3;
  photos[0].area_mm2 = 400;
  photos[0].coverage_share = 0.4;
  photos[0].region.shape = EllipseShape{80, 80, 11, 11};
  for (std::size_t i = 1; i < photos.size(); ++i) {
    photos[i].glint_share = 0.01 * static_cast<double>(i);
    photos[i].area_mm2 = 200;
    photos[i].coverage_share = 0.8 + 0.01 * static_cast<double>(i);
    photos[i].region.shape = EllipseShape{100, 70, 8, 8};
  }
  const auto mean = combined(pointers(photos), {});
  ASSERT_TRUE(mean);
  ASSERT_THAT(mean->agreement->outliers, testing::ElementsAre(0u));
  EXPECT_EQ(mean->glint_share, 0.03) << "the most of those used";
  EXPECT_EQ(mean->area_mm2, 200);
  EXPECT_NEAR(mean->coverage_share.value(), 0.82, 1e-12);
  EXPECT_EQ(std::get<EllipseShape>(mean->region.shape).x, 100);
}

TEST(Together, TwoThatDisagreeAreBothKeptAndFlagged) {
  const std::vector<Reading> photos{reading_of({50, 10, 20}), reading_of({58, 10, 20})};
  const auto mean = combined(pointers(photos), {});
  ASSERT_TRUE(mean);
  EXPECT_TRUE(has_flag(*mean, "photos-disagree"));
  EXPECT_TRUE(mean->agreement->outliers.empty());
  EXPECT_GT(mean->lab_expanded[0], 4);
}

TEST(Together, PhotosOfDifferentThingsHaveNoMean) {
  const std::vector<Reading> photos{reading_of({30, 10, 20}), reading_of({75, 10, 20})};
  EXPECT_THAT(combined(pointers(photos), {}),
              FailsWith(ErrorCode::untrustworthy, testing::HasSubstr("region 'A' differs so much")));
}

TEST(Together, RefusedReadingsArePassedOverAndOneIsNotEnough) {
  std::vector<Reading> photos{reading_of({50, 10, 20}), reading_of({50.1, 10, 20}), reading_of({50, 10, 20})};
  photos[1].refused = Error{ErrorCode::untrustworthy, "glare", "less light"};
  const auto mean = combined(pointers(photos), {});
  ASSERT_TRUE(mean);
  EXPECT_EQ(mean->agreement->photos, 2u);
  EXPECT_TRUE(std::isnan(mean->agreement->de00_from_mean[1]));
  photos[2].refused = photos[1].refused;
  EXPECT_THAT(combined(pointers(photos), {}),
              FailsWith(ErrorCode::untrustworthy, testing::HasSubstr("in 1 of 3 photos")));
}

}  // namespace
}  // namespace colorlib
