#pragma once
/// CIELAB <-> Munsell by the renotation of 1943 and its published extrapolation.

#include <colorlib/base/result.hpp>
#include <colorlib/colorimetry/color_types.hpp>
#include <colorlib/naming/munsell.hpp>
#include <filesystem>
#include <memory>

namespace colorlib {

/// A Munsell notation, and whether the published data reach that far.
struct MunsellMatch {
  Munsell munsell;
  bool outside = false;  ///< the colour lies beyond the data; `munsell` is the edge at its hue and value
};

/// The renotation as a continuous, invertible map.
///
/// Each chip's chromaticity is written as hue angle and chroma of CIELAB relative to illuminant C. In these
/// coordinates the published chips are nearly an even polar grid, so hue angle and chroma are interpolated
/// straight in Munsell hue, value and chroma together (leaving chips out shows half the error of straight
/// lines in x, y: docs/decisions). Neutrals are the white point itself at every value; below chroma 2 the hue
/// lines go on as they run from chroma 4 to 2; below value 0.2 all is as at value 0.2. Lab refers to D50, 2
/// degree, and reaches illuminant C by linear Bradford adaptation; the value is that of ASTM D1535 from the
/// adapted luminance.
///
/// The data are the 2734 chips of 1943. Their edge, straight between neighbouring outermost chips, narrows to
/// the neutral black at value 0 and the neutral white at value 10, where 1943 has no chips.
/// The published extrapolated chips serve only to bracket.
class MunsellRenotation {
 public:
  /// Reads the table `munsell_renotation.csv`. Errors: unreadable_table.
  static Result<MunsellRenotation> load(const std::filesystem::path& file);

  /// Munsell notation of `lab` (D50, 2 degree). Inside the data, lab_from_munsell gives `lab` back within
  /// 1e-5 dE00. Beyond them chroma (and value) are the edge's. A colour that is not finite gives N 0,
  /// outside.
  MunsellMatch munsell_from_lab(const Lab& lab) const;
  /// Lab (D50, 2 degree) of a notation; continued along the published extrapolation beyond the data.
  Lab lab_from_munsell(const Munsell& munsell) const;
  /// The chroma of the edge of the data at a hue and a value.
  double greatest_chroma(double hue_step, double value) const;

 private:
  struct Grid;
  std::shared_ptr<const Grid> grid_;
};

}  // namespace colorlib
