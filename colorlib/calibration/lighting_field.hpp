#pragma once
/// How the light changes over the sheet, per camera channel: ln g = smooth polynomial of place.

#include <colorlib/chart/geometry.hpp>
#include <vector>

namespace colorlib {

/// The monomials x^i y^j, 1 <= i + j <= order, of a place measured from the sheet's centre in half diagonals.
/// No constant: the overall brightness belongs to the colour correction.
class LightingBasis {
 public:
  static constexpr int most_order = 9, most_size = (most_order + 1) * (most_order + 2) / 2 - 1;
  LightingBasis() = default;
  /// `order` from 0, which has no monomials, to `most_order`.
  LightingBasis(double sheet_width_mm, double sheet_height_mm, int order);
  int size() const { return size_; }
  /// Writes `size()` values, at most `most_size`.
  void values(const PointMm& place, double* out) const;

 private:
  double centre_x_mm_ = 0, centre_y_mm_ = 0, half_diagonal_mm_ = 1;
  int order_ = 0, size_ = 0;
};

/// Weights of brightness, red-blue and green-magenta field in ln g of channel R, G, B: ln g_c = f0 + w1_c f1
/// + w2_c f2.
inline constexpr double red_blue_weight[3] = {1, 0, -1};
inline constexpr double green_weight[3] = {0.5, -1, 0.5};

}  // namespace colorlib
