// The formulas that are called per pixel or per pair, beside LittleCMS doing the same.
#include <benchmark/benchmark.h>
#include <lcms2.h>

#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <random>
#include <vector>

namespace {

using namespace colorlib;

constexpr std::size_t count =
    4096;  // fits the first-level cache's neighbours: arithmetic is timed, not memory

std::vector<Lab> random_labs(unsigned seed) {
  std::mt19937 engine(seed);
  std::uniform_real_distribution<double> l(0, 100), ab(-80, 80);
  std::vector<Lab> labs(count);
  for (auto& lab : labs) lab = {l(engine), ab(engine), ab(engine)};
  return labs;
}

void per_item(benchmark::State& state) {
  state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(count));
}

void ciede2000(benchmark::State& state) {
  const auto a = random_labs(1), b = random_labs(2);
  while (state.KeepRunning())
    for (std::size_t i = 0; i < count; ++i) benchmark::DoNotOptimize(difference_ciede2000(a[i], b[i]));
  per_item(state);
}
BENCHMARK(ciede2000);

void ciede2000_littlecms(benchmark::State& state) {
  const auto a = random_labs(1), b = random_labs(2);
  while (state.KeepRunning())
    for (std::size_t i = 0; i < count; ++i) {
      const cmsCIELab p{a[i].l, a[i].a, a[i].b}, q{b[i].l, b[i].a, b[i].b};
      benchmark::DoNotOptimize(cmsCIE2000DeltaE(&p, &q, 1, 1, 1));
    }
  per_item(state);
}
BENCHMARK(ciede2000_littlecms);

void lab_of_xyz(benchmark::State& state) {
  std::vector<Xyz> xyz;
  for (const auto& lab : random_labs(3)) xyz.push_back(xyz_from_lab(lab, white_d50));
  while (state.KeepRunning())
    for (const auto& c : xyz) benchmark::DoNotOptimize(lab_from_xyz(c, white_d50));
  per_item(state);
}
BENCHMARK(lab_of_xyz);

void lab_of_xyz_littlecms(benchmark::State& state) {
  std::vector<cmsCIEXYZ> xyz;
  for (const auto& lab : random_labs(3)) {
    const auto c = xyz_from_lab(lab, white_d50);
    xyz.push_back({c.x, c.y, c.z});
  }
  while (state.KeepRunning())
    for (const auto& c : xyz) {
      cmsCIELab lab;
      cmsXYZ2Lab(nullptr, &lab, &c);
      benchmark::DoNotOptimize(lab);
    }
  per_item(state);
}
BENCHMARK(lab_of_xyz_littlecms);

}  // namespace

BENCHMARK_MAIN();
