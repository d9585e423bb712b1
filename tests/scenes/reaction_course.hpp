#pragma once
/// The true colour of a spot over time: first-order kinetics between two or three colours, as spectra.

#include <string>
#include <vector>

#include "tests/scenes/pigments.hpp"

namespace colorlib::scenes {

/// The colours (Lab, D50) a spot passes through and how fast. With `second_half_s` 0 there are two colours;
/// with both 0 nothing happens.
struct ReactionCourse {
  Lab a, b, c;
  double onset_s = 0, half_s = 0, second_half_s = 0;

  /// Shares of the three colours at a time from the application; they add to 1.
  Vector3 shares_at(double seconds) const;
  /// The colour meant: the shares' mean in Lab.
  Lab lab_at(double seconds) const;
};

/// Spectra of one course: its colours' spectra are matched once and mixed for each moment, so that nothing
/// jumps from frame to frame.
class ReactionPigments {
 public:
  /// Throws std::runtime_error when a colour cannot be matched.
  ReactionPigments(const ReactionCourse& course, Pool pool);
  /// The pigment whose masstone comes nearest to the course's Lab among mixtures of its spectra; between two
  /// colours the path is slightly bent.
  Pigment at(double seconds) const;

 private:
  ReactionCourse course_;
  std::vector<Spectrum> masstones_;
};

}  // namespace colorlib::scenes
