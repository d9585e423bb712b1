#include <algorithm>
#include <colorlib/calibration/grown_surface_internal.hpp>

namespace colorlib {

Vector3 grown_surface_shift(const Lab& lab, double unlike_daylight, bool linear) {
  constexpr double too_green = 0.8,
                   too_dark = 0.3;  // Lab units of black; nothing at white, which every pigment shares
  const double lamp = std::min(unlike_daylight * unlike_daylight, 1.0);
  const double depth = std::clamp(1 - lab.l / 100, 0.0, 1.0);
  return {linear ? too_dark * depth * (1 - lamp) : 0, too_green * depth * lamp, 0};
}

}  // namespace colorlib
