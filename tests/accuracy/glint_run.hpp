#pragma once
/// Which pixels a reading leaves out as mirrored light, against the simulator's truth.

#include <colorlib/specimen/photo_reading.hpp>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "tests/scenes/scene.hpp"

namespace colorlib::accuracy {

/// One deposit of a simulated photo, read as the program reads it.
struct DepositPixels {
  std::vector<SheetPixel> pixels;
  std::vector<bool> mirrored;  ///< in the simulator's truth; all false without a mask
};
/// `photo` is empty when the sheet was refused.
struct DepositsOfScene {
  std::optional<PhotoReading> photo;
  std::vector<DepositPixels> deposits;
};
DepositsOfScene deposits_of(const scenes::Scene& scene, const ChartDefinition& chart);

struct GlintRun {
  std::string condition;
  int scenes = 0;
  std::size_t pixels = 0, mirrored = 0, found = 0, right = 0;  ///< right: mirrored and found

  double recall() const { return static_cast<double>(right) / static_cast<double>(mirrored); }
  double precision() const { return static_cast<double>(right) / static_cast<double>(found); }
};

GlintRun run_glints(scenes::Condition condition, scenes::Pool pool, std::uint64_t first_seed, int scenes);
std::string glint_head();
std::string glint_row(const GlintRun& run);

}  // namespace colorlib::accuracy
