// Naming colours, beside the plain colour-difference formula: the last line says the ratio in this run.
#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/naming/namer.hpp>
#include <cstdio>
#include <map>
#include <random>
#include <vector>

namespace {

using namespace colorlib;

constexpr std::size_t count = 4096;

/// Colours of deposits and caps: pale yellows to dark browns.
std::vector<Lab> fungal_labs(unsigned seed) {
  std::mt19937 engine(seed);
  std::uniform_real_distribution<double> l(15, 95), a(-8, 30), b(-5, 50);
  std::vector<Lab> labs(count);
  for (auto& lab : labs) lab = {l(engine), a(engine), b(engine)};
  return labs;
}

const Namer& namer() {
  static const Namer loaded = [] {
    auto result = Namer::load(TINTFALL_SOURCE_FOLDER);
    if (!result) {
      std::fprintf(stderr, "%s\n", result.error().message.c_str());
      std::exit(1);
    }
    return *result;
  }();
  return loaded;
}

void per_item(benchmark::State& state) {
  state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(count));
}

void plain_ciede2000(benchmark::State& state) {
  const auto a = fungal_labs(1), b = fungal_labs(2);
  while (state.KeepRunning())
    for (std::size_t i = 0; i < count; ++i) benchmark::DoNotOptimize(difference_ciede2000(a[i], b[i]));
  per_item(state);
}
BENCHMARK(plain_ciede2000);

void munsell_and_name(benchmark::State& state) {
  const auto labs = fungal_labs(1);
  while (state.KeepRunning()) benchmark::DoNotOptimize(namer().blocks_of(labs));
  per_item(state);
}
BENCHMARK(munsell_and_name);

void lab_of_munsell(benchmark::State& state) {
  std::vector<Munsell> notations;
  for (const auto& lab : fungal_labs(1))
    notations.push_back(namer().renotation().munsell_from_lab(lab).munsell);
  while (state.KeepRunning())
    for (const auto& munsell : notations)
      benchmark::DoNotOptimize(namer().renotation().lab_from_munsell(munsell));
  per_item(state);
}
BENCHMARK(lab_of_munsell);

void whole_description(benchmark::State& state) {
  const auto labs = fungal_labs(1);
  std::size_t i = 0;
  while (state.KeepRunning())
    benchmark::DoNotOptimize(namer().describe(labs[i++ % count], Matrix3::diagonal(0.6, 0.4, 0.6)));
  state.SetItemsProcessed(state.iterations());
}
BENCHMARK(whole_description);

void loading_the_tables(benchmark::State& state) {
  while (state.KeepRunning()) benchmark::DoNotOptimize(Namer::load(TINTFALL_SOURCE_FOLDER));
}
BENCHMARK(loading_the_tables)->Unit(benchmark::kMillisecond);

/// Keeps the rates for the ratio.
class Rates : public benchmark::ConsoleReporter {
 public:
  void ReportRuns(const std::vector<Run>& runs) override {
    for (const auto& run : runs)
      if (const auto rate = run.counters.find("items_per_second"); rate != run.counters.end())
        rates_[run.benchmark_name()] = rate->second;
    ConsoleReporter::ReportRuns(runs);
  }
  void print_ratio() const {
    const auto name = rates_.find("munsell_and_name"), plain = rates_.find("plain_ciede2000");
    if (name == rates_.end() || plain == rates_.end()) return;
    fmt::print(
        "Munsell and name of one colour: {:.2f} million a second, {:.2f} x the time of one plain CIEDE2000\n",
        name->second / 1e6, plain->second / name->second);
  }

 private:
  std::map<std::string, double> rates_;
};

}  // namespace

int main(int argc, char** argv) {
  benchmark::Initialize(&argc, argv);
  if (benchmark::ReportUnrecognizedArguments(argc, argv)) return 1;
  Rates rates;
  benchmark::RunSpecifiedBenchmarks(&rates);
  rates.print_ratio();
  return 0;
}
