#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <colorlib/image/decode.hpp>
#include <colorlib/reaction/series_times.hpp>
#include <colorlib/reaction/stills_reading.hpp>
#include <mutex>
#include <optional>
#include <set>
#include <thread>

namespace colorlib {
namespace {

constexpr std::size_t most_files = 100'000;

/// Work inside one photo says nothing, but hears of a stop.
class Listening : public Progress {
 public:
  Listening(const Progress& whole, const std::atomic<bool>& stop) : whole_(whole), stop_(stop) {}
  bool cancelled() const override { return stop_ || whole_.cancelled(); }

 private:
  const Progress& whole_;
  const std::atomic<bool>& stop_;
};

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
    std::vector<std::thread> others;
    for (std::size_t i = 1; i < threads; ++i) others.emplace_back([this] { work(); });
    work();
    for (std::thread& other : others) other.join();
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
        const auto photo = decode_photo(task_.photos[i]);
        if (!photo) continue;
        const auto reading = read_photo(*photo, request_, namer_, quiet);
        if (reading) first_.emplace(*photo, *reading, request_);
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
      one(waiting_[next]);
    }
  }

  void one(std::size_t index) {
    Listening listening(progress_, stop_);
    StillOutcome outcome{index, nullptr, {}, {}};
    const auto photo = decode_photo(task_.photos[index]);
    if (photo) {
      outcome.photo = &*photo;
      outcome.reading = read_photo(*photo, request_, namer_, listening);
      if (outcome.reading) {
        // Only the first photos, read one by one, find no first frame yet.
        if (!first_) first_.emplace(*photo, *outcome.reading, request_);
        outcome.comparison = first_->compare(*photo, *outcome.reading, request_, namer_);
        if (outcome.comparison.untrusted) outcome.reading = fail(*outcome.comparison.untrusted);
      }
    } else {
      outcome.reading = fail(photo.error());
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
  std::atomic<std::size_t> next_{0};
  std::atomic<bool> stop_{false};
  std::mutex hand_over_;
  std::size_t done_ = 0;
  std::optional<Error> problem_;
};

bool has_photo_ending(const std::filesystem::path& file) {
  static const std::set<std::string> endings{".jpg",  ".jpeg", ".png", ".tif", ".tiff", ".heic",
                                             ".heif", ".avif", ".dng", ".arw", ".cr2",  ".cr3",
                                             ".nef",  ".orf",  ".pef", ".raf", ".rw2"};
  std::string ending = file.extension().string();
  std::transform(ending.begin(), ending.end(), ending.begin(),
                 [](unsigned char c) { return std::tolower(c); });
  return endings.contains(ending);
}

}  // namespace

Result<std::monostate> read_stills(const StillsTask& task, const ReadRequest& request, const Namer& namer,
                                   const StillSink& sink, Progress& progress) {
  return StillsReader(task, request, namer, sink, progress).run();
}

Result<std::vector<std::filesystem::path>> photos_of_folder(const std::filesystem::path& folder) {
  namespace fs = std::filesystem;
  std::error_code problem;
  std::vector<fs::path> photos;
  std::size_t seen = 0;
  for (fs::directory_iterator entry(folder, problem), end; !problem && entry != end;
       entry.increment(problem)) {
    if (++seen > most_files)
      return fail(ErrorCode::unreadable_photo,
                  fmt::format("The folder '{}' holds more than {} files.", folder.string(), most_files),
                  "Put the photos of one series into a folder of their own.");
    std::error_code ignored;
    if (entry->path().filename().string().starts_with('.') || !entry->is_regular_file(ignored)) continue;
    if (has_photo_ending(entry->path())) photos.push_back(entry->path());
  }
  if (problem)
    return fail(ErrorCode::unreadable_photo,
                fmt::format("Looking into the folder '{}': {}.", folder.string(), problem.message()),
                "Check its name and who may read it.");
  std::sort(photos.begin(), photos.end(), [](const fs::path& a, const fs::path& b) {
    return counts_before(a.filename().string(), b.filename().string());
  });
  return photos;
}

}  // namespace colorlib
