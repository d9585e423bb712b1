#pragma once
/// One simulated photo of a shipped sheet, made once, and pictures changed from it.

#include <colorlib/base/image.hpp>
#include <colorlib/chart/chart_definition.hpp>
#include <functional>
#include <string>
#include <tests/scenes/scene.hpp>

namespace tintfall {

struct DemoPhoto {
  colorlib::ChartDefinition chart;  ///< frame-a5
  colorlib::scenes::Scene scene;    ///< daylight, phone, 1600 x 1200; six specimens
  std::string reference_text;       ///< CGATS
  std::string regions_text;         ///< JSON, chart frame
};

/// Rendered at the first call.
const DemoPhoto& demo_photo();

/// A JPEG of the demo photo's pixels after `change`.
std::string changed_photo(const std::function<colorlib::Image8(const colorlib::Image8&)>& change);

/// The picture mirrored left to right.
colorlib::Image8 mirrored(const colorlib::Image8& picture);
/// The part that begins at (left, top).
colorlib::Image8 cropped(const colorlib::Image8& picture, int left, int top, int width, int height);
/// Gaussian blur in both directions.
colorlib::Image8 blurred(const colorlib::Image8& picture, double sd_px);
/// Each encoded value times `gain`, clipped.
colorlib::Image8 brightened(const colorlib::Image8& picture, double gain);

/// JPEG bytes with an ICC profile in them.
std::string with_profile(const std::string& jpeg, const std::string& profile);

}  // namespace tintfall
