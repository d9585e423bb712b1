#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/reaction/application_finder.hpp>

namespace colorlib {
namespace {

bool is_treated(RegionKind kind) {
  return kind == RegionKind::spot || kind == RegionKind::bruise || kind == RegionKind::water;
}

const Reading* standing(const TimedReadings& frame, const std::string& id) {
  for (const Reading& reading : frame.readings)
    if (reading.id == id && !reading.refused) return &reading;
  return nullptr;
}

/// What the untreated regions, on average, do between a frame and the mean before it, as a Lab difference.
Vector3 common_change(std::span<const TimedReadings> frames, std::size_t at) {
  Vector3 sum{};
  int count = 0;
  for (const Reading& reading : frames[at].readings) {
    if (reading.kind != RegionKind::control || reading.refused) continue;
    Vector3 mean{};
    int before = 0;
    for (std::size_t i = 0; i < at; ++i)
      if (const Reading* earlier = standing(frames[i], reading.id)) {
        const Vector3 lab = vector_from(earlier->lab);
        for (std::size_t k = 0; k < 3; ++k) mean[k] += lab[k];
        ++before;
      }
    if (before == 0) continue;
    const Vector3 now = vector_from(reading.lab);
    for (std::size_t k = 0; k < 3; ++k) sum[k] += now[k] - mean[k] / before;
    ++count;
  }
  if (count > 0)
    for (double& v : sum) v /= count;
  return sum;
}

bool appears_in(std::span<const TimedReadings> frames, std::size_t at, const std::string& id,
                const ApplicationFinderOptions& options) {
  const Reading* now = standing(frames[at], id);
  if (now == nullptr) return false;
  std::vector<const Reading*> before;
  for (std::size_t i = 0; i < at; ++i)
    if (const Reading* reading = standing(frames[i], id)) before.push_back(reading);
  if (before.empty()) return false;
  Vector3 mean{};
  double glint = 0;
  const double n = static_cast<double>(before.size());
  for (const Reading* reading : before) {
    const Vector3 lab = vector_from(reading->lab);
    for (std::size_t k = 0; k < 3; ++k) mean[k] += lab[k] / n;
    glint = std::max(glint, reading->glint_share);
  }
  double spread = 0;
  for (const Reading* reading : before) {
    const double distance = difference_ciede2000(lab_from(mean), reading->lab);
    spread += distance * distance / n;
  }
  spread =
      std::max(std::sqrt(spread), 0.2);  // one frame alone says nothing of the spread; 0.2 is a usual one
  if (now->glint_share - glint > options.least_glint_share) return true;
  const Vector3 common = common_change(frames, at);
  Vector3 own = vector_from(now->lab);
  for (std::size_t k = 0; k < 3; ++k) own[k] -= common[k];
  const double change = difference_ciede2000(lab_from(mean), lab_from(own));
  return change > options.least_change_de00 && change > options.least_spreads * spread;
}

}  // namespace

std::optional<std::size_t> find_application(std::span<const TimedReadings> frames,
                                            const ApplicationFinderOptions& options) {
  for (std::size_t at = 1; at < frames.size(); ++at)
    for (const Reading& reading : frames[at].readings)
      if (is_treated(reading.kind) && appears_in(frames, at, reading.id, options)) return at;
  return std::nullopt;
}

}  // namespace colorlib
