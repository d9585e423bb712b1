#include <gmock/gmock.h>
#include <unistd.h>

#include <colorlib/base/data_folder.hpp>
#include <colorlib/reaction/stills_reading.hpp>
#include <fstream>
#include <new>
#include <tests/scenes/series_scene.hpp>
#include <thread>

namespace colorlib {
namespace {

using testing::AllOf;
using testing::Eq;
using testing::Ge;
using testing::Lt;

/// One photo of a reaction, many times over, so that every thread has its share.
class StillsReading : public testing::Test {
 protected:
  StillsReading() {
    std::string pattern = (std::filesystem::temp_directory_path() / "tintfall-stills-XXXXXX").string();
    folder_ = mkdtemp(pattern.data());
    const ChartDefinition chart = find_chart("frame-a5").value();
    scenes::SeriesSettings settings;
    settings.course = {{70, 7, 24}, {32, 12, 11}, {}, 2, 8, 0};
    settings.tissue = settings.wet_tissue = {70, 7, 24};
    settings.seconds = {-1, 5};
    settings.width_px = 800;
    const scenes::SeriesScene series(settings, chart);
    const std::string bytes = series.frame(0).jpeg_bytes;
    for (int i = 0; i < photos; ++i) {
      task_.photos.push_back(folder_ / ("frame-" + std::to_string(i) + ".jpg"));
      std::ofstream(task_.photos.back(), std::ios::binary) << bytes;
    }
    task_.threads = 3;
    request_.candidates = {chart};
    request_.regions = series.regions();
  }
  ~StillsReading() override { std::filesystem::remove_all(folder_); }

  static constexpr int photos = 12;
  std::filesystem::path folder_;
  StillsTask task_;
  ReadRequest request_;
  Progress progress_;
  const Namer namer_ = Namer::load(data_folder()).value();
};

TEST_F(StillsReading, WhatTheSinkThrowsOnAWorkerReachesTheCaller) {
  const auto caller = std::this_thread::get_id();
  int stood = 0, handed_over = 0;
  const StillSink sink = [&](const StillOutcome& outcome) -> Result<std::monostate> {
    ++handed_over;
    stood += outcome.reading.has_value();
    if (std::this_thread::get_id() != caller) throw std::bad_alloc();
    return std::monostate{};
  };
  EXPECT_THROW((void)read_stills(task_, request_, namer_, sink, progress_), std::bad_alloc);
  EXPECT_THAT(stood, Ge(2)) << "the first photo, and that at which it threw";
  EXPECT_THAT(handed_over, Lt(photos)) << "the rest need not be read";
}

TEST_F(StillsReading, MemoryThatRunsOutInOnePhotoIsThatPhotosError) {
  // The first is read by the caller; of the others, one hears the progress throw while it is decoded or read.
  struct Exhausted : Progress {
    bool cancelled() const override {
      thread_local int asked = 0;
      if (std::this_thread::get_id() != caller && ++asked == 3 && !thrown.exchange(true))
        throw std::bad_alloc();
      return false;
    }
    std::thread::id caller = std::this_thread::get_id();
    mutable std::atomic<bool> thrown{false};
  } exhausted;
  int stood = 0, failed = 0;
  const StillSink sink = [&](const StillOutcome& outcome) -> Result<std::monostate> {
    ++(outcome.reading ? stood : failed);
    return std::monostate{};
  };
  const auto done = read_stills(task_, request_, namer_, sink, exhausted);
  ASSERT_TRUE(done.has_value()) << done.error().message;
  EXPECT_THAT(failed, Eq(1));
  EXPECT_THAT(stood, Eq(photos - 1));
}

}  // namespace
}  // namespace colorlib
