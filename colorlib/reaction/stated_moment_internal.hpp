#pragma once
/// Whether a change began before the moment at which somebody says that it was brought about.

#include <colorlib/reaction/model_choice_internal.hpp>

namespace colorlib {

/// A path with its best model, once its bad frames are known.
struct PathFit {
  CorrectedPath path;
  ModelChoice choice;
  double first_aicc = 0;  ///< of the choice before the controls forgot the bad frames: on one path for all
};

/// Whether only a start before zero explains the frames: with the onset free in `free` the best model is
/// better beyond doubt than with an onset from zero on, `stated`, and, its shape and its frames kept, an
/// onset from zero on (`from_zero`) fits worse by Fisher's F at a chance of 0.001.
bool began_before(const PathFit& stated, const PathFit& free, const TimesRange& from_zero);

/// Why the moment stated cannot be meant: the last frame in use before zero, when it differs from the
/// untreated colour of `free`, which was fitted with a free onset, by more than its expanded uncertainty.
std::optional<Error> changed_before_zero(const ReactionSeries& series, const Kinetics& free);

}  // namespace colorlib
