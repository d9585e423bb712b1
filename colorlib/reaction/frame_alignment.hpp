#pragma once
/// How a piece that lies on the sheet has moved between two frames.

#include <colorlib/reaction/rectified_window.hpp>
#include <functional>
#include <memory>
#include <optional>

namespace colorlib {

/// Where a point of the first window went: turned about the window's centre, then shifted.
struct Movement {
  double dx_mm = 0, dy_mm = 0, turn_deg = 0;
  /// Correlation of the edges after the movement, -1 to 1; and before it.
  double quality = 0, quality_unmoved = 0;
  /// Standard deviation of the edge picture (L* a mm) in the compared part of the first window: below
  /// `least_contrast` nothing can be followed.
  double contrast = 0;
  bool converged = false;
};

struct AlignmentOptions {
  double farthest_mm = 8;       ///< movements beyond are not looked for
  double least_contrast = 2.0;  ///< L* a mm: less is noise and paper grain
  int levels = 4;               ///< of the pyramid, each half as fine
  int most_iterations = 25;     ///< a level
};

/// Registers windows against a first one (same size and resolution) by maximising the correlation of their
/// edges
/// - the steepness of lightness, whichever way it falls, so that neither a change of light nor a stain that
/// turns from pale to dark counts - over shift and turn: Gauss-Newton on the normalised difference, coarse to
/// fine [Lucas1981]. `compared` says which places of the first window take part: leave out what changes
/// colour. Accuracy on outlined tissue: 0.1 mm. Holds what is needed of the first window; may be used from
/// several threads.
class MovementFinder {
 public:
  MovementFinder() = default;
  MovementFinder(const RectifiedWindow& first, const std::function<bool(const PointMm&)>& compared,
                 const AlignmentOptions& options = {});
  Movement movement_to(const RectifiedWindow& moved) const;
  /// The same for what plainly lies where it lay, which needs no search; nothing when it may have moved.
  std::optional<Movement> if_still(const RectifiedWindow& moved) const;
  /// As in Movement.
  double contrast() const;

 private:
  struct State;
  std::shared_ptr<State> state_;
};

/// The same once.
Movement movement_between(const RectifiedWindow& first, const RectifiedWindow& moved,
                          const std::function<bool(const PointMm&)>& compared,
                          const AlignmentOptions& options = {});

/// Where `p` of the first window lies after the movement; `centre` is that of the window.
PointMm moved_point(const Movement& movement, const PointMm& centre, const PointMm& p);

}  // namespace colorlib
