#include <gmock/gmock.h>

#include <array>
#include <atomic>
#include <chrono>
#include <colorlib/base/worker_threads.hpp>
#include <new>
#include <stdexcept>
#include <string>
#include <tests/support/color_matchers.hpp>
#include <thread>

namespace colorlib {
namespace {

using testing::AllOf;
using testing::HasSubstr;

TEST(WorkerThreads, EveryShareIsDoneOnceAndTheFirstByTheCaller) {
  std::array<std::atomic<int>, 9> done{};
  std::thread::id of_first;
  run_on_threads(done.size(), [&](std::size_t share) {
    ++done[share];
    if (share == 0) of_first = std::this_thread::get_id();
  });
  for (const auto& times : done) EXPECT_EQ(times, 1);
  EXPECT_EQ(of_first, std::this_thread::get_id());
  run_on_threads(0, [](std::size_t) { FAIL() << "there is nothing to do"; });
}

TEST(WorkerThreads, WhatAnyShareThrowsReachesTheCallerWhenAllHaveEnded) {
  for (std::size_t thrower = 0; thrower < 4; ++thrower) {
    std::atomic<int> ended{0};
    EXPECT_THROW(run_on_threads(4,
                                [&](std::size_t share) {
                                  if (share == thrower) throw std::bad_alloc();
                                  std::this_thread::sleep_for(std::chrono::milliseconds(20));
                                  ++ended;
                                }),
                 std::bad_alloc);
    EXPECT_EQ(ended, 3) << "share " << thrower << " threw";
  }
}

TEST(WorkerThreads, WhenAllThrowOneIsTold) {
  EXPECT_THROW(run_on_threads(4, [](std::size_t share) { throw std::runtime_error(std::to_string(share)); }),
               std::runtime_error);
}

Result<int> guarded_throw(const std::function<int()>& work) {
  return guarded("Counting", [&]() -> Result<int> { return work(); });
}

TEST(WorkerThreads, ExceptionsAsErrors) {
  EXPECT_EQ(guarded_throw([] { return 3; }).value(), 3);
  EXPECT_THAT(guarded_throw([]() -> int { throw std::bad_alloc(); }),
              FailsWith(ErrorCode::untrustworthy, "Counting needed more memory than there is."));
  EXPECT_THAT(guarded_throw([]() -> int { throw std::runtime_error("seven is even"); }),
              FailsWith(ErrorCode::untrustworthy,
                        AllOf(HasSubstr("Counting: "), HasSubstr("mistake of its own (seven is even)."))));
  EXPECT_THAT(guarded_throw([]() -> int { throw 7; }),
              FailsWith(ErrorCode::untrustworthy, HasSubstr("mistake of its own")));
}

}  // namespace
}  // namespace colorlib
