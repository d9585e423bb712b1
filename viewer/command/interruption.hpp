#pragma once
/// Ctrl-C and polite kills as something long work can ask about.

namespace tintfall {

/// While one lives, SIGINT and SIGTERM are noted instead of ending the program; a second one ends it at once.
/// One at a time.
class Interruption {
 public:
  Interruption();
  ~Interruption();
  Interruption(const Interruption&) = delete;
  Interruption& operator=(const Interruption&) = delete;

  static bool asked();
};

}  // namespace tintfall
