#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/base/distribution_quantiles.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/reaction/control_strays_internal.hpp>
#include <colorlib/reaction/kinetic_curves.hpp>
#include <colorlib/reaction/kinetics.hpp>
#include <colorlib/reaction/model_choice_internal.hpp>
#include <colorlib/reaction/path_bend_internal.hpp>
#include <colorlib/reaction/stated_moment_internal.hpp>
#include <colorlib/reaction/time_intervals_internal.hpp>

namespace colorlib {
namespace {

using Eigen::Index;
using Eigen::Matrix3d;
using Eigen::MatrixXd;
using Eigen::Vector3d;

/// Less change than this is no reaction, whatever the repeatability: the first sign of the trade's scale
/// begins here.
constexpr double least_reaction_de00 = 2;
/// Two readings of one colour differ by less than 2.8 standard deviations in 95 % [ISO5725].
constexpr double repeatability_limit = 2.8;
/// A second step that loses this share of the change is a fading.
constexpr double least_faded_share = 0.15;
/// Wetting and light do not reach spot and controls in one common proportion: this share of what the controls
/// did stays as an uncertainty (k = 1) of a change. The project's own figure, from simulated courses.
constexpr double uneven_control_share = 0.15;
/// The colour a step leads to counts as seen when this much of the step lies within the series.
constexpr double seen_share = 0.9;

Lab lab_from_eigen(const Vector3d& v) { return {v[0], v[1], v[2]}; }

Result<std::monostate> check(const ReactionSeries& series) {
  const auto misused = [](const std::string& what) {
    return fail(ErrorCode::bad_call, "Fitting a reaction's time course: " + what + ".",
                "Give each frame a time and a colour, in the order in which they were taken.");
  };
  const std::size_t frames = series.seconds.size();
  if (series.spot.size() != frames || (!series.frame_names.empty() && series.frame_names.size() != frames))
    return misused(fmt::format("{} times but {} colours", frames, series.spot.size()));
  if (!series.left_out.empty() && series.left_out.size() != frames)
    return misused(fmt::format("{} marks of frames left out, but {} times", series.left_out.size(), frames));
  for (const ControlPath& control : series.controls)
    if (control.frames.size() != frames)
      return misused(
          fmt::format("control '{}' has {} frames, the spot {}", control.id, control.frames.size(), frames));
  for (const ControlPath& control : series.controls)
    if (!control.as_read.empty() && control.as_read.size() != frames)
      return misused(fmt::format("control '{}' has {} frames as read, the spot {}", control.id,
                                 control.as_read.size(), frames));
  for (std::size_t i = 0; i < frames; ++i) {
    if (!std::isfinite(series.seconds[i]) || (i > 0 && series.seconds[i] <= series.seconds[i - 1]))
      return misused(fmt::format("the times do not ascend at {}", frame_name(series, i)));
    const auto sound = [](const ColorState& color) {
      for (const double v : vector_from(color.lab))
        if (!std::isfinite(v)) return false;
      for (const double v : color.covariance.m)
        if (!std::isfinite(v)) return false;
      return color.covariance(0, 0) >= 0 && color.covariance(1, 1) >= 0 && color.covariance(2, 2) >= 0;
    };
    bool all = sound(series.spot[i]);
    for (const ControlPath& control : series.controls)
      all = all && (!control.frames[i] || sound(*control.frames[i])) &&
            (control.as_read.empty() || !control.as_read[i] || sound(*control.as_read[i]));
    if (!all)
      return misused(fmt::format("{} has a colour or covariance that is no number", frame_name(series, i)));
  }
  if (frames < 2)
    return fail(ErrorCode::untrustworthy,
                fmt::format("Following a reaction over time: {} can be used, at least two are needed.",
                            frames == 0 ? "no frame" : "one frame"),
                "Take one photo before the drop and several after it.");
  return std::monostate{};
}

void add_left_out(const ReactionSeries& series, const ControlStrays& found,
                  const std::vector<std::size_t>& bad_frames, std::vector<std::string>& remarks) {
  for (const std::size_t frame : bad_frames) {
    const auto stray = std::find_if(found.strays.begin(), found.strays.end(),
                                    [&](const ControlStray& one) { return one.frame == frame; });
    remarks.push_back(
        stray == found.strays.end()
            ? fmt::format("{} stands out from all others and was left out.", frame_name(series, frame))
            : fmt::format("{} stands out: its control {} lies \u0394E00 {:.1f} from where the other photos "
                          "have it, as another specimen or place would; it was left out.",
                          frame_name(series, frame), stray->control, stray->away_de00));
  }
  if (found.too_many)
    remarks.push_back(
        fmt::format("In more than {} of {} photos a control lies far from where the others have it: too many "
                    "for strays, so none was left out for that.",
                    most_control_strays(series.seconds.size()), series.seconds.size()));
}

/// The fitted curve with what is known of its colours.
class Curve {
 public:
  Curve(const PathRegression& regression, const ModelChoice& choice, const Matrix3& shared,
        const Matrix3d& bending)
      : regression_(regression),
        fit_(choice.tried[choice.best].fit),
        colours_(regression.solve(fit_.shape, fit_.times.data()).colours),
        shared_(shared),
        bending_(bending) {
    // Wider than the normal's by Student's factor, since the scale is found from the residuals.
    const double t = student_quantile(0.975, choice.degrees_of_freedom) / normal_quantile(0.975);
    covariance_ = t * t * choice.scale_squared * regression.covariance(fit_.shape, fit_.times);
  }

  Vector3d at(double seconds) const {
    return regression_.colour_on_curve(fit_.shape, fit_.times.data(), colours_, seconds);
  }
  ColorState state(double seconds) const {
    const MatrixXd s = slopes(seconds);
    const Matrix3d own = s * covariance_ * s.transpose();
    return {lab_from_eigen(at(seconds)), matrix3_from(own) + shared_};
  }
  double change_de00(double seconds) const {
    return difference_ciede2000(lab_from_eigen(at(seconds)), lab_from_eigen(colours_.col(0)));
  }
  /// k = 2, of the change; what all frames share cancels as far as it is alike at both colours.
  double change_expanded(double seconds) const {
    const ChangeSlopes by = change_slopes(at(seconds), colours_.col(0));
    Eigen::RowVectorXd slope = by.there.transpose() * slopes(seconds);
    slope.head<3>() += by.before.transpose();
    return 2 * std::sqrt(std::max(0.0, (slope * covariance_ * slope.transpose())(0, 0) + bend(by)));
  }
  /// The same of one frame against the untreated colour; `scatter`: how much its stated variances are to be
  /// multiplied by.
  double frame_change_expanded(const ColorState& frame, double scatter) const {
    const Vector3 lab = vector_from(frame.lab);
    const ChangeSlopes by = change_slopes({lab[0], lab[1], lab[2]}, colours_.col(0));
    const double own = scatter * by.there.dot(converted<Matrix3d>(frame.covariance) * by.there);
    const double untreated = by.before.dot(covariance_.topLeftCorner<3, 3>() * by.before);
    return 2 * std::sqrt(std::max(0.0, own + untreated + bend(by)));
  }

  const ShapeFit& fit() const { return fit_; }
  const Colours& colours() const { return colours_; }

 private:
  /// d dE00 / d each of its two colours.
  struct ChangeSlopes {
    Vector3d there, before;
    double correlation = 0;  ///< of what bends the path, between the two
  };
  static ChangeSlopes change_slopes(const Vector3d& there, const Vector3d& before) {
    ChangeSlopes by;
    by.correlation = bend_correlation(there, before);
    for (int axis = 0; axis < 3; ++axis) {
      const Vector3d step = 0.01 * Vector3d::Unit(axis);
      const auto de00 = [](const Vector3d& a, const Vector3d& b) {
        return difference_ciede2000(lab_from_eigen(a), lab_from_eigen(b));
      };
      by.there[axis] = (de00(there + step, before) - de00(there - step, before)) / 0.02;
      by.before[axis] = (de00(there, before + step) - de00(there, before - step)) / 0.02;
    }
    return by;
  }
  /// Variance of a change by what the calibration gets wrong otherwise at the one colour than at the other.
  double bend(const ChangeSlopes& by) const {
    return by.there.dot(bending_ * by.there) + by.before.dot(bending_ * by.before) +
           2 * by.correlation * by.there.dot(bending_ * by.before);
  }
  /// d colour / d (colours, times).
  MatrixXd slopes(double seconds) const {
    const Index of_colours = 3 * colours_.cols();
    MatrixXd s = MatrixXd::Zero(3, of_colours + static_cast<Index>(fit_.times.size()));
    const Eigen::Array3d share = shares_at(fit_.shape, fit_.times.data(), seconds, regression_.span_s());
    for (Index c = 0; c < colours_.cols(); ++c) s.block<3, 3>(0, 3 * c) = share[c] * Matrix3d::Identity();
    s.rightCols(static_cast<Index>(fit_.times.size())) =
        regression_.slopes_by_times(fit_.shape, fit_.times, colours_, seconds);
    return s;
  }

  const PathRegression& regression_;
  ShapeFit fit_;
  Colours colours_;
  Matrix3 shared_;
  Matrix3d bending_;
  MatrixXd covariance_;
};

TimeEstimate estimate_from(const OpenInterval& interval, double best) {
  TimeEstimate estimate;
  if (interval.open_low && interval.open_high) return estimate;
  if (interval.open_low) {
    estimate.less_than_s = interval.high;
  } else if (interval.open_high) {
    estimate.greater_than_s = interval.low;
  } else {
    estimate.value_s = best;
    estimate.low_s = interval.low;
    estimate.high_s = interval.high;
  }
  return estimate;
}

/// Onset, half times and times to 90 and 95 % of a path with one or two steps.
void take_times(const PathRegression& regression, const ModelChoice& choice, const TimesRange& range,
                const ReactionSeries& series, const Progress& progress, Kinetics& result) {
  const ShapeFit& fit = choice.tried[choice.best].fit;
  TimeIntervals intervals = time_intervals(regression, fit, range, interval_limit(choice), progress);
  if (const Matrix3d bend = converted<Matrix3d>(series.bending_covariance); bend.norm() > 0)
    intervals = widened(intervals, fit, range, times_covariance_by_bend(regression, fit, bend));
  const double k1 = std::exp(fit.times[1]);
  // The application bounds the onset from below, so an interval down to it says all there is to say. Without
  // a frame before the onset it does not: then the untreated colour is a guess of the curve's.
  const bool seen_before = series.seconds.front() <= intervals.onset.low || series.seconds.front() <= 0;
  intervals.onset.open_low =
      intervals.onset.open_low && !(series.zero_is_application && !result.began_before_zero && seen_before);
  result.onset = estimate_from(intervals.onset, fit.times[0]);
  result.half_time = estimate_from(intervals.half_time, half_time_s(k1));
  result.to_90 = estimate_from(intervals.to_90, fit.times[0] + time_to_share_s(k1, 0.90));
  result.to_95 = estimate_from(intervals.to_95, fit.times[0] + time_to_share_s(k1, 0.95));
  // A change that is over between two frames leaves its beginning open in the same way.
  if (result.half_time.less_than_s && result.onset.value_s) {
    result.onset.value_s.reset();
    result.onset.less_than_s = result.onset.high_s;
  }
  if (fit.shape == PathShape::two_steps)
    result.second_half_time = estimate_from(intervals.second_half_time, half_time_s(std::exp(fit.times[2])));
}

void add_phase(Kinetics& result, PhaseKind kind, const Curve& curve, double seconds) {
  result.phases.push_back({kind, seconds, curve.state(seconds), curve.change_de00(seconds)});
}

/// The pure middle colour if the slow step came first.
std::optional<Lab> swapped_middle(const Curve& curve) {
  const double k1 = std::exp(curve.fit().times[1]), k2 = std::exp(curve.fit().times[2]);
  if (k1 - k2 < 1e-3 * k1) return std::nullopt;
  // As changes against the untreated colour, the path is E + f1 exp(-k1 u) + f2 exp(-k2 u) with
  // f2 = k1 / (k1 - k2) (M - E) and f1 = -E - f2; exchanged rates have to give the same f1 and f2.
  const Vector3d middle = curve.colours().col(1), last = curve.colours().col(2);
  const double r = k1 / (k1 - k2), r_swapped = -k2 / (k1 - k2);
  const Vector3d swapped = last + (-last - r * (middle - last)) / r_swapped;
  const Vector3d colour = curve.colours().col(0) + swapped;
  if (colour[0] < 0 || colour[0] > 100 || std::hypot(colour[1], colour[2]) > 120) return std::nullopt;
  return lab_from_eigen(colour);
}

/// What a fitted path says in colours.
void take_colours(const Curve& curve, const ReactionSeries& series, Kinetics& result) {
  const double first_s = series.seconds.front(), last_s = series.seconds.back();
  const ShapeFit& fit = curve.fit();
  add_phase(result, PhaseKind::untreated, curve,
            std::min(first_s, fit.times.empty() ? first_s : fit.times[0]));
  double stated_s = last_s;
  if (fit.shape == PathShape::one_step) {
    const double done = first_order_progress(last_s - fit.times[0], std::exp(fit.times[1]));
    const bool seen = done >= seen_share && !result.half_time.greater_than_s;
    const double reached_s = fit.times[0] + time_to_share_s(std::exp(fit.times[1]), 0.95);
    if (seen) stated_s = fit.times[0] + 60 / std::exp(fit.times[1]);  // the end itself, not 95 % of it
    add_phase(result, seen ? PhaseKind::plateau : PhaseKind::last_seen, curve, stated_s);
    result.phases.back().seconds = seen ? reached_s : last_s;
    if (seen) result.plateau = curve.state(stated_s);
  } else if (fit.shape == PathShape::two_steps) {
    const double k1 = std::exp(fit.times[1]), k2 = std::exp(fit.times[2]);
    // The fullest change as it was to be seen: where the curve is farthest from the untreated colour, for a
    // fading, and where the middle substance is at its most, else.
    stated_s = std::min(last_s, fit.times[0] + consecutive_peak(k1, k2).since_onset_s);
    const double peak = curve.change_de00(stated_s), end = curve.change_de00(last_s);
    result.faded_share = peak > 0 ? std::clamp(1 - end / peak, 0.0, 1.0) : 0;
    result.model = result.faded_share >= least_faded_share ? KineticModel::fading : KineticModel::consecutive;
    if (result.model == KineticModel::consecutive) result.faded_share = 0;
    add_phase(result, PhaseKind::peak, curve, stated_s);
    result.plateau = curve.state(stated_s);
    const bool ended = first_order_progress(last_s - fit.times[0], k2) >= seen_share;
    add_phase(result, ended ? PhaseKind::plateau : PhaseKind::last_seen, curve, last_s);
    result.swapped_middle = swapped_middle(curve);
  } else {
    add_phase(result, PhaseKind::last_seen, curve, last_s);
  }
  result.change_de00 = curve.change_de00(stated_s);
  result.change_de00_expanded = curve.change_expanded(stated_s);
  // Two steps: the larger of middle and end is what the reaction amounts to.
  if (fit.shape == PathShape::two_steps && curve.change_de00(last_s) > result.change_de00) {
    result.change_de00 = curve.change_de00(last_s);
    result.change_de00_expanded = curve.change_expanded(last_s);
  }
}

KineticModel model_of(PathShape shape) {
  switch (shape) {
    case PathShape::constant:
      return KineticModel::none;
    case PathShape::straight:
      return KineticModel::drift;
    case PathShape::one_step:
      return KineticModel::first_order;
    case PathShape::two_steps:
      return KineticModel::consecutive;
  }
  return KineticModel::none;
}

/// Of each frame, with the share of the controls' change then that stays open. `of_frame`: by the rest.
template <class OfFrame>
void take_path_changes(const CorrectedPath& path, OfFrame of_frame, Kinetics& result) {
  for (std::size_t i = 0; i < path.frames.size(); ++i) {
    const Vector3& change = path.control_change[i];
    const double controls = std::min(path.control_change_de00, std::hypot(change[0], change[1], change[2]));
    result.path_change_expanded.push_back(
        std::hypot(of_frame(path.frames[i]), 2 * uneven_control_share * controls));
  }
}

/// Three frames or fewer: the first and the last colour, and no more.
void describe_only(const CorrectedPath& path, const Matrix3& shared, Kinetics& result) {
  result.state = KineticsState::described;
  const auto state = [&](std::size_t i) {
    return ColorState{path.frames[i].lab, path.frames[i].covariance + shared};
  };
  const std::size_t last = path.frames.size() - 1;
  result.phases.push_back({PhaseKind::untreated, path.seconds[0], state(0), 0});
  for (std::size_t i = 1; i <= last; ++i)
    result.phases.push_back({PhaseKind::last_seen, path.seconds[i], state(i),
                             difference_ciede2000(path.frames[0].lab, path.frames[i].lab)});
  result.change_de00 = result.phases.back().change_de00;
  // k = 2 along the mean direction.
  const auto expanded = [&](const ColorState& frame) {
    const Matrix3 w = ciede2000_metric_root(
        lab_from({(path.frames[0].lab.l + frame.lab.l) / 2, (path.frames[0].lab.a + frame.lab.a) / 2,
                  (path.frames[0].lab.b + frame.lab.b) / 2}));
    const Matrix3 spread = w * (path.frames[0].covariance + frame.covariance) * transpose(w);
    return 2 * std::sqrt((spread(0, 0) + spread(1, 1) + spread(2, 2)) / 3);
  };
  result.change_de00_expanded = expanded(path.frames[last]);
  take_path_changes(path, expanded, result);
  result.remarks.push_back(
      fmt::format("{} frames are described, not fitted: a curve through so few would fit "
                  "whatever happened.",
                  path.frames.size() == 2 ? "Two" : "Three"));
}

void take_threshold(const CorrectedPath& path, Kinetics& result) {
  result.change_de00_expanded =
      std::hypot(result.change_de00_expanded, 2 * uneven_control_share * path.control_change_de00);
  result.has_water = path.has_water;
  result.has_untreated = path.has_untreated;
  result.has_bruise_control = path.has_bruise_control;
  result.subtracted_change_de00 = path.subtracted_change_de00;
  result.control_change_de00 = path.control_change_de00;
  result.most_changed_control = path.most_changed_control;
  result.threshold_de00 =
      std::max({least_reaction_de00, path.control_change_de00,
                repeatability_limit * std::max(path.control_scatter_de00, result.repeatability_de00)});
}

void take_path(const CorrectedPath& path, Kinetics& result) {
  result.seconds = path.seconds;
  result.path = path.frames;
  result.remarks = path.remarks;
}

PathFit fit_path(const ReactionSeries& series, const CorrectedPath& path, const std::vector<bool>& left_out,
                 const ControlStrays& found, const TimesRange& range, const Progress& progress) {
  PathFit fit{path, choose_model(path, range, left_out, found.strays.size(), progress)};
  fit.first_aicc = fit.choice.tried[fit.choice.best].aicc;
  // A frame that is not to be believed says nothing of the controls either.
  if (fit.choice.left_out != left_out) {
    fit.path = corrected_path(series, fit.choice.left_out);
    fit.choice = choose_model(fit.path, range, fit.choice.left_out, found.strays.size(), progress);
  }
  return fit;
}

/// All that a fitted path tells. `before_zero`: its onset was looked for before zero though zero was stated
/// to be the application.
Result<Kinetics> kinetics_from(const PathFit& fitted, const TimesRange& range, bool before_zero,
                               const ReactionSeries& series, const ControlStrays& found,
                               const Progress& progress) {
  const CorrectedPath& path = fitted.path;
  const ModelChoice& choice = fitted.choice;
  Kinetics result;
  result.state = KineticsState::fitted;
  result.began_before_zero = before_zero;
  take_path(path, result);
  const auto stopped = [] {
    return fail(ErrorCode::cancelled, "Fitting the time course was stopped before it was done.",
                "Start it again when you like.");
  };
  if (progress.cancelled()) return stopped();
  const PathRegression regression(path, choice.left_out);
  const ShapeFit& fit = choice.tried[choice.best].fit;
  result.model = model_of(fit.shape);
  result.bad_frames = choice.bad_frames;
  add_left_out(series, found, choice.bad_frames, result.remarks);
  for (const ScoredFit& scored : choice.tried)
    if (std::isfinite(scored.aicc))
      result.scores.push_back({model_of(scored.fit.shape), parameters_of(scored.fit.shape), scored.aicc,
                               residual_de00(regression, choice.left_out, scored.fit)});
  result.repeatability_de00 = residual_de00(regression, choice.left_out, fit);
  if (!fit.times.empty()) take_times(regression, choice, range, series, progress, result);
  if (progress.cancelled()) return stopped();
  const Curve curve(regression, choice, series.shared_covariance,
                    converted<Matrix3d>(series.bending_covariance));
  take_colours(curve, series, result);
  for (std::size_t i = 0; i < fit.times.size(); ++i)
    result.curve_times.push_back(i == 0 ? fit.times[0] : std::exp(fit.times[i]));
  for (Index c = 0; c < curve.colours().cols(); ++c)
    result.curve_colors.push_back({curve.colours()(0, c), curve.colours()(1, c), curve.colours()(2, c)});
  take_path_changes(
      path, [&](const ColorState& frame) { return curve.frame_change_expanded(frame, choice.scale_squared); },
      result);
  take_threshold(path, result);
  return result;
}

}  // namespace

std::string frame_name(const ReactionSeries& series, std::size_t frame) {
  if (!series.frame_names.empty()) return series.frame_names[frame];
  return fmt::format("the frame at {:.4g} s", series.seconds[frame]);
}

std::string_view kinetic_model_name(KineticModel model) {
  switch (model) {
    case KineticModel::none:
      return "none";
    case KineticModel::drift:
      return "drift";
    case KineticModel::first_order:
      return "first-order";
    case KineticModel::consecutive:
      return "consecutive";
    case KineticModel::fading:
      return "fading";
  }
  return "";
}

std::string_view phase_kind_name(PhaseKind kind) {
  switch (kind) {
    case PhaseKind::untreated:
      return "untreated";
    case PhaseKind::peak:
      return "peak";
    case PhaseKind::plateau:
      return "plateau";
    case PhaseKind::last_seen:
      return "last-seen";
  }
  return "";
}

bool is_reaction(const Kinetics& kinetics) {
  // 95 %, one-sided: 1.645 of the 2 standard deviations of the expanded uncertainty.
  return kinetics.model != KineticModel::none && kinetics.model != KineticModel::drift &&
         kinetics.change_de00 - 0.82 * kinetics.change_de00_expanded >= kinetics.threshold_de00;
}

Result<Kinetics> fit_kinetics(const ReactionSeries& series, const Progress& progress) {
  if (const auto sound = check(series); !sound) return fail(sound.error());
  const ControlStrays found = control_strays(series);
  std::vector<bool> left_out = series.left_out;
  left_out.resize(series.seconds.size());
  for (const ControlStray& stray : found.strays) left_out[stray.frame] = true;
  const CorrectedPath path = corrected_path(series, left_out);
  if (path.frames.size() <= 3) {
    Kinetics result;
    take_path(path, result);
    describe_only(path, series.shared_covariance, result);
    take_threshold(path, result);
    return result;
  }
  const TimesRange range = times_range(path.seconds, series.zero_is_application);
  const PathFit fit = fit_path(series, path, left_out, found, range, progress);
  if (series.zero_is_application && path.seconds.front() < 0) {
    const TimesRange any_range = times_range(path.seconds, false);
    const PathFit free = fit_path(series, path, left_out, found, any_range, progress);
    if (!progress.cancelled() && began_before(fit, free, range)) {
      auto earlier = kinetics_from(free, any_range, true, series, found, progress);
      if (!earlier) return earlier;
      if (is_reaction(*earlier)) {
        if (const auto why = changed_before_zero(series, *earlier)) return fail(*why);
        return earlier;
      }
    }
  }
  return kinetics_from(fit, range, false, series, found, progress);
}

std::vector<Lab> fitted_path(const Kinetics& kinetics, const std::vector<double>& seconds) {
  std::vector<Lab> path;
  if (kinetics.curve_colors.empty()) return path;
  const double span = std::max(kinetics.seconds.back() - kinetics.seconds.front(), 1e-9);
  std::vector<double> times = kinetics.curve_times;
  for (std::size_t i = 1; i < times.size(); ++i) times[i] = std::log(times[i]);
  const PathShape shape = kinetics.curve_colors.size() == 1   ? PathShape::constant
                          : times.empty()                     ? PathShape::straight
                          : kinetics.curve_colors.size() == 2 ? PathShape::one_step
                                                              : PathShape::two_steps;
  for (const double t : seconds) {
    const Eigen::Array3d share = shares_at(shape, times.data(), t, span);
    Vector3 lab{};
    for (std::size_t c = 0; c < kinetics.curve_colors.size(); ++c)
      for (std::size_t axis = 0; axis < 3; ++axis)
        lab[axis] += share[static_cast<Index>(c)] * kinetics.curve_colors[c][axis];
    path.push_back(lab_from(lab));
  }
  return path;
}

}  // namespace colorlib
