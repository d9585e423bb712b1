/// Writes what speaks for mirrored light at each pixel of simulated deposits, and the truth, for
/// glint_judge.py to train on: glint_samples tuning|broad <file> <condition> <first seed> <scenes> [linear]
/// [width in px]. `linear` has the camera's sensor values in place of the file a phone would make. One record
/// a region: int32 pixels, int32 developed, then per pixel float32 verdict (0 body, 1 by evidence, 2 glare),
/// the evidence, mirrored in truth (0 or 1).

#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <cstring>

#include <colorlib/calibration/specular_pixels_internal.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>

#include "tests/accuracy/glint_run.hpp"
#include "tests/scenes/charts.hpp"
#include "tests/scenes/scene.hpp"

namespace {

using namespace colorlib;

void write_scene(const scenes::Scene& scene, const ChartDefinition& chart, bool developed, std::FILE* file) {
  const accuracy::DepositsOfScene read = accuracy::deposits_of(scene, chart);
  for (const auto& deposit : read.deposits) {
    std::vector<Eigen::Vector3d> xyz;
    for (const SheetPixel& pixel : deposit.pixels) {
      const Xyz c = read.photo->calibration.xyz_from_pixel(pixel);
      xyz.emplace_back(c.x, c.y, c.z);
    }
    const SpecularEvidence evidence = specular_evidence(xyz, deposit.pixels, developed);
    const std::int32_t head[2] = {static_cast<std::int32_t>(xyz.size()), developed};
    std::fwrite(head, sizeof head, 1, file);
    for (std::size_t i = 0; i < xyz.size(); ++i) {
      const float verdict = evidence.verdicts[i] == Verdict::glare         ? 2.f
                            : evidence.verdicts[i] == Verdict::by_evidence ? 1.f
                                                                           : 0.f;
      const float mirrored = deposit.mirrored[i] ? 1.f : 0.f;
      std::fwrite(&verdict, sizeof verdict, 1, file);
      std::fwrite(evidence.values[i].data(), sizeof(float), evidence_count, file);
      std::fwrite(&mirrored, sizeof mirrored, 1, file);
    }
  }
}

}  // namespace

int main(int count, char** words) {
  if (count < 6) return 2;
  const bool broad = std::strcmp(words[1], "broad") == 0;
  if (!broad && std::strcmp(words[1], "tuning") != 0) return 2;  // nothing is learnt from the other pools
  const scenes::Pool pool = broad ? scenes::Pool::broad : scenes::Pool::tuning;
  const auto condition = scenes::condition_from(words[3]);
  std::FILE* file = std::fopen(words[2], "wb");
  if (!condition || !file) return 2;
  const ChartDefinition chart = find_chart("frame-a5").value();
  const std::uint64_t first = std::strtoull(words[4], nullptr, 10);
  for (int i = 0; i < std::atoi(words[5]); ++i) {
    auto settings = scenes::random_scene(*condition, first + static_cast<std::uint64_t>(i), pool);
    settings.glint_truth = true;
    for (int k = 6; k < count; ++k)
      if (std::strcmp(words[k], "linear") == 0)
        settings.linear = true;
      else
        settings.view.width_px = std::atoi(words[k]),
        settings.view.height_px = settings.view.width_px * 3 / 4;
    write_scene(scenes::render(settings, chart), chart, !settings.linear, file);
  }
  const bool failed = std::ferror(file) != 0;
  return std::fclose(file) != 0 || failed ? 1 : 0;
}
