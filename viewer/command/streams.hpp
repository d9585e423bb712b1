#pragma once
/// What a command reads from and writes to; passed in, so that tests run commands in-process.

#include <istream>
#include <ostream>

namespace tintfall {

struct Streams {
  std::istream& in;
  std::ostream& out;    ///< results only
  std::ostream& err;    ///< progress, warnings, errors
  bool colour = false;  ///< `out` is a terminal that shows 24-bit colours, and the user did not set NO_COLOR
  bool interactive = false;  ///< `err` is a terminal: progress may be shown on one line that is written over
};

}  // namespace tintfall
