#pragma once
/// Progress on one line of the terminal that is written over; silent where there is no terminal.

#include <colorlib/base/progress.hpp>
#include <string>
#include <viewer/command/streams.hpp>

namespace tintfall {

class ProgressLine : public colorlib::Progress {
 public:
  /// `subject` stands before the stage, e.g. "2/5 photo.jpg".
  ProgressLine(Streams& streams, std::string subject) : streams_(streams), subject_(std::move(subject)) {}
  ~ProgressLine() override { clear(); }
  ProgressLine(const ProgressLine&) = delete;
  ProgressLine& operator=(const ProgressLine&) = delete;

  void report(double fraction, std::string_view stage) override;
  /// Takes the line away, so that other words can be written.
  void clear();

 private:
  Streams& streams_;
  std::string subject_;
  bool shown_ = false;
};

}  // namespace tintfall
