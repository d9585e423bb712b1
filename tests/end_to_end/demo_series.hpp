#pragma once
/// One simulated series of a shipped sheet, made once.

#include <filesystem>
#include <string>
#include <tests/scenes/series_scene.hpp>
#include <vector>

namespace tintfall {

struct DemoSeries {
  colorlib::scenes::SeriesSettings settings;
  std::vector<std::string> names;  ///< of the photos
  std::vector<std::string> jpegs;  ///< their bytes
  std::string reference_text, regions_text;
};

/// KOH on a cap: pale to brown, onset 2 s after the drop, half time 8 s; twelve photos of 1000 x 750 px by
/// hand.
const DemoSeries& demo_series();

/// `jpeg` without its EXIF block: a photo that does not say when it was taken.
std::string without_exif(const std::string& jpeg);

/// A photo of another tissue with a green spot on the same sheet, taken 4 s before the drop of the demo
/// series.
std::string stray_photo();

/// A photo of a darker specimen on the same sheet, taken 20 s after the drop: spot, drop of water and
/// untreated tissue are at the same stage as in the demo series, and each is darker.
std::string darker_photo();

/// The photos in `folder`/series, `folder`/ref.txt and `folder`/regions.json.
void write_demo_series(const std::filesystem::path& folder);

}  // namespace tintfall
