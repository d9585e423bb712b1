#include "tests/transfer/transfer_run.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <cmath>
#include <colorlib/base/data_folder.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/specimen/photo_reading.hpp>
#include <mutex>
#include <thread>

namespace colorlib::transfer {
namespace {

constexpr double gap_mm = 6;

/// The photos of one printed sheet beside the known one. Both are of one kind, as in a club that shares a
/// definition.
struct Club {
  const RunSettings& settings;
  ChartDefinition chart;
  std::uint64_t seed;
  scenes::SheetSettings print;

  Club(const RunSettings& run, const ChartDefinition& frame, std::uint64_t at)
      : settings(run), chart(frame), seed(at) {
    print = scenes::random_scene(settings.condition, seed + 20'000, settings.pool).sheet;
    print.print_random_sd = settings.print_random_sd;
    print.curl = {};
  }

  scenes::SceneSettings photo(int index) const {
    scenes::SceneSettings scene = scenes::random_scene(settings.condition, seed, settings.pool);
    scene.view = scenes::random_scene(settings.condition, 100 * seed + static_cast<std::uint64_t>(index),
                                      settings.pool)
                     .view;
    scene.photo_seed = 100 * seed + static_cast<std::uint64_t>(index);
    scene.view.rotation_deg = std::fmod(scene.view.rotation_deg, 20);  // straight in the frame, as asked for
    scene.specimens.clear();
    scene.sensor.paper_level *=
        0.75;  // the camera exposes for both sheets, and either may be the brighter one
    scene.sheet.curl = {};
    const bool below = !settings.change_places || index % 2 == 0;
    scene.second = scenes::SecondSheet{
        chart,          print, seed + 40'000, 0, below ? chart.height_mm + gap_mm : -chart.height_mm - gap_mm,
        index % 3 - 1.0};
    return scene;
  }

  scenes::SceneSettings reading(int index) const {
    scenes::SceneSettings scene = scenes::random_scene(
        settings.condition, seed + 60'000 + 1'000 * static_cast<std::uint64_t>(index), settings.pool);
    scene.sheet = print;
    scene.seed = seed + 40'000;
    return scene;
  }
};

void read_with(const Club& club, const ReferenceValues& values, const Namer& namer, Row& row,
               std::mutex& guard) {
  for (int i = 0; i < club.settings.reading_photos; ++i) {
    const scenes::Scene scene = scenes::render(club.reading(i), club.chart);
    ReadRequest request;
    request.candidates = {club.chart};
    request.reference_values = values;
    request.regions = scenes::true_regions(scene);
    request.height_mm = 0;
    Progress quiet;
    const auto reading = read_photo(scene.photo, request, namer, quiet);
    const std::lock_guard lock(guard);
    if (!reading) {
      row.refusals.push_back(reading.error().message);
      continue;
    }
    for (std::size_t r = 0; r < reading->readings.size(); ++r) {
      if (reading->readings[r].refused) continue;
      row.reading_de00.push_back(difference_ciede2000(scene.specimens[r].as_seen, reading->readings[r].lab));
      row.reading_expanded.push_back(reading->readings[r].de00_expanded);
    }
  }
}

void carry_over(const Club& club, const Namer& namer, Row& row, std::mutex& guard) {
  TransferSheets sheets{club.chart, {}, club.chart};
  std::vector<SheetBeside> beside;
  std::vector<Lab> truth;
  Progress quiet;
  for (int i = 0; i < club.settings.photos; ++i) {
    const scenes::SceneSettings settings = club.photo(i);
    const scenes::Scene scene = scenes::render(settings, club.chart);
    sheets.known_values = scene.reference;
    truth = scene.second_true_patches;
    TwoSheetsHints hints;
    const PointPx& known = scene.corners_px[0];
    const PointPx& other = scene.second_corners_px[0];
    if (std::abs(known.y - other.y) > std::abs(known.x - other.x))
      hints.known_side = known.y < other.y ? SheetSide::above : SheetSide::below;
    else
      hints.known_side = known.x < other.x ? SheetSide::left : SheetSide::right;
    auto one = read_sheet_beside(scene.photo, sheets, hints, club.settings.options, quiet);
    if (!one) {
      const std::lock_guard lock(guard);
      row.refusals.push_back(fmt::format("seed {}: {}", club.seed, one.error().message));
      continue;
    }
    beside.push_back(std::move(*one));
  }
  const auto transfer = transferred_reference(beside, sheets, club.settings.options);
  {
    const std::lock_guard lock(guard);
    ++row.sheets;
    if (!transfer) {
      ++row.refused;
      row.refusals.push_back(fmt::format("seed {}: {}", club.seed, transfer.error().message));
      return;
    }
    double bias = 0;
    for (std::size_t p = 0; p < truth.size(); ++p) {
      const PatchReference& value = transfer->values.patches[p];
      const auto& u = value.standard_uncertainty;
      row.print_de00.push_back(difference_ciede2000(truth[p], club.chart.patches[p].nominal_lab));
      row.patch_de00.push_back(difference_ciede2000(truth[p], value.lab));
      row.patch_expanded.push_back(
          expanded_de00(value.lab, Matrix3::diagonal(u[0] * u[0], u[1] * u[1], u[2] * u[2])));
      row.patch_over_u.push_back({(value.lab.l - truth[p].l) / u[0], (value.lab.a - truth[p].a) / u[1],
                                  (value.lab.b - truth[p].b) / u[2]});
      bias += (value.lab.l - truth[p].l) / static_cast<double>(truth.size());
    }
    row.sheet_l_bias.push_back(bias);
  }
  read_with(club, transfer->values, namer, row, guard);
}

}  // namespace

double covered(const std::vector<double>& error, const std::vector<double>& expanded) {
  double inside = 0;
  for (std::size_t i = 0; i < error.size(); ++i) inside += error[i] <= expanded[i];
  return inside / static_cast<double>(std::max<std::size_t>(error.size(), 1));
}

Row run(const RunSettings& settings) {
  const Namer namer = Namer::load(data_folder()).value();
  const ChartDefinition chart = find_chart("frame-a5").value();
  Row row;
  row.name = scenes::condition_name(settings.condition) + (settings.change_places ? "" : ", places kept");
  std::mutex guard;
  std::atomic<int> next{0};
  const auto work = [&] {
    for (int i = next++; i < settings.sheets; i = next++)
      carry_over(Club(settings, chart, settings.first_seed + static_cast<std::uint64_t>(i)), namer, row,
                 guard);
  };
  std::vector<std::thread> threads;
  for (unsigned i = 1; i < std::max(1u, std::min(4u, std::thread::hardware_concurrency())); ++i)
    threads.emplace_back(work);
  work();
  for (auto& thread : threads) thread.join();
  std::sort(row.refusals.begin(), row.refusals.end());
  return row;
}

std::string table_head() {
  return "| light, photo | sheets | refused | print error, median | values: median | 95 % | stated, median | "
         "covered | rms of L*, a*, "
         "b* over stated | readings | median | 95 % | stated, median | covered |\n"
         "| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |\n";
}

std::string table_row(const Row& row) {
  std::array<double, 3> rms{};
  for (const auto& z : row.patch_over_u)
    for (std::size_t k = 0; k < 3; ++k) rms[k] += z[k] * z[k] / static_cast<double>(row.patch_over_u.size());
  return fmt::format(
      "| {} | {} | {} | {:.1f} | {:.2f} | {:.2f} | {:.2f} | {:.1f} % | {:.2f} / {:.2f} / {:.2f} | {} | "
      "{:.2f} | {:.2f} | {:.2f} | "
      "{:.1f} % |\n",
      row.name, row.sheets, row.refused, quantile(row.print_de00, 0.5), quantile(row.patch_de00, 0.5),
      quantile(row.patch_de00, 0.95), quantile(row.patch_expanded, 0.5),
      100 * covered(row.patch_de00, row.patch_expanded), std::sqrt(rms[0]), std::sqrt(rms[1]),
      std::sqrt(rms[2]), row.reading_de00.size(), quantile(row.reading_de00, 0.5),
      quantile(row.reading_de00, 0.95), quantile(row.reading_expanded, 0.5),
      100 * covered(row.reading_de00, row.reading_expanded));
}

}  // namespace colorlib::transfer
