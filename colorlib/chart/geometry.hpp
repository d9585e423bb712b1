#pragma once
/// Points on the sheet (mm, origin at the sheet's top-left corner) and in the photo (px, (0, 0) the centre of
/// the first pixel). x right, y down.

namespace colorlib {

struct PointMm {
  double x = 0, y = 0;
  bool operator==(const PointMm&) const = default;
};
struct PointPx {
  double x = 0, y = 0;
  bool operator==(const PointPx&) const = default;
};
struct RectangleMm {
  double x = 0, y = 0, width = 0, height = 0;
  PointMm centre() const { return {x + width / 2, y + height / 2}; }
  bool contains(const PointMm& p) const {
    return p.x >= x && p.x <= x + width && p.y >= y && p.y <= y + height;
  }
  bool operator==(const RectangleMm&) const = default;
};

}  // namespace colorlib
