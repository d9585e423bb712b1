#include <algorithm>
#include <array>
#include <cmath>
#include <colorlib/base/distribution_quantiles.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/reaction/model_choice_internal.hpp>
#include <set>

namespace colorlib {
namespace {

constexpr std::array shapes = {PathShape::constant, PathShape::straight, PathShape::one_step,
                               PathShape::two_steps};

/// The stated covariances count as one residual of the size they promise: a few frames that happen to lie on
/// a curve do not make the scatter nil.
constexpr double stated_residuals = 1;

/// `parameters` of the mean; the scale is one more. `picks`: places among the frames that were chosen by
/// trying all.
double aicc_of(double sum_of_squares, double residuals, double parameters, double picks) {
  const double n = residuals + stated_residuals, k = parameters + 1;
  if (n - k - 1 <= 0) return INFINITY;
  return n * std::log((sum_of_squares + stated_residuals) / n) + 2 * k + 2 * k * (k + 1) / (n - k - 1) +
         2 * picks * std::log(residuals / 3);
}

/// What is alike in all frames, a tone curve that is not quite right, bends a path a little: seen on rendered
/// series of still cameras, where the scatter is so small that the bend would pass for a second step.
constexpr double bend_de00 = 0.2, bend_share = 0.015;

/// Light that wanders moves even an unchanging colour about by so much, and not at random from frame to
/// frame.
constexpr double still_de00 = 0.25;

Lab lab_of(const Eigen::Vector3d& v) { return {v[0], v[1], v[2]}; }

bool one_step_will_do(const PathRegression& regression, const std::vector<bool>& left_out,
                      const ShapeFit& one_step) {
  const Colours colours = regression.solve(one_step.shape, one_step.times.data()).colours;
  const double change = difference_ciede2000(lab_of(colours.col(0)), lab_of(colours.col(0) + colours.col(1)));
  return residual_de00(regression, left_out, one_step) <= bend_de00 + bend_share * change;
}

std::vector<ScoredFit> fit_all(const CorrectedPath& path, const std::vector<bool>& left_out,
                               const TimesRange& range, const Progress& progress) {
  const PathRegression regression(path, left_out);
  const double all = 3.0 * static_cast<double>(path.frames.size());
  const double dropped = 3 * static_cast<double>(path.frames.size() - regression.frames_in_use());
  std::vector<ScoredFit> fits;
  for (const PathShape shape : shapes) {
    ScoredFit scored;
    const double picks = dropped / 3 + (shape == PathShape::one_step    ? 1
                                        : shape == PathShape::two_steps ? 2
                                                                        : 0);
    scored.fit.shape = shape;
    // A frame left out is a frame with a colour of its own: it stays among the residuals, at 0.
    scored.aicc = aicc_of(1, all, parameters_of(shape) + dropped, picks);
    if (progress.cancelled()) scored.aicc = INFINITY;
    if (std::isfinite(scored.aicc)) {
      scored.fit = fit_shape(regression, shape, range);
      scored.aicc = aicc_of(scored.fit.sum_of_squares, all, parameters_of(shape) + dropped, picks);
    }
    fits.push_back(std::move(scored));
  }
  const ScoredFit &none = fits[0], &one = fits[2], &two = fits[3];
  if (std::isfinite(none.aicc) && residual_de00(regression, left_out, none.fit) <= still_de00)
    for (std::size_t i = 1; i < fits.size(); ++i) fits[i].aicc = INFINITY;
  if (two.aicc < one.aicc && std::isfinite(one.aicc) && one_step_will_do(regression, left_out, one.fit))
    fits[3].aicc = INFINITY;
  return fits;
}

std::size_t best_of(const std::vector<ScoredFit>& fits) {
  return static_cast<std::size_t>(
      std::min_element(fits.begin(), fits.end(),
                       [](const auto& a, const auto& b) { return a.aicc < b.aicc; }) -
      fits.begin());
}

/// The frames that stand out most from any of the curves.
std::set<std::size_t> suspects(const CorrectedPath& path, const std::vector<bool>& left_out,
                               const std::vector<ScoredFit>& fits) {
  const PathRegression regression(path, left_out);
  std::set<std::size_t> found;
  for (const ScoredFit& scored : fits) {
    if (!std::isfinite(scored.aicc)) continue;
    const auto solution = regression.solve(scored.fit.shape, scored.fit.times.data());
    std::vector<std::pair<double, std::size_t>> away;
    for (std::size_t i = 0; i < path.frames.size(); ++i)
      if (!left_out[i])
        away.push_back(
            {regression.squared_distance(scored.fit.shape, scored.fit.times.data(), solution, i), i});
    std::sort(away.rbegin(), away.rend());
    for (std::size_t i = 0; i < 2 && i < away.size(); ++i) found.insert(away[i].second);
  }
  return found;
}

}  // namespace

double residual_de00(const PathRegression& regression, const std::vector<bool>& left_out,
                     const ShapeFit& fit) {
  const PathSolution solution = regression.solve(fit.shape, fit.times.data());
  double squares = 0, frames = 0;
  for (std::size_t i = 0; i < left_out.size(); ++i) {
    if (left_out[i]) continue;
    const Eigen::Vector3d on_curve =
        regression.colour_on_curve(fit.shape, fit.times.data(), solution.colours, regression.seconds()[i]);
    const Eigen::Vector3d off_curve =
        on_curve + regression.residual(fit.shape, fit.times.data(), solution, i);
    squares += std::pow(difference_ciede2000(lab_of(on_curve), lab_of(off_curve)), 2);
    ++frames;
  }
  return std::sqrt(squares / frames);
}

std::vector<std::size_t> bad_frames_of(const std::vector<bool>& left_out) {
  std::vector<std::size_t> places;
  for (std::size_t i = 0; i < left_out.size(); ++i)
    if (left_out[i]) places.push_back(i);
  return places;
}

ModelChoice choose_model(const CorrectedPath& path, const TimesRange& range,
                         const std::vector<bool>& left_out, std::size_t control_strays,
                         const Progress& progress) {
  const std::size_t frames = path.frames.size();
  ModelChoice choice;
  choice.left_out = left_out;
  choice.bad_frames = bad_frames_of(choice.left_out);
  choice.tried = fit_all(path, choice.left_out, range, progress);
  choice.best = best_of(choice.tried);
  const std::size_t most_bad = control_strays + (frames < 6 ? 0 : 1 + frames / 12);
  while (choice.bad_frames.size() < most_bad) {
    double best_aicc = choice.tried[choice.best].aicc - beyond_doubt;
    std::optional<std::size_t> worst;
    std::vector<ScoredFit> without;
    for (const std::size_t frame : suspects(path, choice.left_out, choice.tried)) {
      auto left_out = choice.left_out;
      left_out[frame] = true;
      auto fits = fit_all(path, left_out, range, progress);
      const double aicc = fits[best_of(fits)].aicc;
      if (aicc >= best_aicc) continue;
      best_aicc = aicc;
      worst = frame;
      without = std::move(fits);
    }
    if (!worst) break;
    choice.left_out[*worst] = true;
    choice.bad_frames.push_back(*worst);
    choice.tried = std::move(without);
    choice.best = best_of(choice.tried);
  }
  std::sort(choice.bad_frames.begin(), choice.bad_frames.end());

  const ShapeFit& fit = choice.tried[choice.best].fit;
  const double in_use = 3 * static_cast<double>(frames - choice.bad_frames.size());
  choice.degrees_of_freedom = std::max(1.0, in_use + stated_residuals - parameters_of(fit.shape));
  choice.scale_squared = (fit.sum_of_squares + stated_residuals) / choice.degrees_of_freedom;
  return choice;
}

double interval_limit(const ModelChoice& choice) {
  const double t = student_quantile(0.975, choice.degrees_of_freedom);
  return choice.tried[choice.best].fit.sum_of_squares + t * t * choice.scale_squared;
}

}  // namespace colorlib
