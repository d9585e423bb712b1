#include <colorlib/image/photo_files.hpp>
#include <colorlib/reaction/series_times.hpp>
#include <viewer/command/watched_moment.hpp>

namespace tintfall {

using namespace colorlib;

Result<WatchedMoment> watched_moment(const std::string& text, const std::vector<std::filesystem::path>& there,
                                     const std::optional<double>& interval_s) {
  if (text.empty()) return WatchedMoment{};
  std::vector<std::string> names;
  for (const auto& photo : there) names.push_back(photo.filename().string());
  const auto moment = applied_moment_from(text, names);
  if (!moment) {
    const auto name = std::filesystem::path(text).filename();
    if (has_photo_ending(name)) return WatchedMoment{{}, name.string()};
    return fail(moment.error());
  }
  // What contradicts the call at any photo is told before the first.
  if (interval_s || moment->kind == AppliedMoment::Kind::zero) {
    const TimesRequest request{std::nullopt, interval_s, *moment};
    const std::vector<TimedPhoto> photos{{moment->photo, std::nullopt}};
    if (const auto sound = series_times(photos, request); !sound) return fail(sound.error());
  }
  return WatchedMoment{*moment, {}};
}

}  // namespace tintfall
