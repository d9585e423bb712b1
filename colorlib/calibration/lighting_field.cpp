#include <cmath>
#include <colorlib/calibration/lighting_field.hpp>

namespace colorlib {

LightingBasis::LightingBasis(double sheet_width_mm, double sheet_height_mm, int order)
    : centre_x_mm_(sheet_width_mm / 2),
      centre_y_mm_(sheet_height_mm / 2),
      half_diagonal_mm_(std::hypot(sheet_width_mm, sheet_height_mm) / 2),
      order_(order),
      size_((order + 1) * (order + 2) / 2 - 1) {}

void LightingBasis::values(const PointMm& place, double* out) const {
  const double x = (place.x - centre_x_mm_) / half_diagonal_mm_,
               y = (place.y - centre_y_mm_) / half_diagonal_mm_;
  for (int degree = 1; degree <= order_; ++degree) {
    double x_power = 1;
    for (int i = 0; i <= degree; ++i) {
      double value = x_power;
      for (int j = i; j < degree; ++j) value *= y;
      *out++ = value;
      x_power *= x;
    }
  }
}

}  // namespace colorlib
