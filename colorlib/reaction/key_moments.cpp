#include <algorithm>
#include <colorlib/reaction/key_moments.hpp>

namespace colorlib {

std::vector<std::size_t> key_moments(const SpotCourse& course) {
  const auto& points = course.points;
  if (points.empty()) return {};
  std::vector<std::size_t> moments;
  const auto after_zero = std::find_if(points.begin(), points.end(), [](const CoursePoint& p) { return p.seconds >= 0; });
  const auto zero = static_cast<std::size_t>(after_zero - points.begin());
  moments.push_back(zero == 0 ? 0 : zero - 1);
  const auto largest = std::max_element(points.begin(), points.end(), [](const CoursePoint& a, const CoursePoint& b) {
    return a.change_de00 < b.change_de00;
  });
  for (const double share : {0.1, 0.5, 0.9}) {
    const auto reached = std::find_if(points.begin(), points.end(), [&](const CoursePoint& p) {
      return p.change_de00 >= share * largest->change_de00;
    });
    moments.push_back(static_cast<std::size_t>(reached - points.begin()));
  }
  moments.push_back(static_cast<std::size_t>(largest - points.begin()));
  moments.push_back(points.size() - 1);
  std::sort(moments.begin(), moments.end());
  moments.erase(std::unique(moments.begin(), moments.end()), moments.end());
  return moments;
}

}  // namespace colorlib
