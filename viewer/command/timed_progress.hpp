#pragma once
/// Progress of work that takes minutes: how far, and how long it will still take. Stops when the user asks.

#include <chrono>
#include <optional>
#include <string>
#include <viewer/command/progress_line.hpp>

namespace tintfall {

class TimedProgress : public colorlib::Progress {
 public:
  TimedProgress(Streams& streams, std::string subject) : line_(streams, std::move(subject)) {}
  void report(double fraction, std::string_view stage) override;
  /// Ctrl-C was pressed (see Interruption).
  bool cancelled() const override;
  void clear() { line_.clear(); }

 private:
  using Clock = std::chrono::steady_clock;
  ProgressLine line_;
  std::optional<Clock::time_point> began_;
  double began_at_ = 0;
};

/// "12 s", "3 min", "1 h 20 min".
std::string time_left_text(double seconds);

}  // namespace tintfall
