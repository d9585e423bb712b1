#include <gtest/gtest.h>

#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/reaction/kinetic_curves.hpp>
#include <tests/colorlib/reaction/invented_courses.hpp>
#include <vector>

namespace colorlib {
namespace {

/// Rounded to the digits that the worked values are given to.
void expect_to_digits(double value, double given, int digits) {
  EXPECT_NEAR(value, given, 0.5 * std::pow(10.0, -digits) * (1 + 1e-6)) << "given " << given;
}

// Worked values, computed independently of this code: onset 5 s, half time 20 s.
TEST(FirstOrder, WorkedValues) {
  const double k = rate_from_half_time(20);
  expect_to_digits(k, 0.0346574, 7);
  const std::vector<std::pair<double, double>> progress = {{10, 0.1591}, {15, 0.2929}, {25, 0.5},
                                                           {45, 0.75},   {85, 0.9375}, {125, 0.9844}};
  for (const auto& [t, p] : progress) expect_to_digits(first_order_progress(t - 5, k), p, 4);
  expect_to_digits(5 + time_to_share_s(k, 0.90), 71.4386, 4);
  expect_to_digits(5 + time_to_share_s(k, 0.95), 91.4386, 4);
  EXPECT_DOUBLE_EQ(half_time_s(k), 20);
  EXPECT_EQ(first_order_progress(0, k), 0);
  EXPECT_EQ(first_order_progress(-3, k), 0);
}

// Worked values, computed independently of this code: k1 = 0.05 / s, k2 = 0.004 / s.
TEST(Consecutive, WorkedValues) {
  const ConsecutivePeak peak = consecutive_peak(0.05, 0.004);
  expect_to_digits(peak.since_onset_s, 54.90714, 5);
  expect_to_digits(peak.share, 0.8028169, 7);
  const std::vector<std::array<double, 4>> rows = {
      {15, 0.4724, 0.5102, 0.0174},  {30, 0.2231, 0.7215, 0.0554},  {60, 0.0498, 0.8009, 0.1493},
      {120, 0.0025, 0.6699, 0.3276}, {300, 0.0000, 0.3274, 0.6726}, {600, 0.0000, 0.0986, 0.9014},
      {1200, 0.0000, 0.0089, 0.9911}};
  for (const auto& row : rows) {
    const ConsecutiveShares shares = consecutive_shares(row[0], 0.05, 0.004);
    expect_to_digits(shares.a, row[1], 4);
    expect_to_digits(shares.b, row[2], 4);
    expect_to_digits(shares.c, row[3], 4);
  }
}

TEST(Consecutive, EqualRatesAreNoSpecialCase) {
  const double k = 0.03;
  EXPECT_NEAR(consecutive_peak(k, k).share, std::exp(-1.0), 1e-12);
  EXPECT_NEAR(consecutive_peak(k, k).since_onset_s, 1 / k, 1e-9);
  for (const double u : {1.0, 20.0, 300.0}) {
    EXPECT_NEAR(consecutive_shares(u, k, k).b, k * u * std::exp(-k * u), 1e-12);
    // No jump on either side of equality, down to the last bits.
    for (const double apart : {1e-3, 1e-6, 1e-9, 1e-12, 1e-15}) {
      const double above = consecutive_shares(u, k * (1 + apart), k).b;
      EXPECT_NEAR(above, consecutive_shares(u, k, k).b, 2 * apart + 1e-12) << u << " " << apart;
      EXPECT_NEAR(consecutive_peak(k * (1 + apart), k).since_onset_s, 1 / k, (apart + 1e-8) / k);
    }
  }
}

TEST(Consecutive, SharesStayShares) {
  for (const double k1 : {1e-5, 1e-2, 1.0, 50.0})
    for (const double k2 : {1e-6, 1e-2, 1.0, 50.0})
      for (const double u : {-1.0, 0.0, 1e-3, 1.0, 1e3, 1e6}) {
        const ConsecutiveShares s = consecutive_shares(u, k1, k2);
        EXPECT_TRUE(s.a >= 0 && s.b >= 0 && s.c >= 0 && s.a <= 1 && s.b <= 1 && s.c <= 1);
        EXPECT_NEAR(s.a + s.b + s.c, 1, 1e-12);
      }
}

TEST(InventedCourses, ColoursAndDifferencesToTheDigitsGiven) {
  for (const InventedCourse& course : invented_courses()) {
    for (std::size_t i = 0; i < course.points.size(); ++i) {
      const auto& [t, given] = course.points[i];
      const double u = t - course.onset_s, k1 = rate_from_half_time(course.half_time_s);
      ConsecutiveShares share;
      if (course.second_half_time_s > 0) {
        share = consecutive_shares(u, k1, rate_from_half_time(course.second_half_time_s));
      } else {
        share.c = first_order_progress(u, k1);
        share.a = 1 - share.c;
      }
      const auto mixed = [&](double a, double b, double c) {
        return share.a * a + share.b * b + share.c * c;
      };
      const Lab lab{mixed(course.untreated.l, course.middle.l, course.end.l),
                    mixed(course.untreated.a, course.middle.a, course.end.a),
                    mixed(course.untreated.b, course.middle.b, course.end.b)};
      SCOPED_TRACE(course.name + " at " + std::to_string(t) + " s");
      expect_to_digits(lab.l, given.l, 1);
      expect_to_digits(lab.a, given.a, 1);
      expect_to_digits(lab.b, given.b, 1);
      if (i > 0) expect_to_digits(difference_ciede2000(lab, course.untreated), course.de00[i - 1], 1);
    }
  }
  // Blueing and blackening: when the middle colour is at its most.
  const ConsecutivePeak blueing = consecutive_peak(rate_from_half_time(6), rate_from_half_time(400));
  expect_to_digits(2 + blueing.since_onset_s, 38.9, 1);
  expect_to_digits(blueing.share, 0.938, 3);
  const ConsecutivePeak blackening = consecutive_peak(rate_from_half_time(45), rate_from_half_time(300));
  expect_to_digits(10 + blackening.since_onset_s, 154.9, 1);
  expect_to_digits(blackening.share, 0.7155, 4);
}

}  // namespace
}  // namespace colorlib
