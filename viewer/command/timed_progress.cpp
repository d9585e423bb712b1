#include <fmt/format.h>

#include <cmath>
#include <viewer/command/interruption.hpp>
#include <viewer/command/timed_progress.hpp>

namespace tintfall {

std::string time_left_text(double seconds) {
  const auto whole = static_cast<long>(std::ceil(std::max(0.0, seconds)));
  if (whole < 90) return fmt::format("{} s", whole);
  const long minutes = (whole + 30) / 60;
  return minutes < 90 ? fmt::format("{} min", minutes)
                      : fmt::format("{} h {} min", minutes / 60, minutes % 60);
}

void TimedProgress::report(double fraction, std::string_view stage) {
  const auto now = Clock::now();
  if (!began_) {
    began_ = now;
    began_at_ = fraction;
  }
  const double done = fraction - began_at_;
  const double elapsed = std::chrono::duration<double>(now - *began_).count();
  constexpr double telling_s = 1;  // before, the rate is not known
  if (done > 0 && elapsed > telling_s)
    line_.report(fraction,
                 fmt::format("{}, {} left", stage, time_left_text(elapsed * (1 - fraction) / done)));
  else
    line_.report(fraction, stage);
}

bool TimedProgress::cancelled() const { return Interruption::asked(); }

}  // namespace tintfall
