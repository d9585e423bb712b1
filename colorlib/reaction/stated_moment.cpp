#include <fmt/format.h>

#include <algorithm>
#include <colorlib/base/distribution_quantiles.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/reaction/reaction_text.hpp>
#include <colorlib/reaction/stated_moment_internal.hpp>

namespace colorlib {
namespace {

/// That an onset at zero is taken for an earlier one.
constexpr double false_alarm = 0.001;

/// "12 s", or "more than 12 s" where no frame shows the untreated colour.
std::string how_long_before(const Kinetics& free) {
  const double onset_s = free.onset.less_than_s.value_or(free.curve_times.front());
  return (free.onset.less_than_s ? "more than " : "") + duration_text(-onset_s);
}

}  // namespace

bool began_before(const PathFit& stated, const PathFit& free, const TimesRange& from_zero) {
  const ShapeFit& fit = free.choice.tried[free.choice.best].fit;
  if (times_of(fit.shape) == 0 || fit.times[0] >= from_zero.earliest_s) return false;
  if (free.first_aicc >= stated.first_aicc - beyond_doubt) return false;
  const PathRegression regression(free.path, free.choice.left_out);
  const double worse = fit_shape(regression, fit.shape, from_zero).sum_of_squares - fit.sum_of_squares;
  return worse >
         fisher_quantile(1 - false_alarm, 1, free.choice.degrees_of_freedom) * free.choice.scale_squared;
}

std::optional<Error> changed_before_zero(const ReactionSeries& series, const Kinetics& free) {
  std::optional<std::size_t> last;
  for (std::size_t i = 0; i < free.path.size() && free.seconds[i] < 0; ++i)
    if (std::find(free.bad_frames.begin(), free.bad_frames.end(), i) == free.bad_frames.end()) last = i;
  if (!last) return std::nullopt;
  const double change_de00 = difference_ciede2000(free.phases.front().color.lab, free.path[*last].lab);
  if (change_de00 <= free.path_change_expanded[*last]) return std::nullopt;
  return Error{
      ErrorCode::bad_call,
      fmt::format("The spot had already changed by \u0394E00 {:.1f} in {}, {} before the stated moment of "
                  "application: by its course the change began {} before that moment.",
                  change_de00, frame_name(series, *last), duration_text(-free.seconds[*last]),
                  how_long_before(free)),
      "Give the moment at which the drop fell or the wound was made, or --applied found."};
}

}  // namespace colorlib
