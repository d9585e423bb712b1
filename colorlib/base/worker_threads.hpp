#pragma once
/// Work on several threads at once, and what becomes of exceptions in it: none may end the program.

#include <colorlib/base/result.hpp>
#include <cstddef>
#include <functional>
#include <string_view>

namespace colorlib {

/// Calls `work(share)` once for every share from 0 to `shares` - 1, each on a thread of its own, share 0 on
/// the caller's, and comes back when all of them have ended. What one of them throws does not stop the
/// others; the first exception is thrown again here, after their end. Shares whose thread cannot be started
/// are done by the caller, before its own.
void run_on_threads(std::size_t shares, const std::function<void(std::size_t share)>& work);

/// The exception that is being handled, as an error; to be called in a catch block. `doing` begins the
/// sentence: "Reading the photo". Always untrustworthy: memory that ran out, or a mistake of the program's.
Error error_in_flight(std::string_view doing);

/// The result of `work()`, or what it threw as an error.
template <class Work>
auto guarded(std::string_view doing, Work&& work) -> decltype(work()) {
  try {
    return work();
  } catch (...) {
    return fail(error_in_flight(doing));
  }
}

}  // namespace colorlib
