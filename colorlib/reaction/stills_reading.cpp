#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <cmath>
#include <colorlib/base/worker_threads.hpp>
#include <colorlib/image/decode.hpp>
#include <colorlib/reaction/stills_reading.hpp>
#include <mutex>
#include <optional>
#include <thread>

namespace colorlib {
namespace {

constexpr const char* doing = "Reading the photo";

/// Work inside one photo says nothing, but hears of a stop.
class Listening : public Progress {
 public:
  Listening(const Progress& whole, const std::atomic<bool>& stop) : whole_(whole), stop_(stop) {}
  bool cancelled() const override { return stop_ || whole_.cancelled(); }

 private:
  const Progress& whole_;
  const std::atomic<bool>& stop_;
};

/// A photo may be made smaller as it is decoded as long as this much is left: what a mean of a region, the
/// edges of patches and a change map at 4 px/mm need. The series that the intervals of times are tested on
/// have 4.5 (docs/results/time_courses.md); phones have two to four times as much.
constexpr double enough_px_per_mm = 4, enough_px = 20;

/// How much smaller the photos of a series may be made, judged by one of them.
int reduction_for(const PhotoReading& reading, const ReadRequest& request) {
  if (!request.regions || request.regions->frame != RegionFrame::chart_mm || request.corners ||
      request.masstone || request.keep_films || !reading.chart.backings.empty())
    return 1;
  const ChartDefinition& chart = reading.chart;
  const Placement& placement = reading.sheet.placement;
  double scale = placement.px_per_mm({chart.width_mm / 2, chart.height_mm / 2}), smallest_px = INFINITY;
  const auto look_at = [&](const PointMm& at, double side_mm) {
    const double here = placement.px_per_mm(at);
    scale = std::min(scale, here);
    smallest_px = std::min(smallest_px, side_mm * here);
  };
  for (const Patch& patch : chart.patches)
    look_at(patch.place.centre(), std::min(patch.place.width, patch.place.height));
  for (const Region& region : request.regions->items) {
    const auto [left, top, right, bottom] = region.bounds();
    look_at({(left + right) / 2, (top + bottom) / 2}, std::min(right - left, bottom - top));
  }
  int factor = 1;
  while (factor < 4 && scale / (2 * factor) >= enough_px_per_mm && smallest_px / (2 * factor) >= enough_px)
    factor *= 2;
  return factor;
}

class StillsReader {
 public:
  StillsReader(const StillsTask& task, const ReadRequest& request, const Namer& namer, const StillSink& sink,
               Progress& progress)
      : task_(task), request_(request), namer_(namer), sink_(sink), progress_(progress) {
    for (std::size_t i = 0; i < task.photos.size(); ++i)
      if (i >= task.skip.size() || !task.skip[i]) waiting_.push_back(i);
    done_ = task.photos.size() - waiting_.size();
  }

  Result<std::monostate> run() {
    const unsigned cores = task_.threads > 0 ? task_.threads : std::thread::hardware_concurrency();
    const std::size_t threads = std::clamp<std::size_t>(
        cores, 1, std::min<std::size_t>(StillsTask::most_threads, std::max<std::size_t>(waiting_.size(), 1)));
    report();
    find_first();
    run_on_threads(threads, [this](std::size_t) { work(); });
    if (problem_) return fail(*problem_);
    if (progress_.cancelled())
      return fail(
          ErrorCode::cancelled,
          fmt::format("Reading the series was stopped after {} of {} photos.", done_, task_.photos.size()),
          "Start it again when you like.");
    return std::monostate{};
  }

 private:
  /// Reads the photos in order until one stands: all others are compared with it.
  void find_first() {
    for (std::size_t i = 0; i < task_.photos.size() && !first_ && !stop_ && !progress_.cancelled(); ++i) {
      const bool known = i < task_.skip.size() && task_.skip[i];
      if (known) {
        Listening quiet(progress_, stop_);
        auto photo = decode_photo_reduced(task_.photos[i], 1);
        if (!photo) continue;
        auto reading = read_photo(photo->photo, request_, namer_, quiet);
        if (reading) begin_with(i, *photo, *reading, quiet);
      } else {
        one(i);
        ++next_;
      }
    }
  }

  void work() {
    const Listening listening(progress_, stop_);
    while (!listening.cancelled()) {
      const std::size_t next = next_++;
      if (next >= waiting_.size()) return;
      try {
        one(waiting_[next]);
      } catch (...) {
        stop_ = true;  // the other threads need not go on
        throw;
      }
    }
  }

  /// The first photo says how large the others need be, and is then read once more as they will be.
  void begin_with(std::size_t index, ReducedPhoto& photo, PhotoReading& reading, Progress& progress) {
    reduction_ = reduction_for(reading, request_);
    if (reduction_ > 1) {
      auto smaller = decode_photo_reduced(task_.photos[index], reduction_);
      Result<PhotoReading> again = smaller ? read_photo(smaller->photo, request_, namer_, progress)
                                           : Result<PhotoReading>(fail(smaller.error()));
      if (again) {
        photo = std::move(*smaller);
        reading = std::move(*again);
      } else {
        reduction_ = 1;
      }
    }
    first_.emplace(photo.photo, reading, request_);
  }

  void one(std::size_t index) {
    Listening listening(progress_, stop_);
    StillOutcome outcome{index, nullptr, {}, {}, {}};
    DecodeLimits limits;
    limits.progress = &listening;
    const auto decoded = [&](int reduction) {
      return guarded(doing, [&] { return decode_photo_reduced(task_.photos[index], reduction, limits); });
    };
    auto photo = decoded(reduction_);
    // What memory or a mistake of the program's prevents is this photo's failure, not the series'.
    const auto looked = guarded(doing, [&]() -> Result<std::monostate> {
      if (photo) outcome.reading = read_photo(photo->photo, request_, namer_, listening);
      // What is too small for once (taken from farther away) is read whole.
      if (photo && !outcome.reading && outcome.reading.error().code != ErrorCode::cancelled &&
          photo->reduction.factor > 1) {
        photo = decoded(1);
        if (photo) outcome.reading = read_photo(photo->photo, request_, namer_, listening);
      }
      if (!photo) return fail(photo.error());
      // Only the first photos, read one by one, find no first frame yet.
      if (outcome.reading && !first_) begin_with(index, *photo, *outcome.reading, listening);
      if (outcome.reading) {
        outcome.comparison = first_->compare(photo->photo, *outcome.reading, request_, namer_);
        if (outcome.comparison.untrusted) outcome.reading = fail(*outcome.comparison.untrusted);
      }
      return std::monostate{};
    });
    if (!looked) outcome.reading = fail(looked.error());
    if (photo) {
      outcome.photo = &photo->photo;
      outcome.reduction = photo->reduction;
    }
    if (!outcome.reading && outcome.reading.error().code == ErrorCode::cancelled) return;
    const std::lock_guard lock(hand_over_);
    if (problem_) return;
    if (const auto taken = sink_(outcome); !taken) {
      problem_ = taken.error();
      stop_ = true;
      return;
    }
    ++done_;
    report();
  }

  void report() {
    const auto total = static_cast<double>(std::max<std::size_t>(task_.photos.size(), 1));
    progress_.report(static_cast<double>(done_) / total,
                     fmt::format("{} of {} photos", done_, task_.photos.size()));
  }

  const StillsTask& task_;
  const ReadRequest& request_;
  const Namer& namer_;
  const StillSink& sink_;
  Progress& progress_;
  std::vector<std::size_t> waiting_;
  std::optional<FirstFrame> first_;
  int reduction_ = 1;  ///< of the photos after the first; set before others are read
  std::atomic<std::size_t> next_{0};
  std::atomic<bool> stop_{false};
  std::mutex hand_over_;
  std::size_t done_ = 0;
  std::optional<Error> problem_;
};

}  // namespace

Result<std::monostate> read_stills(const StillsTask& task, const ReadRequest& request, const Namer& namer,
                                   const StillSink& sink, Progress& progress) {
  return StillsReader(task, request, namer, sink, progress).run();
}

}  // namespace colorlib
