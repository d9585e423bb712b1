/// Mirrored light on foil, pixel by pixel against the simulator's mask.

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>

#include "tests/accuracy/glint_run.hpp"

namespace colorlib::accuracy {
namespace {

constexpr std::uint64_t first_seed = 8001;

TEST(Glints, OfFoilAreFoundPixelByPixel) {
  // Measured 0.68 / 0.99 (linear) and 0.76 / 0.85 (phone). The edge of 2 dE00 runs through the deposit's own texture: half of what is
  // missed moves its pixel by less than 2.6, within the grain. Even the best of several classifiers given neighbours too reached a recall
  // of 0.90 (linear) and 0.85 (phone) at a precision of 0.9 on tuning scenes. What counts in the end, the colour on foil, is in the
  // table of conditions.
  for (const auto condition : {scenes::Condition::foil_linear, scenes::Condition::foil_phone}) {
    const GlintRun run = run_glints(condition, scenes::Pool::held_out, first_seed, 12);
    std::printf("%s", glint_row(run).c_str());
    EXPECT_GT(run.mirrored, 3000u);
    EXPECT_GE(run.recall(), 0.60);
    EXPECT_GE(run.precision(), 0.80);
  }
}

TEST(Glints, FullTable) {
  if (!std::getenv("TINTFALL_FULL")) GTEST_SKIP() << "runs with ./run tests --full";
  std::string text =
      "# Glints on foil, pixel by pixel\n\nHeld-out scenes, 60 a condition with 6 deposits each. A pixel counts as mirrored when light from the "
      "foil or a glint moves it by more than 2 \u0394E00 in the simulator's truth. *Recall*: share of these that were left out; *precision*: share "
      "of what was left out that was mirrored. Written by `./run tests --full`.\n\n" + glint_head();
  for (const auto condition : {scenes::Condition::foil_linear, scenes::Condition::foil_phone}) {
    const std::string row = glint_row(run_glints(condition, scenes::Pool::held_out, first_seed, 60));
    std::printf("%s", row.c_str());
    text += row;
  }
  if (const char* folder = std::getenv("TINTFALL_RESULTS_DIR")) {
    std::ofstream file(std::string(folder) + "/glints.md");
    file << text;
    EXPECT_TRUE(file.flush());
  }
}

}  // namespace
}  // namespace colorlib::accuracy
