#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/base/file_access.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/exports/series_plot.hpp>
#include <colorlib/exports/series_strip.hpp>
#include <colorlib/image/decode.hpp>
#include <map>
#include <optional>
#include <set>
#include <viewer/command/series_pictures.hpp>
#include <viewer/command/series_video.hpp>

namespace tintfall {

using namespace colorlib;

namespace {

using Done = Result<std::monostate>;

/// "plot.svg" -> "plot-A.svg" when there are several spots.
std::string file_for(const std::string& file, std::string id, bool several) {
  if (!several) return file;
  const auto dot = file.find_last_of('.');
  std::replace_if(
      id.begin(), id.end(), [](char c) { return c == '/' || c == '\0'; }, '_');
  return file.substr(0, dot) + "-" + id + file.substr(dot);
}

Done write_plot(const SpotRecord& spot, const SeriesRecord& series, const std::string& file) {
  const auto format = picture_format_of(file, "--plot");
  if (!format) return fail(format.error());
  const auto picture = draw_series_plot(series_plot_of(spot, series), *format);
  if (!picture) return fail(picture.error());
  return write_file_atomically(file, *picture);
}

/// What lies round the spot in one frame, read once more from its photo.
Result<RectifiedWindow> window_in(const Photo& photo, const FrameRecord& frame, const SpotRecord& spot,
                                  const SeriesJob& job, Progress& progress) {
  const auto reading = read_photo(photo, job.read.request, job.read.naming.namer, progress);
  if (!reading) return fail(reading.error());
  const Region& region = reading_of(frame, spot.id)->region;  // where it was followed to
  const auto [left, top, right, bottom] = region.bounds();
  const double margin = 0.6 * std::max(right - left, bottom - top);
  const double x0 = std::max(0.0, left - margin), y0 = std::max(0.0, top - margin);
  const RectangleMm place{x0, y0, std::min(reading->chart.width_mm, right + margin) - x0,
                          std::min(reading->chart.height_mm, bottom + margin) - y0};
  const double finest = std::clamp(reading->sheet.placement.px_per_mm(place.centre()), 4.0, 16.0);
  return rectified_window(photo, reading->sheet.placement, reading->calibration, place, finest);
}

/// A frame whose sheet was hidden shows no calibrated picture.
bool shows_its_sheet(const FrameRecord& frame, const SpotRecord& spot) {
  const Reading* reading = reading_of(frame, spot.id);
  return reading != nullptr &&
         std::none_of(reading->budget.begin(), reading->budget.end(),
                      [](const BudgetComponent& part) { return part.name == "carried"; });
}

/// A moment of the strip: the stage's own frame, or the nearest in time that shows its sheet.
struct StripMoment {
  std::string name;
  std::size_t place = 0;  ///< into the spot's frames
};

std::vector<StripMoment> strip_moments(const SpotRecord& spot, const SeriesRecord& series) {
  std::vector<StripMoment> moments;
  const auto& seconds = spot.kinetics.seconds;
  for (const StripStage& stage : strip_stages(spot.kinetics)) {
    if (stage.frame >= spot.frames.size()) continue;
    std::optional<std::size_t> nearest;
    for (std::size_t i = 0; i < spot.frames.size(); ++i)
      if (shows_its_sheet(series.frames[spot.frames[i]], spot) &&
          (!nearest ||
           std::abs(seconds[i] - seconds[stage.frame]) < std::abs(seconds[*nearest] - seconds[stage.frame])))
        nearest = i;
    if (nearest) moments.push_back({stage.name, *nearest});
  }
  return moments;
}

/// The photos of the frames named, once more.
Result<std::map<std::string, Photo>> photos_again(const std::set<std::string>& names, const SeriesJob& job) {
  if (job.video) return video_photos(job.photos.front(), names);
  std::map<std::string, Photo> photos;
  for (const auto& file : job.photos) {
    const std::string name = file.filename().string();
    if (!names.contains(name)) continue;
    auto photo = decode_photo(file);
    if (!photo) return fail(photo.error());
    photos.emplace(name, std::move(*photo));
  }
  for (const std::string& name : names)
    if (!photos.contains(name))
      return fail(ErrorCode::unreadable_photo, fmt::format("The photo '{}' is not there any more.", name),
                  "Put it back and call again.");
  return photos;
}

}  // namespace

Done write_strip(const SpotRecord& spot, const SeriesRecord& series, const SeriesJob& job,
                 const std::string& file, Progress& progress) {
  const Kinetics& kinetics = spot.kinetics;
  const Lab before = kinetics.phases.empty() ? kinetics.path.front().lab : kinetics.phases.front().color.lab;
  const auto moments = strip_moments(spot, series);
  std::set<std::string> names;
  for (const StripMoment& moment : moments) names.insert(series.frames[spot.frames[moment.place]].photo);
  const auto photos = photos_again(names, job);
  if (!photos) return fail(photos.error());
  std::vector<StripPicture> pictures;
  for (const StripMoment& moment : moments) {
    const FrameRecord& frame = series.frames[spot.frames[moment.place]];
    auto window = window_in(photos->at(frame.photo), frame, spot, job, progress);
    if (!window) return fail(window.error());
    pictures.push_back({moment.name, frame.seconds, reading_of(frame, spot.id)->lab,
                        difference_ciede2000(before, kinetics.path[moment.place].lab), std::move(*window)});
  }
  const auto picture = draw_series_strip(spot_title(spot, series), pictures);
  if (!picture) return fail(picture.error());
  return write_file_atomically(file, *picture);
}

Done check_pictures(const SeriesChoices& choices) {
  if (!choices.plot.empty())
    if (const auto format = picture_format_of(choices.plot, "--plot"); !format) return fail(format.error());
  return check_ending("--strip", choices.strip, ".png");
}

std::vector<Output> pictures_of(const SeriesChoices& choices, const std::vector<Region>& regions) {
  std::vector<std::string> spots;
  for (const Region& region : regions)
    if (region.kind == RegionKind::spot || region.kind == RegionKind::bruise) spots.push_back(region.id);
  std::vector<Output> pictures;
  for (const auto& [option, file] :
       {std::pair("--plot", choices.plot), std::pair("--strip", choices.strip)}) {
    if (file.empty()) continue;
    pictures.push_back(
        {option, file, OutputKind::picture});  // of one spot, or when only one of them has a course
    if (spots.size() < 2) continue;
    for (const std::string& id : spots)
      pictures.push_back({option, file_for(file, id, true), OutputKind::picture});
  }
  return pictures;
}

Done write_pictures(const SeriesRecord& series, const SeriesJob& job, const SeriesChoices& choices,
                    Progress& progress) {
  const bool several = std::count_if(series.spots.begin(), series.spots.end(),
                                     [](const SpotRecord& spot) { return spot.has_course(); }) > 1;
  for (const SpotRecord& spot : series.spots) {
    if (!spot.has_course()) continue;
    if (!choices.plot.empty())
      if (const auto done = write_plot(spot, series, file_for(choices.plot, spot.id, several)); !done)
        return done;
    if (!choices.strip.empty())
      if (const auto done =
              write_strip(spot, series, job, file_for(choices.strip, spot.id, several), progress);
          !done)
        return done;
  }
  return std::monostate{};
}

}  // namespace tintfall
