#include <algorithm>
#include <colorlib/video/thinning_pace.hpp>

namespace colorlib {

int thinning_pace(const ThinningRule& rule, std::int64_t with_sheet) {
  int pace = 1;
  std::int64_t limit = rule.most_frames / 2, step = limit / 2;
  for (; step > 0 && with_sheet > limit && pace < ThinningRule::widest_pace; pace *= 2) {
    limit += step;
    step = std::max<std::int64_t>(step / 2, 1);
  }
  return pace;
}

}  // namespace colorlib
