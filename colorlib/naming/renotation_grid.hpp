#pragma once
/// The renotation's chips as a polar grid in CIELAB of illuminant C: the inner part of munsell_renotation.

#include <colorlib/base/result.hpp>
#include <cstddef>
#include <filesystem>
#include <vector>

namespace colorlib {

/// CIELAB (illuminant C, 2 degree) in polar form.
struct PolarColor {
  double chroma_ab = 0;      ///< C*ab, >= 0
  double hue_angle_rad = 0;  ///< any turn
};

/// A place on one plane of constant Munsell value.
struct PolarPlace {
  double hue_step = 0;  ///< [0, 100)
  double chroma = 0;    ///< Munsell chroma, >= 0
};

/// 40 hues, chromas 0, 2, 4 ... 50, values 0, 0.2 ... 1, 2 ... 10; gaps beyond the published chips are
/// continued outwards with the last step of C*ab and the last hue angle, so that the map stays defined and
/// one to one.
class RenotationGrid {
 public:
  static constexpr std::size_t hues = 40;
  static constexpr std::size_t chromas = 26;
  static constexpr double hue_step_width = 2.5;
  static constexpr double chroma_step = 2;
  static constexpr std::size_t start_angles = 128;

  static Result<RenotationGrid> load(const std::filesystem::path& file);

  /// Two neighbouring value planes and the weight of the upper one.
  struct Plane {
    std::size_t lower = 0;
    double weight = 0;
  };
  Plane plane_at(double value) const;
  /// `place` may have any chroma: beyond the last ring the last cell is continued.
  PolarColor color_at(const PolarPlace& place, const Plane& plane) const;
  /// The inverse of color_at on one plane: C*ab within 1e-9 of the one asked for.
  PolarPlace place_of(const PolarColor& color, const Plane& plane) const;
  /// The edge of the chips of 1943 at `hue_step` in [0, 100) and `value` in [0, 10].
  double greatest_chroma(double hue_step, double value) const;

  /// The nodes' values, rising.
  const std::vector<double>& values() const { return values_; }
  /// Whether the chip at this node is published (1943 or extrapolated), not continued by us.
  bool published(std::size_t value_index, std::size_t hue, std::size_t ring) const {
    return published_[node(value_index, hue, ring)];
  }

 private:
  /// Polar coordinates and their slopes by grid units of hue and chroma.
  struct Local;
  static std::size_t node(std::size_t value_index, std::size_t hue, std::size_t ring) {
    return (value_index * (hues + 1) + hue) * chromas + ring;
  }
  Local local_at(double hue, double ring, const Plane& plane) const;
  void continue_outwards();
  void close_circle();
  void note_starts();

  std::vector<double> values_;
  std::vector<PolarColor> nodes_;  ///< (hues + 1) a plane: the first hue again, one turn later
  std::vector<bool> published_;
  std::vector<double> edges_;  ///< whole values 0 to 10, (hues + 1) a value
  std::vector<float> starts_;  ///< grid units of hue at even hue angles, `start_angles` a value
};

}  // namespace colorlib
