/// How much of the error under lamps is the difference between printed and grown spectra, which no correction
/// through a chart removes.

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>

#include "tests/accuracy/spectral_floor.hpp"
#include "tests/support/result_page.hpp"

namespace colorlib::accuracy {
namespace {

using scenes::Condition;
using scenes::Pool;

double median_of(const std::vector<FloorRow>& rows, Learnt learnt) {
  return std::find_if(rows.begin(), rows.end(), [&](const FloorRow& row) { return row.learnt == learnt; })
      ->median;
}

TEST(SpectralFloor, IsHigherUnderLampsAndForCorrectionsLearntFromInks) {
  const auto day = spectral_floor(Condition::daylight_linear, Pool::tuning, 1, 20),
             lamp = spectral_floor(Condition::lamp_linear, Pool::tuning, 1, 20);
  std::printf("%s%s%s", floor_head().c_str(), floor_row("tuning", day).c_str(),
              floor_row("tuning", lamp).c_str());
  for (const auto* rows : {&day, &lamp})
    EXPECT_LT(median_of(*rows, Learnt::own_pigments), median_of(*rows, Learnt::inks));
  EXPECT_LT(median_of(day, Learnt::inks), median_of(lamp, Learnt::inks));
}

TEST(SpectralFloor, FullTable) {
  if (!std::getenv("TINTFALL_FULL")) GTEST_SKIP() << "runs with ./run tests --full";
  std::string text =
      "# Printed and grown spectra: the floor in every light\n\n\u0394E00 (median / 95th percentile) of "
      "specimens through one root polynomial of "
      "degree 2, fitted to exact camera values and exact colours: no noise, no uneven light, no tone curve, "
      "no reference error, and the lamp's "
      "and the camera's spectra as they are; 100 scenes of 6 specimens a row. *Learnt from the chart's inks* "
      "is what a photograph of a "
      "printed sheet offers. The other two columns learn from 200 pigments under the same lamp and camera, "
      "which no user has: pigments of "
      "families unlike the specimens', or of the same families. The last column is what `chart transfer` "
      "faces: the patches "
      "of another press on other paper. The light is that of the condition named, of "
      "two the mix at the sheet's centre. "
      "Written by `./run tests --full`.\n\n" +
      floor_head();
  for (const auto& [pool, name] : {std::pair{Pool::tuning, "tuning"},
                                   {Pool::held_out, "held-out"},
                                   {Pool::measured, "held-out, published cameras and lamps"}})
    for (const auto condition :
         {Condition::daylight_linear, Condition::lamp_linear, Condition::fluorescent_phone,
          Condition::two_lights_linear, Condition::foil_linear}) {
      const std::string row = floor_row(name, spectral_floor(condition, pool, 5001, 100));
      std::printf("%s", row.c_str());
      text += row;
    }
  write_result_page("spectral_floor.md", text);
}

}  // namespace
}  // namespace colorlib::accuracy
