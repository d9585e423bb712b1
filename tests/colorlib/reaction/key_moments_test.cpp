#include <gmock/gmock.h>

#include <colorlib/reaction/key_moments.hpp>

namespace colorlib {
namespace {

using testing::ElementsAre;

SpotCourse course(std::initializer_list<std::pair<double, double>> points) {
  SpotCourse made;
  for (const auto& [seconds, change] : points) {
    CoursePoint point;
    point.seconds = seconds;
    point.change_de00 = change;
    made.points.push_back(point);
  }
  return made;
}

TEST(KeyMoments, TellTheCourse) {
  EXPECT_THAT(key_moments(course({{-9, 0}, {-3, 0}, {1, 0.5}, {5, 4}, {10, 11}, {20, 19}, {40, 20}, {80, 15}})),
              ElementsAre(1, 3, 4, 5, 6, 7));
}

TEST(KeyMoments, ShortCoursesNameNothingTwice) {
  EXPECT_THAT(key_moments(course({})), ElementsAre());
  EXPECT_THAT(key_moments(course({{0, 0}})), ElementsAre(0));
  EXPECT_THAT(key_moments(course({{0, 0}, {5, 3}})), ElementsAre(0, 1));
}

}  // namespace
}  // namespace colorlib
