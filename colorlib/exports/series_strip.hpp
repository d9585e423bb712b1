#pragma once
/// A reaction as a row of pictures: before, first change, half, plateau.

#include <colorlib/base/result.hpp>
#include <colorlib/reaction/kinetics.hpp>
#include <colorlib/reaction/rectified_window.hpp>
#include <cstddef>
#include <string>
#include <vector>

namespace colorlib {

/// Which frame stands for which stage.
struct StripStage {
  std::size_t frame = 0;  ///< into the kinetics' seconds
  std::string name;       ///< "before the change", "first change", "half", "plateau", "faded", "last"
};

/// For a reaction: the last frame before the onset; the first with a change above the threshold; the one
/// nearest to half; the first at the plateau or peak; the last, when it went on from there. Else the first
/// and the last frame. By time, none twice.
std::vector<StripStage> strip_stages(const Kinetics& kinetics);

struct StripPicture {
  std::string name;  ///< of the stage
  double seconds = 0;
  Lab lab;  ///< of the spot
  double change_de00 = 0;
  RectifiedWindow window;  ///< calibrated
};

/// A PNG: the windows side by side at one scale, true to colour on an sRGB screen, with names, times and a
/// bar in mm. Errors: bad_call (nothing to draw), cannot_write.
Result<std::string> draw_series_strip(const std::string& title, const std::vector<StripPicture>& pictures);

}  // namespace colorlib
