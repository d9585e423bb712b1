#pragma once
/// Axes of a diagram: from values to places, and where the labels stand. For .cpp files only.

#include <string>
#include <vector>

namespace colorlib {

/// Round values from `low` to `high`, about `wanted` of them: steps of 1, 2 or 5 times a power of ten.
std::vector<double> round_ticks(double low, double high, int wanted);
/// As short as it can be: "0.5", "20".
std::string tick_text(double value);

/// A time axis, even or square-rooted (then also left of zero, mirrored).
class TimeAxis {
 public:
  /// Square-rooted when the last time is 20 times later than the median one or more than 60 s span many
  /// frames unevenly.
  TimeAxis(const std::vector<double>& seconds, double left, double width);
  double place(double seconds) const;
  bool square_rooted() const { return square_rooted_; }
  double first() const { return first_; }
  double last() const { return last_; }
  /// Times to be labelled, far enough apart for labels of `label_width`.
  std::vector<double> ticks(double label_width) const;
  /// Times for a smooth curve, about `count`.
  std::vector<double> curve_times(int count) const;

 private:
  double scaled(double seconds) const;
  double unscaled(double value) const;
  double left_, width_, first_ = 0, last_ = 1;
  bool square_rooted_ = false;
};

/// "15 s", "2 min", "1 h".
std::string time_text(double seconds);

}  // namespace colorlib
