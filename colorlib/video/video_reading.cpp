#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/specimen/region_pixels.hpp>
#include <colorlib/specimen/region_reading.hpp>
#include <colorlib/video/frames_ahead.hpp>
#include <colorlib/video/region_signal.hpp>
#include <colorlib/video/sheet_tracker.hpp>
#include <colorlib/video/video_reading.hpp>
#include <deque>

namespace colorlib {
namespace {

/// Work inside one frame says nothing, but hears of a stop.
class Listening : public Progress {
 public:
  explicit Listening(const Progress& whole) : whole_(whole) {}
  bool cancelled() const override { return whole_.cancelled(); }

 private:
  const Progress& whole_;
};

/// A frame without its sheet, waiting for the next one with.
struct Waiting {
  std::int64_t number = 0;
  double seconds = 0;
  std::vector<Reading> readings;  ///< through the calibration before
  std::vector<std::vector<SheetPixel>> pixels;
};

class VideoReader {
 public:
  VideoReader(VideoFrames& frames, const ReadRequest& request, const Namer& namer,
              const VideoOptions& options, const VideoSink& sink, Progress& progress)
      : frames_(frames),
        request_(request),
        namer_(namer),
        options_(options),
        sink_(sink),
        progress_(progress),
        listening_(progress),
        probe_(*request.regions) {}

  Result<VideoSummary> run() {
    summary_.description = frames_.description();
    std::optional<VideoFrame> before;
    FramesAhead ahead(frames_);
    for (;;) {
      if (progress_.cancelled())
        return fail(ErrorCode::cancelled,
                    fmt::format("Reading the video was stopped after {} frames.", summary_.frames_decoded),
                    "Start it again when you like.");
      auto next = ahead.next();
      if (!next) return fail(next.error());
      if (!*next) break;
      const VideoFrame& frame = **next;
      ++summary_.frames_decoded;
      summary_.seconds = frame.seconds();
      if (summary_.frames_decoded % 64 == 0) tell(frame);
      if (const auto looked = look_at(frame, before); !looked) return fail(looked.error());
      before = frame;
    }
    // The last frame always stands: the end of the course is worth most.
    if (before && before->number() != last_read_)
      if (const auto read = this->read(*before); !read) return fail(read.error());
    if (const auto done = release_waiting(nullptr); !done) return fail(done.error());
    summary_.out_of_order = frames_.out_of_order();
    summary_.damaged = frames_.damaged();
    summary_.of_other_size = frames_.of_other_size();
    if (!calibrated_)
      return fail(first_problem_.value_or(
          Error{ErrorCode::chart_not_found, "The sheet was found in no frame of the video.", {}}));
    return summary_;
  }

 private:
  using Done = Result<std::monostate>;

  void tell(const VideoFrame& frame) {
    const auto& about = summary_.description;
    const double share = about.duration_s > 0 ? frame.seconds() / about.duration_s : 0;
    progress_.report(std::min(share, 0.999),
                     fmt::format("{:.0f} of {:.0f} s, {} frames read", frame.seconds(), about.duration_s,
                                 summary_.frames_read));
  }

  Done look_at(const VideoFrame& frame, const std::optional<VideoFrame>& before) {
    if (!calibrated_) {
      // Until the sheet was found once there is nothing to track: look at the first frame, then now and then.
      return frame.seconds() >= retry_at_ ? read(frame) : Done(std::monostate{});
    }
    const bool tracked = tracker_.follow(frame) && tracker_.quality() >= options_.least_tracking_quality;
    if (options_.thinning.every_frame) return read(frame);
    const double elapsed = frame.seconds() - last_read_s_;
    const int factor = thinning_pace(options_.thinning, with_sheet_);
    summary_.paces = std::max(summary_.paces, factor);
    if (!tracked) return frame.seconds() >= retry_at_ ? read(frame) : Done(std::monostate{});
    if (elapsed >= options_.thinning.slowest_s * factor) return read(frame);
    const RegionSignal signal = probe_.signal(frame, tracker_.placement());
    const double moved = signal_step(signal, last_signal_);
    if (moved < options_.thinning.step_levels * factor) {
      quiet_signal_ = true;
      return std::monostate{};
    }
    if (elapsed < options_.thinning.fastest_s * factor) return std::monostate{};
    // The frame before the move, when the last reading is old: it says that nothing had happened yet.
    if (before && quiet_signal_ && before->number() > last_read_ && elapsed > 3 * options_.thinning.fastest_s)
      if (const auto done = read(*before); !done) return done;
    return read(frame);
  }

  Done read(const VideoFrame& frame) {
    retry_at_ = frame.seconds() + options_.retry_s;
    const auto photo = frame.photo();
    if (!photo) return fail(photo.error());
    auto reading = read_photo(*photo, request_, namer_, listening_);
    if (!reading && reading.error().code == ErrorCode::cancelled) return fail(reading.error());
    last_read_ = frame.number();
    last_read_s_ = frame.seconds();
    quiet_signal_ = false;
    ++summary_.frames_read;
    if (reading) return with_sheet(frame, *photo, std::move(*reading));
    if (!calibrated_) {
      --summary_.frames_read;
      if (!first_problem_) first_problem_ = reading.error();
      return std::monostate{};
    }
    return without_sheet(frame, *photo, reading.error());
  }

  Done with_sheet(const VideoFrame& frame, const Photo& photo, PhotoReading reading) {
    ++with_sheet_;
    if (!first_) first_.emplace(photo, reading, request_);
    VideoFrameOutcome outcome;
    outcome.comparison = first_->compare(photo, reading, request_, namer_);
    tracker_.start(frame, reading.chart, reading.sheet.placement);
    last_signal_ = probe_.signal(frame, reading.sheet.placement);
    if (const auto done = release_waiting(&reading); !done) return done;
    outcome.number = frame.number();
    outcome.seconds = frame.seconds();
    outcome.name = name_of(frame.number());
    outcome.photo = &photo;
    outcome.dropped = outcome.comparison.untrusted;
    if (!outcome.dropped) outcome.reading = &reading;
    const Done taken = sink_(outcome);
    calibrated_ = std::move(reading);
    calibrated_s_ = frame.seconds();
    return taken;
  }

  /// The sheet is hidden or out of the frame: the calibration of before serves, and that of after, once it is
  /// known.
  Done without_sheet(const VideoFrame& frame, const Photo& photo, const Error& why) {
    last_signal_ = probe_.signal(frame, tracker_.placement());
    if (tracker_.quality() < options_.least_tracking_quality ||
        frame.seconds() - calibrated_s_ > options_.longest_carry_s || waiting_.size() >= most_waiting) {
      VideoFrameOutcome outcome;
      outcome.number = frame.number();
      outcome.seconds = frame.seconds();
      outcome.name = name_of(frame.number());
      outcome.dropped = why;
      return sink_(outcome);
    }
    Waiting waiting{frame.number(), frame.seconds(), {}, {}};
    for (const Region& region : request_.regions->items) {
      waiting.readings.push_back(read_region(photo, tracker_.placement(), calibrated_->calibration,
                                             calibrated_->chart, region, RegionFrame::chart_mm,
                                             request_.height_mm, calibrated_->sheet.blur_px, namer_));
      waiting.pixels.push_back(
          gather_pixels(photo, tracker_.placement(), region, RegionFrame::chart_mm).pixels);
    }
    waiting_.push_back(std::move(waiting));
    return std::monostate{};
  }

  /// Hands on the waiting frames. With a calibration after them each reading is drawn towards it in
  /// proportion to time, and the difference between both, as it lies between them, is what carrying costs;
  /// with none after, the whole difference that frames with a sheet showed last stands for it.
  Done release_waiting(const PhotoReading* after) {
    const double after_s = after != nullptr ? last_read_s_ : 0;
    for (Waiting& waiting : waiting_) {
      double away = waiting.seconds - calibrated_s_;
      const double span = after != nullptr ? after_s - calibrated_s_ : 0;
      const double share = span > 0 ? away / span : 0;
      if (after != nullptr) away = std::min(away, after_s - waiting.seconds);
      for (std::size_t i = 0; i < waiting.readings.size(); ++i) {
        Reading& reading = waiting.readings[i];
        if (reading.refused || waiting.pixels[i].empty()) continue;
        Vector3 difference{};
        if (after != nullptr) {
          const Vector3 there = vector_from(after->calibration.color_of(waiting.pixels[i]).lab),
                        here = vector_from(reading.lab);
          for (std::size_t k = 0; k < 3; ++k) difference[k] = there[k] - here[k];
          drift_ = difference;
          Vector3 moved = here;
          for (std::size_t k = 0; k < 3; ++k) moved[k] += share * difference[k];
          reading.lab = lab_from(moved);
        }
        // Between two sheets light may wander by half their difference and more; after the last one, by all
        // of it.
        const double weight = after != nullptr ? std::max(0.25, share * (1 - share)) : 1.0;
        const double floor = carry_floor_lab * carry_floor_lab;
        BudgetComponent part{"carried", weight * outer(after != nullptr ? difference : drift_) +
                                            Matrix3::diagonal(floor, floor, floor)};
        reading.lab_covariance = reading.lab_covariance + part.covariance;
        reading.budget.push_back(std::move(part));
        reading.lab_expanded = expanded_uncertainty(reading.lab_covariance);
        reading.de00_expanded = expanded_de00(reading.lab, reading.lab_covariance);
      }
      VideoFrameOutcome outcome;
      outcome.number = waiting.number;
      outcome.seconds = waiting.seconds;
      outcome.name = name_of(waiting.number);
      outcome.carried = std::move(waiting.readings);
      outcome.carried_s = away;
      ++summary_.frames_carried;
      if (const auto taken = sink_(outcome); !taken) return taken;
    }
    waiting_.clear();
    return std::monostate{};
  }

  static std::string name_of(std::int64_t number) { return fmt::format("frame {}", number); }

  static constexpr std::size_t most_waiting = 200;
  static constexpr double carry_floor_lab =
      0.3;  ///< exposure and balance of a phone hunt a little from frame to frame

  VideoFrames& frames_;
  const ReadRequest& request_;
  const Namer& namer_;
  const VideoOptions& options_;
  const VideoSink& sink_;
  Progress& progress_;
  Listening listening_;
  RegionProbe probe_;
  SheetTracker tracker_;
  VideoSummary summary_;
  std::optional<FirstFrame> first_;
  std::optional<PhotoReading> calibrated_;  ///< of the last frame with a sheet
  std::optional<Error> first_problem_;
  double calibrated_s_ = 0, last_read_s_ = 0, retry_at_ = 0;
  std::int64_t last_read_ = -1, with_sheet_ = 0;
  RegionSignal last_signal_;
  bool quiet_signal_ = false;
  Vector3 drift_{0.5, 0.3, 0.3};
  std::deque<Waiting> waiting_;
};

}  // namespace

Result<VideoSummary> read_video(const std::filesystem::path& path, const ReadRequest& request,
                                const Namer& namer, const VideoOptions& options, const VideoSink& sink,
                                Progress& progress) {
  if (!request.regions || request.regions->frame != RegionFrame::chart_mm || request.regions->items.empty())
    return fail(ErrorCode::bad_call, "A video needs regions in millimetres on the sheet.",
                "Say where the spot lies, for example --region spot@105,74,4.");
  auto frames = VideoFrames::open(path, options.threads);
  if (!frames) return fail(frames.error());
  return VideoReader(*frames, request, namer, options, sink, progress).run();
}

}  // namespace colorlib
