#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <condition_variable>
#include <mutex>
#include <new>
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

Result<Record> guarded(const ReadPhotoAt& read, std::size_t i, Progress& progress) {
  try {
    return read(i, progress);
  } catch (const std::bad_alloc&) {
    return fail(ErrorCode::untrustworthy, "Reading the photo needed more memory than there is.",
                "Use fewer --jobs, or a smaller photo.");
  } catch (const std::exception& problem) {
    return fail(ErrorCode::untrustworthy,
                fmt::format("The program made a mistake of its own: {}.", problem.what()),
                "Please report it with the photo.");
  }
}

}  // namespace

void read_photos(std::size_t count, std::size_t jobs, const ReadPhotoAt& read, const TakeRecordAt& take,
                 Progress& progress) {
  std::vector<std::optional<Result<Record>>> results(count);
  std::mutex mutex;
  std::condition_variable ready;
  std::atomic<std::size_t> next{0}, done{0};
  std::atomic<bool> stop{false};
  std::vector<std::thread> threads;
  for (std::size_t job = 0; job < std::min(jobs, count); ++job)
    threads.emplace_back([&] {
      for (std::size_t i; (i = next++) < count;) {
        PartOfBatch part(stop);
        Result<Record> result =
            stop ? Result<Record>(
                       fail(ErrorCode::cancelled, "The work was stopped before this photo.", "Run it again."))
                 : guarded(read, i, part);
        const std::lock_guard lock(mutex);
        results[i] = std::move(result);
        ++done;
        ready.notify_one();
      }
    });
  for (std::size_t i = 0; i < count; ++i) {
    std::unique_lock lock(mutex);
    while (!results[i]) {
      ready.wait_for(lock, look_again);
      if (progress.cancelled()) stop = true;
      progress.report(static_cast<double>(done) / static_cast<double>(count),
                      fmt::format("{} of {} read", done.load(), count));
    }
    Result<Record> result = std::move(*results[i]);
    lock.unlock();
    take(i, std::move(result));
  }
  for (std::thread& thread : threads) thread.join();
}

std::size_t usual_jobs() { return std::clamp<std::size_t>(std::thread::hardware_concurrency(), 1, 8); }

}  // namespace tintfall
