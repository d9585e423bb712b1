#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <colorlib/base/worker_threads.hpp>
#include <condition_variable>
#include <mutex>
#include <optional>
#include <thread>
#include <vector>
#include <viewer/command/photo_batch.hpp>

namespace tintfall {
namespace {

using namespace colorlib;

constexpr auto look_again = std::chrono::milliseconds(200);

/// Says nothing, and stops when the whole batch is to stop.
class PartOfBatch : public Progress {
 public:
  explicit PartOfBatch(const std::atomic<bool>& stop) : stop_(stop) {}
  bool cancelled() const override { return stop_; }

 private:
  const std::atomic<bool>& stop_;
};

/// The results of a batch on their way from the threads that read to the one that tells.
class Batch {
 public:
  Batch(std::size_t count, const ReadPhotoAt& read) : read_(read), results_(count) {}

  /// Reads photographs until there are none left. Whatever ends it early is told to the other side.
  void read() {
    try {
      for (std::size_t i; (i = next_++) < results_.size();) {
        PartOfBatch part(stop_);
        auto result = guarded("Reading the photo", [&]() -> Result<Record> {
          if (stop_)
            return fail(ErrorCode::cancelled, "The work was stopped before this photo.", "Run it again.");
          return read_(i, part);
        });
        const std::lock_guard lock(mutex_);
        results_[i] = std::move(result);
        ++done_;
        ready_.notify_one();
      }
    } catch (...) {
      const std::lock_guard lock(mutex_);
      broken_ = true;
      ready_.notify_one();
      throw;
    }
  }

  /// Tells every result in order, or those before a reader broke off.
  void tell(const TakeRecordAt& take, Progress& progress) {
    const StopAtTheEnd end{stop_};
    for (std::size_t i = 0; i < results_.size(); ++i) {
      std::unique_lock lock(mutex_);
      while (!results_[i]) {
        if (broken_) return;
        ready_.wait_for(lock, look_again);
        if (progress.cancelled()) stop_ = true;
        progress.report(static_cast<double>(done_) / static_cast<double>(results_.size()),
                        fmt::format("{} of {} read", done_.load(), results_.size()));
      }
      Result<Record> result = std::move(*results_[i]);
      lock.unlock();
      take(i, std::move(result));
    }
  }

 private:
  /// When nobody listens any more, for an exception too, the readers need not go on.
  struct StopAtTheEnd {
    std::atomic<bool>& stop;
    ~StopAtTheEnd() { stop = true; }
  };

  const ReadPhotoAt& read_;
  std::vector<std::optional<Result<Record>>> results_;
  std::mutex mutex_;
  std::condition_variable ready_;
  std::atomic<std::size_t> next_{0}, done_{0};
  std::atomic<bool> stop_{false};
  bool broken_ = false;  ///< a reader ended before its time
};

}  // namespace

void read_photos(std::size_t count, std::size_t jobs, const ReadPhotoAt& read, const TakeRecordAt& take,
                 Progress& progress) {
  Batch batch(count, read);
  run_on_threads(1 + std::min(jobs, count), [&](std::size_t share) {
    if (share == 0)
      batch.tell(take, progress);
    else
      batch.read();
  });
}

std::size_t usual_jobs() { return std::clamp<std::size_t>(std::thread::hardware_concurrency(), 1, 8); }

}  // namespace tintfall
