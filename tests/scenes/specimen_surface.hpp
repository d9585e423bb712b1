#pragma once
/// One specimen on its substrate: what each of its points reflects, in camera RGB and in XYZ.

#include <vector>

#include "tests/scenes/scene.hpp"
#include "tests/scenes/texture.hpp"

namespace colorlib::scenes {

/// A ground that specimens lie on, and its colour.
struct Ground {
  Spectrum reflectance;
  bool foil = false;
};

/// One point of a specimen or of the ground beside it.
struct SurfacePoint {
  float cover = 0;       ///< 1 inside, 0 outside, between at its edge and in gaps
  float outline = 0;     ///< the same without the gaps
  float state = 0;       ///< position in the table of thickness or strength
  float grain = 1;       ///< factor of small shadows
  float specular = 0;    ///< gloss, in units of a white's radiance
  float foreign = 0;     ///< share under soil or a smear, on top of all that
  bool smeared = false;  ///< a smear, else soil
  float clear = 0;       ///< share of the ground's own glints that come through
};

class SpecimenSurface {
 public:
  /// `grounds` by zone (window, window_right, ...): the specimen gets one colour table a zone.
  SpecimenSurface(const SpecimenSettings& settings, const EllipseShape& place,
                  const std::vector<Ground>& grounds, const Camera& camera,
                  const std::vector<Spectrum>& lights, Random random);

  SurfacePoint at(double x_mm, double y_mm) const;
  /// Camera RGB under each light for a state, zone by zone; no gain, unit irradiance.
  Vector3 camera_rgb(std::size_t zone, std::size_t light, float state) const;
  Xyz xyz(std::size_t zone, float state) const;
  /// The same of soil, or of the smear.
  const Vector3& foreign_rgb(bool smeared, std::size_t light) const { return foreign_[smeared].rgb[light]; }
  const Xyz& foreign_xyz(bool smeared) const { return foreign_[smeared].xyz; }
  /// Mean Y over black 0.04 divided by mean Y over white 0.85, over the points of `ellipse`.
  double contrast_ratio(const EllipseShape& ellipse) const;

  /// Of ln thickness or ln strength, from one state to the next.
  double log_step() const;

  const SpecimenSettings& settings() const { return settings_; }
  const EllipseShape& place() const { return place_; }
  /// The body reaches this far from the centre.
  double reach_mm() const { return 1.42 * std::max(place_.radius_x, place_.radius_y); }

 private:
  static constexpr int states = 33;
  struct Table {
    std::vector<std::array<Vector3, states>> rgb;  ///< one a light
    std::array<Xyz, states> xyz;
  };

  struct Foreign {
    std::vector<Vector3> rgb;  ///< one a light
    Xyz xyz;
  };
  void add_foreign(SurfacePoint& point, double dx, double dy) const;

  SpecimenSettings settings_;
  EllipseShape place_;  ///< of the region; the body is larger
  std::vector<Table> zones_;
  std::array<double, states> y_black_{}, y_white_{};
  std::array<Foreign, 2> foreign_;  ///< soil, smear
  NoisePlace grain_place_, slow_place_, gap_place_, gloss_place_, soil_place_;
  double wobble_[4] = {}, gill_angle_ = 0, gap_level_ = 0, gloss_level_ = 0, soil_level_ = 0,
         smear_angle_ = 0;
};

/// Foil: its own brightness from place to place and its glints, in units of a white's radiance.
struct FoilPoint {
  float base = 1, glint = 0;
};
class FoilSurface {
 public:
  explicit FoilSurface(Random random);
  FoilPoint at(double x_mm, double y_mm) const;
  static Spectrum reflectance();

 private:
  NoisePlace facets_, creases_, slow_;
};

}  // namespace colorlib::scenes
