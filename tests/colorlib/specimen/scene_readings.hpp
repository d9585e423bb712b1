#pragma once
/// What the library says of a simulated photograph's specimens, each beside its truth.

#include <gmock/gmock.h>

#include <colorlib/base/data_folder.hpp>
#include <colorlib/specimen/photo_reading.hpp>

#include "tests/scenes/scene.hpp"

namespace colorlib {

struct SceneReading {
  scenes::SpecimenTruth truth;
  Reading reading;
};

/// Renders the scene on frame-a5 and reads its true regions with its own reference values; those that were
/// not refused.
inline std::vector<SceneReading> scene_readings(const scenes::SceneSettings& settings) {
  static const ChartDefinition chart = find_chart("frame-a5").value();
  static const Namer namer = Namer::load(data_folder()).value();
  const scenes::Scene scene = scenes::render(settings, chart);
  ReadRequest request;
  request.candidates = {chart};
  request.reference_values = scene.reference;
  request.regions = scenes::true_regions(scene);
  Progress progress;
  const auto photo = read_photo(scene.photo, request, namer, progress);
  EXPECT_TRUE(photo) << photo.error().message;
  std::vector<SceneReading> told;
  for (std::size_t i = 0; photo && i < photo->readings.size(); ++i)
    if (!photo->readings[i].refused) told.push_back({scene.specimens[i], photo->readings[i]});
  return told;
}

}  // namespace colorlib
