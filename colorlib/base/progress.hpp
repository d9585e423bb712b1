#pragma once
/// How long work tells where it is, and learns that it should stop.

#include <string_view>

namespace colorlib {

/// Passed by reference to long work. The default says nothing and never stops.
class Progress {
 public:
  virtual ~Progress() = default;
  /// `fraction` in [0, 1] of the whole; `stage` a short phrase for a person.
  virtual void report(double /*fraction*/, std::string_view /*stage*/) {}
  /// Polled at each step; true ends the work with ErrorCode::cancelled.
  virtual bool cancelled() const { return false; }
};

}  // namespace colorlib
