#include <fmt/format.h>

#include <colorlib/base/worker_threads.hpp>
#include <exception>
#include <mutex>
#include <new>
#include <thread>
#include <vector>

namespace colorlib {

void run_on_threads(std::size_t shares, const std::function<void(std::size_t)>& work) {
  if (shares == 0) return;
  std::mutex lock;
  std::exception_ptr first;
  const auto surely = [&](std::size_t share) noexcept {
    try {
      work(share);
    } catch (...) {
      const std::lock_guard guard(lock);
      if (!first) first = std::current_exception();
    }
  };
  {
    std::vector<std::jthread> others;  // joined at the end of this block, whatever happens in it
    try {
      others.reserve(shares - 1);
      while (others.size() + 1 < shares) others.emplace_back(surely, others.size() + 1);
    } catch (const std::exception&) {  // no thread or no memory to be had: the caller does the rest
    }
    for (std::size_t share = others.size() + 1; share < shares; ++share) surely(share);
    surely(0);
  }
  if (first) std::rethrow_exception(first);
}

Error error_in_flight(std::string_view doing) {
  const auto mistake = [&](std::string_view what) {
    return Error{ErrorCode::untrustworthy,
                 fmt::format("{}: the program made a mistake of its own ({}).", doing, what),
                 "Please report it with what was done and, if possible, the files."};
  };
  try {
    throw;  // cppcheck-suppress rethrowNoCurrentException
  } catch (const std::bad_alloc&) {
    return {ErrorCode::untrustworthy, fmt::format("{} needed more memory than there is.", doing),
            "Close other programs, read fewer photos at once, or a smaller one."};
  } catch (const std::exception& problem) {
    return mistake(problem.what());
  } catch (...) {
    return mistake("of no known kind");
  }
}

}  // namespace colorlib
