#pragma once
/// A small renderer for the tests of placing and sampling: a sheet as its definition says, seen by a pinhole
/// camera with one radial term, blurred in linear light, sRGB-encoded, 8 bit. Colours are the nominal ones
/// under white light; the spectral simulator of tests/scenes is for colour.

#include <colorlib/chart/chart_definition.hpp>
#include <colorlib/chart/placement.hpp>
#include <colorlib/image/photo.hpp>
#include <random>
#include <string>
#include <vector>

namespace colorlib::test {

/// The sheet's ink, `px_per_mm` fine: linear RGB.
struct PrintedSheet {
  ChartDefinition chart;
  int px_per_mm = 10;
  ImageF ink;
};

PrintedSheet printed(const ChartDefinition& chart, int px_per_mm = 10);

struct Stance {
  int width_px = 960, height_px = 720;
  double focal_share = 0.9;  ///< focal length / photo width
  double tilt_deg = 0, tilt_towards_deg = 0, rotation_deg = 0;
  double fill = 0.85;               ///< of the frame by the sheet's bounding box
  double shift_x = 0, shift_y = 0;  ///< of the sheet's middle, shares of the photo's size
  double radial = 0;
  /// A cylinder: the sheet's middle (or, with edges_up, two of its sides) nearer to the camera by this much.
  double sag_mm = 0;
  bool bends_along_x = true, edges_up = false;
  double distance_mm = 0;  ///< 0: as `fill` and `focal_share` say; else the focal length follows
};

struct Look {
  double blur_px = 0.8;               ///< standard deviation, linear light
  double noise_sd = 0.006;            ///< of one encoded value
  double exposure = 0.8;              ///< linear value of white
  double light_slope = 0.3;           ///< relative loss of light from left to right
  std::vector<RectangleMm> covered;   ///< grey things lying on the sheet
  std::vector<RectangleMm> torn_off;  ///< parts of the sheet that are not there
  unsigned seed = 1;
};

/// A camera over a sheet.
class Camera {
 public:
  Camera(const ChartDefinition& chart, const Stance& stance);
  /// The true placement; of a flat sheet only.
  const Placement& placement() const { return placement_; }
  /// The sheet place that a photo pixel sees, curl included.
  PointMm mm_from_px(const PointPx& p) const;
  PointPx px_from_mm(const PointMm& p) const;
  const Stance& stance() const { return stance_; }

 private:
  Stance stance_;
  Placement placement_;
  Matrix3 to_mm_;  // inverse of the placement's homography
  double width_mm_, height_mm_;
  double rotation_[9], shift_[3], focal_px_ = 1;
  double height_at(double chord) const;
  double arc_from_chord(double chord) const;
  double chord_from_arc(double arc) const;
  double half_chord_ = 1;
};

Photo photograph(const PrintedSheet& sheet, const Camera& camera, const Look& look);
/// A photo of something else: 0 a plain table, 1 noise, 2 stripes, 3 a soft gradient.
Photo photograph_of_nothing(int kind, int width_px = 960, int height_px = 720);

/// A frame like the shipped A5 one, built in code: four markers, an opening, 40 patches round it.
ChartDefinition small_frame(int first_marker_id = 100);
/// 6 x 4 touching patches without markers or gaps.
ChartDefinition touching_grid();

/// The same picture, left and right exchanged.
Photo mirrored(const Photo& photo);
/// Part of it.
Photo cropped(const Photo& photo, const PixelRectangle& rectangle);
/// Through a function of the encoded value, 0 to 255.
Photo with_values(const Photo& photo, double (*value)(double));

struct RandomStance {
  std::mt19937 generator;
  explicit RandomStance(unsigned seed) : generator(seed) {}
  double uniform(double low, double high) {
    // mt19937's numbers are fixed by the standard, distributions are not.
    return low + (high - low) * (static_cast<double>(generator()) / 4294967296.0);
  }
};

}  // namespace colorlib::test
