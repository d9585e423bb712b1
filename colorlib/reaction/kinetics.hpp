#pragma once
/// A reaction's time course: when it began, how fast it went, to what colour, and what the series cannot
/// tell.

#include <colorlib/base/progress.hpp>
#include <colorlib/base/result.hpp>
#include <colorlib/naming/color_change.hpp>
#include <colorlib/specimen/regions.hpp>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace colorlib {

/// One control region along the series. A frame in which it has no reading is empty.
struct ControlPath {
  std::string id;
  RegionKind kind = RegionKind::control;  ///< control (untreated), water, or bruise (untreated bruise)
  std::vector<std::optional<ColorState>> frames;  ///< as many as the series has
  /// The colours as read, where `frames` are what happened as it acts on the spot. Strays are told by them.
  /// Empty: `frames` are as read.
  std::vector<std::optional<ColorState>> as_read = {};
};

/// What is seen of one spot or bruise. Frames in which the spot has no reading are left out altogether.
struct ReactionSeries {
  /// Strictly ascending. When `zero_is_application`, 0 is stated to be the drop, cut or touch: no onset lies
  /// before it, unless the frames can only be explained so.
  std::vector<double> seconds;
  bool zero_is_application = true;
  /// Lab (D50, 2 degree) and the covariance of a frame against the others: what is wrong in all frames alike
  /// (the sheet's reference values, the camera's colour response) does not belong there. It weighs frames and
  /// coordinates against one another; its size is found anew from the scatter, so a factor is forgiven.
  std::vector<ColorState> spot;
  std::vector<ControlPath> controls;
  std::vector<std::string> frame_names;  ///< for messages; empty, or one a frame
  /// Frames that are known to be none of this course: not fitted, and their controls count as unread. Empty,
  /// or one a frame.
  std::vector<bool> left_out;
  /// Uncertainty that all frames share; added to the colours that are stated.
  Matrix3 shared_covariance{};
  /// Of what the calibration gets wrong at one colour, alike in all frames, and otherwise at a colour far
  /// from it: it bends the path, which no scatter shows, and widens the intervals of times.
  Matrix3 bending_covariance{};
};

/// As messages name a frame: its own name, or its time.
std::string frame_name(const ReactionSeries& series, std::size_t frame);

enum class KineticModel { none, drift, first_order, consecutive, fading };
/// "none", "drift", "first-order", "consecutive", "fading".
std::string_view kinetic_model_name(KineticModel model);

/// A time in seconds with its 95 % interval, or the bound that is all the series can tell.
struct TimeEstimate {
  std::optional<double> value_s;                      ///< absent when censored or not asked for
  std::optional<double> low_s, high_s;                ///< 95 %; beside a bound: as far as it is known
  std::optional<double> less_than_s, greater_than_s;  ///< instead of a value; 97.5 % one-sided
  /// Half the interval's width: an expanded uncertainty (k = 2) for those who want one number.
  std::optional<double> expanded_s() const {
    if (!value_s || !low_s || !high_s) return std::nullopt;
    return (*high_s - *low_s) / 2;
  }
};

/// A colour that the reaction passes through or ends in.
enum class PhaseKind { untreated, peak, plateau, last_seen };
std::string_view phase_kind_name(PhaseKind kind);
struct ReactionPhase {
  PhaseKind kind = PhaseKind::untreated;
  double seconds = 0;      ///< when it is seen: at its fullest, reached to 95 %, or in the last frame
  ColorState color;        ///< of the spot minus what the controls did; covariance with the shared part
  double change_de00 = 0;  ///< against the untreated colour
};

/// How one model did. Lower is better; counts as much as it can be: see docs/explanation/reactions.md.
struct ModelScore {
  KineticModel model = KineticModel::none;
  int parameters = 0;
  double aicc = 0;
  double residual_de00 = 0;  ///< rms of the frames about the curve
};

enum class KineticsState {
  described,  ///< three frames or fewer: colours only, nothing fitted
  fitted,
};

struct Kinetics {
  KineticsState state = KineticsState::described;
  KineticModel model = KineticModel::none;
  std::vector<ModelScore> scores;  ///< every model that could be tried, in the order of KineticModel

  /// The frames contradict the application at zero: the onset was looked for before it, too.
  bool began_before_zero = false;

  TimeEstimate onset;             ///< series time
  TimeEstimate half_time;         ///< from the onset; the first step's
  TimeEstimate to_90, to_95;      ///< series time until 90 and 95 % of the (first) change are done
  TimeEstimate second_half_time;  ///< of the second step or the fading

  /// In order of time. First the untreated colour, last what was reached or seen last.
  std::vector<ReactionPhase> phases;
  /// The colour that the (first) step leads to, as seen at its fullest; absent without a reaction, and when
  /// the series ended before it.
  std::optional<ColorState> plateau;
  /// Of that colour, or what was seen last, against the untreated one, and its k = 2. For `none` and
  /// `described`: of the last frames against the first.
  double change_de00 = 0, change_de00_expanded = 0;
  /// How much of the first change is lost again, in [0, 1]; for `fading` only.
  double faded_share = 0;
  /// The middle colour, pure, if the slow step came first: two such solutions fit equally well. Absent when
  /// that colour cannot be one of a surface. For `consecutive` and `fading`.
  std::optional<Lab> swapped_middle;

  double repeatability_de00 = 0;      ///< rms scatter of a frame, all of it: from the fit
  double subtracted_change_de00 = 0;  ///< of the controls that were taken out
  double control_change_de00 = 0;     ///< of the controls, largest: what wetting or light did by itself
  RegionKind most_changed_control = RegionKind::control;  ///< the kind that this is of
  double threshold_de00 = 0;                              ///< changes below are no reaction
  bool has_water = false, has_untreated = false, has_bruise_control = false;

  std::vector<std::size_t> bad_frames;  ///< left out of the fit, with their names in `remarks`
  std::vector<std::string> remarks;     ///< sentences: what was left out, assumed, or could not be told

  /// The curve: onset in s, then the rates in 1/s, and the untreated colour followed by the changes it mixes
  /// in. `fitted_path` draws it.
  std::vector<double> curve_times;
  std::vector<Vector3> curve_colors;

  /// The path that was fitted: spot minus controls, every frame, with covariance.
  std::vector<double> seconds;
  std::vector<ColorState> path;
  /// k = 2, of each frame's dE00 against the untreated colour of `phases`, one a frame of `path`: its
  /// scatter, what the calibration gets wrong differently at the two colours, and the controls' uneven share.
  /// Not kept in records.
  std::vector<double> path_change_expanded;
};

/// Whether it is a reaction: a model other than none and drift, and a change that reaches the threshold by
/// more than its uncertainty.
bool is_reaction(const Kinetics& kinetics);

/// Fits all models and keeps the best. Errors: bad_call (times not ascending or not finite, sizes that
/// differ, colours that are not finite; a frame before zero that shows the reaction already though
/// `zero_is_application`), untrustworthy (fewer than 2 frames), cancelled.
Result<Kinetics> fit_kinetics(const ReactionSeries& series, const Progress& progress = {});

/// The fitted curve at any times, for drawing: spot minus controls. Empty for `described`.
std::vector<Lab> fitted_path(const Kinetics& kinetics, const std::vector<double>& seconds);

}  // namespace colorlib
