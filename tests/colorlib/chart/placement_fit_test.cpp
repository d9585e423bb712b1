#include <gtest/gtest.h>
#include <colorlib/chart/placement_fit.hpp>

#include <cmath>
#include <cstdio>

#include "tests/colorlib/chart/sheet_photo.hpp"

namespace colorlib {
namespace {

using test::Camera;
using test::RandomStance;
using test::Stance;

Camera random_camera(RandomStance& random, double radial) {
  Stance stance;
  stance.width_px = 4000;
  stance.height_px = 3000;
  stance.tilt_deg = random.uniform(0, 30);
  stance.tilt_towards_deg = random.uniform(0, 360);
  stance.rotation_deg = random.uniform(0, 360);
  stance.radial = radial;
  return Camera(test::small_frame(), stance);
}

/// Borders along x and y on a grid over part of the sheet.
std::vector<EdgeObservation> borders(const Placement& truth, double width_mm, double height_mm,
                                     double step_mm, double noise_px, RandomStance& random) {
  std::vector<EdgeObservation> all;
  for (double x = 5; x <= width_mm; x += step_mm)
    for (double y = 5; y <= height_mm; y += step_mm) {
      const bool upright = all.size() % 2 == 0;
      const auto j = truth.jacobian({x, y});
      const PointPx along = upright ? PointPx{j[1], j[3]} : PointPx{j[0], j[2]};
      const double length = std::hypot(along.x, along.y);
      EdgeObservation o;
      o.sheet = {x, y};
      o.normal = {-along.y / length, along.x / length};
      o.sd_px = noise_px;
      double bell = -6;
      for (int i = 0; i < 12; ++i) bell += random.uniform(0, 1);
      const double slide = random.uniform(-3, 3);  // along the border nothing is known
      const PointPx at = truth.px_from_mm(o.sheet);
      o.photo = {at.x + noise_px * bell * o.normal.x - slide * o.normal.y,
                 at.y + noise_px * bell * o.normal.y + slide * o.normal.x};
      all.push_back(o);
    }
  return all;
}

Placement rough_start(const Placement& truth) {
  Placement start = truth;
  start.radial = 0;
  start.homography(0, 2) += 30;
  start.homography(0, 0) *= 1.01;
  return start;
}

double worst_error_px(const Placement& a, const Placement& b) {
  double worst = 0;
  for (double x = 0; x <= 210; x += 30)
    for (double y = 0; y <= 148; y += 37) {
      const PointPx p = a.px_from_mm({x, y}), q = b.px_from_mm({x, y});
      worst = std::max(worst, std::hypot(p.x - q.x, p.y - q.y));
    }
  return worst;
}

TEST(HomographyFromPairs, RecoversAnExactOneFromFourPairsAndFromMany) {
  RandomStance random(21);
  double worst = 0;
  for (int trial = 0; trial < 200; ++trial) {
    const Placement truth = random_camera(random, 0).placement();
    std::vector<PointPair> pairs;
    for (const PointMm& p : {PointMm{0, 0}, PointMm{210, 0}, PointMm{210, 148}, PointMm{0, 148}})
      pairs.push_back({p, truth.px_from_mm(p)});
    if (trial % 2)
      for (int i = 0; i < 20; ++i) {
        const PointMm p{random.uniform(0, 210), random.uniform(0, 148)};
        pairs.push_back({p, truth.px_from_mm(p)});
      }
    const auto found = homography_from_pairs(pairs);
    ASSERT_TRUE(found);
    Placement placement = truth;
    placement.homography = *found;
    worst = std::max(worst, worst_error_px(truth, placement));
  }
  std::printf("seed 21, 200 trials, worst %.2e px\n", worst);
  EXPECT_LE(worst, 1e-5);  // squared condition of a normalised DLT times rounding, on 4000 px
}

TEST(HomographyFromPairs, RefusesTooFewOrDegeneratePairs) {
  const std::vector<PointPair> three = {{{0, 0}, {0, 0}}, {{1, 0}, {9, 0}}, {{0, 1}, {0, 9}}};
  EXPECT_FALSE(homography_from_pairs(three));
  const std::vector<PointPair> on_a_line = {
      {{0, 0}, {0, 0}}, {{1, 0}, {9, 0}}, {{2, 0}, {18, 0}}, {{3, 0}, {27, 0}}};
  EXPECT_FALSE(homography_from_pairs(on_a_line));
  const std::vector<PointPair> one_place(4, {{5, 5}, {7, 7}});
  EXPECT_FALSE(homography_from_pairs(one_place));
}

TEST(FitPlacement, ExactBordersGiveTheExactPlacement) {
  RandomStance random(22);
  double worst = 0;
  for (int trial = 0; trial < 100; ++trial) {
    const Placement truth = random_camera(random, random.uniform(-0.03, 0.03)).placement();
    PlacementFitOptions options;
    options.radial_sd = 1;  // the prior would pull by what it is worth
    const auto fit = fit_placement(rough_start(truth), borders(truth, 205, 143, 12, 1e-9, random), options);
    ASSERT_TRUE(fit);
    EXPECT_NEAR(fit->placement.radial, truth.radial, 1e-5);
    worst = std::max(worst, worst_error_px(truth, fit->placement));
  }
  std::printf("seed 22, 100 trials, worst %.2e px\n", worst);
  EXPECT_LE(worst, 1e-2);  // a prior of 1 on the radial term pulls by 1e-5 of it
}

TEST(FitPlacement, ErrorsAreAsLargeAsStated) {
  // Mean squared error over stated variance, along x and y at nine places: 1 if the covariance is right.
  RandomStance random(23);
  double sum = 0, count = 0, worst = 0;
  for (int trial = 0; trial < 300; ++trial) {
    const Placement truth = random_camera(random, random.uniform(-0.03, 0.03)).placement();
    PlacementFitOptions options;
    options.model_sd_px = 0;
    const auto fit = fit_placement(rough_start(truth), borders(truth, 205, 143, 12, 0.3, random), options);
    ASSERT_TRUE(fit);
    for (double x = 5; x <= 205; x += 100)
      for (double y = 4; y <= 144; y += 70) {
        const PointPx p = truth.px_from_mm({x, y}), q = fit->placement.px_from_mm({x, y});
        const double sd = placement_sd_px(*fit, {x, y});
        sum += ((p.x - q.x) * (p.x - q.x) + (p.y - q.y) * (p.y - q.y)) / (sd * sd);
        count += 1;
      }
    worst = std::max(worst, worst_error_px(truth, fit->placement));
  }
  std::printf(
      "seed 23, 300 trials, mean squared error / variance of the worst direction %.2f, worst error %.2f px\n",
      sum / count, worst);
  // One for a point known in its worst direction alone, two for one known alike in both; the robust fit costs
  // a few percent.
  EXPECT_GT(sum / count, 0.9);
  EXPECT_LT(sum / count, 2.3);
  EXPECT_LT(
      worst,
      1);  // a corner of the sheet, tilted by 30 degrees, is three times less sure than a border's 0.3 px
}

TEST(FitPlacement, AFewWildBordersDoNotMatter) {
  RandomStance random(24);
  double worst = 0;
  for (int trial = 0; trial < 100; ++trial) {
    const Placement truth = random_camera(random, random.uniform(-0.03, 0.03)).placement();
    auto observations = borders(truth, 205, 143, 12, 0.1, random);
    for (std::size_t i = 0; i < observations.size(); i += 7) observations[i].photo.x += random.uniform(5, 60);
    const auto fit = fit_placement(rough_start(truth), observations, {});
    ASSERT_TRUE(fit);
    worst = std::max(worst, worst_error_px(truth, fit->placement));
  }
  std::printf("seed 24, 100 trials with one border in seven wild, worst %.3f px\n", worst);
  EXPECT_LE(worst, 0.4);  // clean ones: 0.15
}

TEST(FitPlacement, PriorHoldsTheRadialTermThatNothingTells) {
  RandomStance random(25);
  const Placement truth = random_camera(random, 0).placement();
  const auto fit = fit_placement(rough_start(truth), borders(truth, 30, 30, 5, 0.5, random), {});
  ASSERT_TRUE(fit);
  EXPECT_LT(std::fabs(fit->placement.radial), 0.06);  // two standard deviations of the prior
}

TEST(FitPlacement, DoubtGrowsAwayFromWhatWasSeen) {
  RandomStance random(26);
  const Placement truth = random_camera(random, 0.01).placement();
  const auto fit = fit_placement(rough_start(truth), borders(truth, 40, 40, 6, 0.1, random), {});
  ASSERT_TRUE(fit);
  const double near = placement_sd_px(*fit, {22, 22}), middle = placement_sd_px(*fit, {100, 70}),
               far = placement_sd_px(*fit, {205, 143});
  EXPECT_LT(near, 0.1);
  EXPECT_GT(middle, 5 * near);
  EXPECT_GT(far, 2 * middle);
}

TEST(FitPlacement, RefusesTooFewObservations) {
  RandomStance random(27);
  const Placement truth = random_camera(random, 0).placement();
  auto observations = borders(truth, 205, 143, 50, 0.1, random);
  observations.resize(7);
  EXPECT_FALSE(fit_placement(truth, observations, {}));
}

}  // namespace
}  // namespace colorlib
