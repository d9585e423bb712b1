#include <gmock/gmock.h>
#include <unistd.h>

#include <colorlib/base/data_folder.hpp>
#include <colorlib/video/video_reading.hpp>
#include <cstdio>
#include <tests/colorlib/video/filmed_series.hpp>

namespace colorlib {
namespace {

using testing::Ge;
using testing::Le;

TEST(VideoReading, ASheetLongHiddenDoesNotBlindTheRestOfTheVideo) {
  std::string pattern = (std::filesystem::temp_directory_path() / "tintfall-film-XXXXXX").string();
  const std::filesystem::path folder = mkdtemp(pattern.data());
  const ChartDefinition chart = find_chart("frame-a5").value();
  scenes::SeriesSettings settings;
  settings.course = {{70, 7, 24}, {32, 12, 11}, {}, 1.2, 1.5, 0};
  settings.tissue = settings.wet_tissue = {70, 7, 24};
  settings.seconds = {-1, 1.2, 3, 11};
  settings.width_px = 800;
  settings.hand_deg = 0;
  settings.drift = 0;
  const scenes::SeriesScene series(settings, chart);
  // Of 12 s the sheet is hidden for 7: attempts to find it again are many more than `most_frames`.
  FilmSettings film;
  film.length_s = 12;
  film.rate = 10;
  film.covered_s = {0.9, 8};
  film_series(folder / "film.mp4", series, film);
  ReadRequest request;
  request.candidates = {chart};
  request.regions = series.regions();
  VideoOptions options;
  options.thinning.most_frames = 16;
  options.thinning.slowest_s = 0.3;
  options.retry_s = 0.2;
  int hidden = 0, after = 0;
  Progress progress;
  const Namer namer = Namer::load(data_folder()).value();
  const auto summary = read_video(
      folder / "film.mp4", request, namer, options,
      [&](const VideoFrameOutcome& outcome) -> Result<std::monostate> {
        if (outcome.reading == nullptr) ++hidden;
        if (outcome.reading != nullptr && outcome.seconds >= 8) ++after;
        return std::monostate{};
      },
      progress);
  std::filesystem::remove_all(folder);
  ASSERT_TRUE(summary.has_value()) << summary.error().message;
  std::printf("%lld frames read, %d of them without the sheet, %d with it after that, pace %d\n",
              static_cast<long long>(summary->frames_read), hidden, after, summary->paces);
  EXPECT_THAT(hidden, Ge(12)) << "with the frames before, most_frames: or nothing is tested";
  EXPECT_THAT(after, Ge(6)) << "in 4 s at a frame every 0.3 to 1.2 s";
  EXPECT_THAT(summary->paces, Le(8));
}

}  // namespace
}  // namespace colorlib
