#pragma once
/// The invented demo scenario's time courses: Lab mixed linearly by the stated model. Worked out
/// independently of this code (Python, numpy, scikit-image); colours are invented.

#include <colorlib/reaction/kinetic_curves.hpp>
#include <colorlib/reaction/kinetics.hpp>
#include <stdexcept>
#include <string>
#include <tests/scenes/random.hpp>
#include <vector>

namespace colorlib {

struct GivenPoint {
  double seconds;
  Lab lab;  ///< to one decimal
};
struct InventedCourse {
  std::string name;
  double onset_s, half_time_s, second_half_time_s;  ///< second 0: one step
  Lab untreated, middle, end;                       ///< one step: `middle` is not used
  std::vector<GivenPoint> points;
  std::vector<double> de00;  ///< of the points after the first against the untreated colour, to one decimal
};

inline std::vector<InventedCourse> invented_courses() {
  return {
      {"R1",
       10,
       40,
       0,
       {90, 0, 8},
       {},
       {76, 15, 22},
       {{10, {90, 0, 8}},
        {20, {87.8, 2.4, 10.2}},
        {30, {85.9, 4.4, 12.1}},
        {60, {81.9, 8.7, 16.1}},
        {120, {78.1, 12.8, 19.9}},
        {300, {76.1, 14.9, 21.9}},
        {600, {76, 15, 22}}},
       {3.8, 6.6, 11.8, 16.0, 17.9, 18.0}},
      {"R2",
       5,
       15,
       0,
       {90, 0, 8},
       {},
       {48, -14, -9},
       {{5, {90, 0, 8}},
        {10, {81.3, -2.9, 4.5}},
        {20, {69, -7, -0.5}},
        {30, {61.2, -9.6, -3.6}},
        {60, {51.3, -12.9, -7.7}},
        {120, {48.2, -13.9, -8.9}},
        {300, {48, -14, -9}}},
       {7.5, 18.5, 25.4, 34.7, 37.8, 38.0}},
      {"R3",
       1,
       3,
       0,
       {85, 1, 10},
       {},
       {80, 2, 58},
       {{0, {85, 1, 10}},
        {5, {82, 1.6, 39}},
        {10, {80.6, 1.9, 52}},
        {20, {80.1, 2, 57.4}},
        {60, {80, 2, 58}}},
       {13.9, 17.8, 19.1, 19.3}},
      {"R4",
       2,
       8,
       0,
       {70, 6, 24},
       {},
       {30, 12, 10},
       {{0, {70, 6, 24}},
        {5, {60.8, 7.4, 20.8}},
        {10, {50, 9, 17}},
        {20, {38.4, 10.7, 12.9}},
        {30, {33.5, 11.5, 11.2}},
        {60, {30.3, 12, 10.1}},
        {120, {30, 12, 10}}},
       {7.9, 18.5, 31.8, 37.8, 41.6, 41.9}},
      {"B1",
       2,
       6,
       400,
       {86, -2, 30},
       {48, -8, -16},
       {70, 1, 12},
       {{0, {86, -2, 30}},
        {5, {74.9, -3.8, 16.5}},
        {10, {63.2, -5.6, 2.4}},
        {20, {53.1, -7.1, -9.8}},
        {30, {50.2, -7.5, -13.3}},
        {60, {49.8, -7.3, -13.7}},
        {120, {51.8, -6.4, -11.2}},
        {300, {56.7, -4.5, -5.0}},
        {600, {62.1, -2.2, 1.9}},
        {1200, {67.2, -0.1, 8.4}}},
       {10.4, 24.1, 37.4, 41.4, 41.9, 39.2, 32.2, 24.3, 17.8}},
      {"B2",
       10,
       45,
       300,
       {90, 0, 9},
       {58, 32, 20},
       {24, 2, 2},
       {{10, {90, 0, 9}},
        {20, {85.4, 4.5, 10.5}},
        {30, {81.3, 8.3, 11.8}},
        {60, {71.7, 16.2, 14.3}},
        {120, {59.8, 22.5, 15.8}},
        {300, {44.8, 19.6, 12.7}},
        {600, {34.2, 11.0, 7.4}},
        {1200, {26.6, 4.3, 3.4}}},
       {6.6, 11.5, 20.6, 29.6, 40.7, 49.5, 57.7}},
  };
}

inline const std::vector<double> geometric_s = {-20, -5, 0,  2,   5,   10,  15,  20,  30,
                                                45,  60, 90, 120, 180, 300, 600, 1200};

inline Matrix3 variance(double sd) { return Matrix3::diagonal(sd * sd, sd * sd, sd * sd); }

/// An invented course with scatter of `sd` in each coordinate.
inline ReactionSeries series_of(const InventedCourse& course, const std::vector<double>& seconds, double sd,
                                std::uint64_t seed) {
  scenes::Random random(seed);
  ReactionSeries series;
  series.seconds = seconds;
  for (const double t : seconds) {
    const double k1 = rate_from_half_time(course.half_time_s);
    ConsecutiveShares share;
    if (course.second_half_time_s > 0) {
      share = consecutive_shares(t - course.onset_s, k1, rate_from_half_time(course.second_half_time_s));
    } else {
      share.c = first_order_progress(t - course.onset_s, k1);
      share.a = 1 - share.c;
    }
    const auto mixed = [&](double a, double b, double c) {
      return share.a * a + share.b * b + share.c * c + sd * random.normal();
    };
    const double l = mixed(course.untreated.l, course.middle.l, course.end.l);
    const double a = mixed(course.untreated.a, course.middle.a, course.end.a);
    const double b = mixed(course.untreated.b, course.middle.b, course.end.b);
    series.spot.push_back({{l, a, b}, variance(sd)});
  }
  return series;
}

inline InventedCourse course_named(const std::string& name) {
  for (auto& course : invented_courses())
    if (course.name == name) return course;
  throw std::invalid_argument(name);
}

}  // namespace colorlib
