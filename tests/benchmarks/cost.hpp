#pragma once
/// What work takes, for the benchmarks.

#include <sys/resource.h>

#include <chrono>
#include <functional>

/// By the clock, and of all processors. On a machine that others use too the second tells more.
struct Cost {
  double clock_s = 0, processor_s = 0;
};

/// Of the whole process, or of the thread that asks (RUSAGE_THREAD).
inline double processor_s(int of = RUSAGE_SELF) {
  rusage usage{};
  getrusage(of, &usage);
  const auto seconds = [](const timeval& t) {
    return static_cast<double>(t.tv_sec) + 1e-6 * static_cast<double>(t.tv_usec);
  };
  return seconds(usage.ru_utime) + seconds(usage.ru_stime);
}

inline Cost cost_of(const std::function<void()>& work) {
  const auto begin = std::chrono::steady_clock::now();
  const double before = processor_s();
  work();
  return {std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count(),
          processor_s() - before};
}

/// The most memory this process has held, MiB.
inline double peak_mib() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return static_cast<double>(usage.ru_maxrss) / 1024;
}
