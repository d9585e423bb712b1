#include <algorithm>
#include <colorlib/reaction/next_photo.hpp>

namespace colorlib {

std::optional<NextPhoto> next_useful_photo(const Kinetics& kinetics, double now_s) {
  constexpr double shortest_s = 2, longest_s = 120, long_enough_s = 1800;
  const double since = std::max(0.0, now_s);
  const bool running = is_reaction(kinetics) && kinetics.onset.value_s && kinetics.half_time.value_s;
  if (!running) {
    if (now_s > long_enough_s) return std::nullopt;  // half an hour of nothing is a negative
    return NextPhoto{now_s + std::clamp(0.4 * since, shortest_s, longest_s),
                     "nothing certain yet: at growing steps"};
  }
  const double onset = *kinetics.onset.value_s, half = *kinetics.half_time.value_s;
  const double soonest = now_s + std::min(1.0, 0.2 * half);
  for (const double share : {0.5, 1.0, 2.0, 4.0})
    if (onset + share * half > soonest)
      return NextPhoto{onset + share * half,
                       share == 1.0 ? "halfway of the change" : "on the way to the plateau"};
  const double plateau = onset + 5 * half;
  std::size_t seen = 0;
  for (const double t : kinetics.seconds) seen += t >= plateau - 0.5 * half;
  if (seen < 2) return NextPhoto{std::max(plateau, now_s + half), "the plateau, twice"};
  const double late = onset + 4 * 4.32 * half;  // 4.32 half times are 95 %
  if (late > soonest) return NextPhoto{late, "to see whether it fades"};
  return std::nullopt;
}

}  // namespace colorlib
