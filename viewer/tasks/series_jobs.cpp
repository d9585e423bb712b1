#include <QFileInfo>
#include <algorithm>
#include <colorlib/base/file_access.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/exports/series_strip.hpp>
#include <colorlib/exports/sheet_picture.hpp>
#include <colorlib/naming/color_change.hpp>
#include <colorlib/reaction/followed_regions.hpp>
#include <colorlib/reaction/stills_reading.hpp>
#include <map>
#include <viewer/command/series_options.hpp>
#include <viewer/command/series_pictures.hpp>
#include <viewer/command/series_run.hpp>
#include <viewer/command/series_video.hpp>
#include <viewer/command/series_words.hpp>
#include <viewer/settings/figures.hpp>
#include <viewer/tasks/error_words.hpp>
#include <viewer/tasks/image_from.hpp>
#include <viewer/tasks/naming_tables.hpp>
#include <viewer/tasks/request_from_setup.hpp>
#include <viewer/tasks/series_jobs.hpp>
#include <viewer/tasks/window_wording.hpp>

namespace tintfall::viewer {

using namespace colorlib;

namespace {

constexpr double picture_px_per_mm = 5, margin_mm = 6;
constexpr int fit_points = 240;

QString words(const std::string& text) { return QString::fromStdString(text); }
std::vector<std::string> texts(const QStringList& list) {
  std::vector<std::string> result;
  for (const QString& each : list) result.push_back(each.toStdString());
  return result;
}

/// What the pictures show: the opening that holds the first region, or the regions with a little around them.
RectangleMm scene_of(const ChartDefinition& chart, const Regions& regions) {
  double left = 1e9, top = 1e9, right = -1e9, bottom = -1e9;
  for (const Region& region : regions.items) {
    const auto bounds = region.bounds();
    left = std::min(left, bounds[0]);
    top = std::min(top, bounds[1]);
    right = std::max(right, bounds[2]);
    bottom = std::max(bottom, bounds[3]);
  }
  for (const ChartWindow& window : chart.windows)
    if (regions.frame == RegionFrame::chart_mm &&
        window.place.contains({(left + right) / 2, (top + bottom) / 2}))
      return window.place;
  if (regions.frame == RegionFrame::photo_px) return {0, 0, chart.width_mm, chart.height_mm};
  return {left - margin_mm, top - margin_mm, right - left + 2 * margin_mm, bottom - top + 2 * margin_mm};
}

using Pictures = std::map<std::string, QImage>;  // by name of the frame

QImage picture_of(const Photo& photo, const PhotoReading& found, const SeriesParameters& parameters,
                  const Progress& progress) {
  return image_from(sheet_picture(photo, found.sheet.placement, found.calibration,
                                  scene_of(found.chart, parameters.regions), picture_px_per_mm,
                                  *parameters.screen, progress));
}

Result<ReadFrames> frames_of_photos(const SeriesJob& job, const SeriesParameters& parameters,
                                    Pictures& pictures, Progress& progress) {
  ReadFrames read;
  read.frames.resize(job.photos.size());
  StillsTask task;
  task.photos = job.photos;
  const auto keep = [&](const StillOutcome& still) -> Result<std::monostate> {
    // In the journal's form, as a command's series is kept: one record, whoever reads it.
    auto frame = parse_frame(frame_json(frame_of(still, job, parameters.setup.subject)));
    if (!frame) return fail(frame.error());
    if (still.reading)
      pictures[frame->photo] = picture_of(*still.photo, *still.reading, parameters, progress);
    read.frames[still.index] = std::move(*frame);
    return std::monostate{};
  };
  const auto done = read_stills(task, job.read.request, job.read.naming.namer, keep, progress);
  if (!done) return fail(done.error());
  return read;
}

Result<ReadFrames> frames_of_video(const SeriesJob& job, const SeriesParameters& parameters,
                                   Pictures& pictures, Progress& progress) {
  SeriesChoices choices;
  choices.read.subject = parameters.setup.subject;
  return read_video_frames(job, choices, progress,
                           [&](const std::string& frame, const Photo& photo, const PhotoReading& found) {
                             pictures[frame] = picture_of(photo, found, parameters, progress);
                           });
}

/// The fitted curve as a change against its own beginning, and the moments that the fit tells.
void add_fit(const Kinetics& kinetics, const Lab& before, CourseLine& line) {
  if (kinetics.state != KineticsState::fitted || kinetics.seconds.size() < 2 || !is_reaction(kinetics))
    return;
  const double first = kinetics.seconds.front(), last = kinetics.seconds.back();
  std::vector<double> times;
  for (int i = 0; i <= fit_points; ++i) times.push_back(first + (last - first) * i / fit_points);
  const auto change_at = [&](const std::vector<double>& seconds) {
    std::vector<double> changes;
    for (const Lab& lab : fitted_path(kinetics, seconds))
      changes.push_back(difference_ciede2000(before, lab));
    return changes;
  };
  const std::vector<double> changes = change_at(times);
  for (std::size_t i = 0; i < changes.size(); ++i) line.fit.emplace_back(times[i], changes[i]);
  const auto moment = [&](const TimeEstimate& time, double offset_s) -> std::optional<CourseTime> {
    if (!time.value_s || !time.low_s || !time.high_s) return std::nullopt;
    CourseTime at{offset_s + *time.value_s, offset_s + *time.low_s, offset_s + *time.high_s, 0};
    const auto change = change_at({at.seconds});
    if (!change.empty()) at.change_de00 = change.front();
    return at;
  };
  line.onset = moment(kinetics.onset, 0);
  if (line.onset) line.half_time = moment(kinetics.half_time, line.onset->seconds);
}

/// Lines and frames as they are drawn, from a record and the pictures of its photos.
Result<SeriesOutcome> outcome_from(SeriesRecord record, const Namer& namer, const Pictures& pictures,
                                   const Screen& screen, const Progress& progress) {
  SeriesOutcome outcome;
  // The record speaks as everywhere; only what is shown speaks the window's language.
  if (const auto added = add_words(record, namer, Wording(), {}); !added) return fail(added.error());
  const Wording wording = window_wording();
  SeriesRecord said;
  said.protocol = record.protocol;
  said.zero = record.zero;
  said.spots = record.spots;
  if (const auto added = add_words(said, namer, wording, {}); !added) return fail(added.error());
  for (const FrameRecord& frame : record.frames) {
    SeriesFrame shown{words(frame.photo), words(frame.record.photo.captured), frame.seconds, {}, {}};
    if (frame.dropped) shown.dropped = message_words(*frame.dropped);
    if (const auto picture = pictures.find(frame.photo); picture != pictures.end())
      shown.picture = picture->second;
    outcome.frames.push_back(std::move(shown));
  }
  for (const SpotRecord& spot : said.spots) {
    if (spot.refused) {
      outcome.remarks.push_back(message_words(*spot.refused));
      continue;
    }
    const Kinetics& kinetics = spot.kinetics;
    CourseLine line;
    line.id = words(spot.id);
    const ColorState before = kinetics.phases.empty() ? kinetics.path.front() : kinetics.phases.front().color;
    line.before = before.lab;
    for (std::size_t i = 0; i < kinetics.path.size(); ++i) {
      if (progress.cancelled())
        return fail(ErrorCode::cancelled, "The series was stopped while its courses were drawn.",
                    "Start it again when you like.");
      CourseMark mark;
      mark.seconds = kinetics.seconds[i];
      mark.change_de00 = difference_ciede2000(before.lab, kinetics.path[i].lab);
      mark.frame = spot.frames[i];
      mark.swatch = swatch_of(kinetics.path[i].lab, screen);
      const ColorChange change =
          color_change(before, kinetics.path[i], kinetics.path_change_expanded[i], namer);
      mark.change_expanded = change.de00_expanded;
      mark.words = with_figures(words(sentence_from(change, wording)));
      line.marks.push_back(std::move(mark));
    }
    add_fit(kinetics, before.lab, line);
    line.verdict = with_figures(words(spot.verdict_text));
    line.sentence = with_figures(words(spot.sentence));
    line.change_de00 = kinetics.change_de00;
    line.change_expanded = kinetics.change_de00_expanded;
    line.threshold_de00 = kinetics.threshold_de00;
    for (const StripStage& stage : strip_stages(kinetics))
      line.key_frames.push_back(line.marks[stage.frame].frame);
    for (const std::string& warning : spot.warnings) line.remarks.push_back(words(warning));
    for (const std::string& remark : kinetics.remarks) line.remarks.push_back(words(remark));
    outcome.lines.push_back(std::move(line));
  }
  for (const std::string& remark : record.remarks) outcome.remarks.push_back(words(remark));
  outcome.record = std::make_shared<const SeriesRecord>(std::move(record));
  return outcome;
}

}  // namespace

Result<QStringList> photos_among(const QStringList& dropped) {
  const auto found = photos_from(texts(dropped));
  if (!found) return fail(found.error());
  QStringList photos;
  for (const auto& photo : *found) photos.push_back(words(photo.string()));
  return photos;
}

Result<SeriesOutcome> read_series(SeriesParameters parameters, Progress& progress) {
  if (!parameters.screen) {  // the window has only just opened
    auto usual = screen_from({});
    if (!usual) return fail(usual.error());
    parameters.screen = std::move(*usual);
  }
  const auto& namer = naming_tables();
  if (!namer) return fail(namer.error());
  if (parameters.regions.items.empty())
    return fail(
        ErrorCode::bad_call, "A series needs to be told where to look, and no region was drawn.",
        "Draw the spot and its controls in one of the photos on the page 'One photo', then come back.");
  if (followed_regions(parameters.regions).empty())
    return fail(ErrorCode::bad_call,
                "A series follows a spot (a reagent) or a bruise, and none of the regions is of these kinds.",
                "Draw one and choose its kind on the page 'One photo', then come back.");
  if (const auto apart = check_controls_apart(parameters.regions); !apart) return fail(apart.error());
  SheetOutcome said;
  auto request = request_from_setup(parameters.setup, said);
  if (!request) return fail(request.error());
  SeriesJob job;
  job.read.request = std::move(*request);
  job.read.request.regions = parameters.regions;
  job.read.naming.namer = *namer;
  if (!said.label.isEmpty())
    job.read.sheet = PrintedSheet{said.label.toStdString(), {}, {}, said.printed.toStdString()};
  auto photos = photos_from(texts(parameters.photos));
  if (!photos) return fail(photos.error());
  job.photos = std::move(*photos);
  job.protocol = with_subject(parameters.protocol, parameters.setup.subject);
  job.times.interval_s = parameters.interval_s;
  if (!parameters.applied.isEmpty()) {
    std::vector<std::string> names;
    for (const auto& photo : job.photos) names.push_back(photo.filename().string());
    const auto applied = applied_moment_from(parameters.applied.toStdString(), names);
    if (!applied) return fail(applied.error());
    job.times.applied = *applied;
  }
  const auto video = is_one_video(job.photos);
  if (!video) return fail(video.error());
  job.video = *video;
  Pictures pictures;
  auto read = job.video ? frames_of_video(job, parameters, pictures, progress)
                        : frames_of_photos(job, parameters, pictures, progress);
  if (!read) return fail(read.error());
  auto record = series_from(job, std::move(*read), progress);
  if (!record) return fail(record.error());
  auto outcome = outcome_from(std::move(*record), *namer, pictures, parameters.screen, progress);
  if (outcome) outcome->job = std::make_shared<const SeriesJob>(std::move(job));
  return outcome;
}

Result<SeriesOutcome> with_zero(const SeriesOutcome& outcome, double zero_s, const Screen& screen,
                                const Progress& progress) {
  if (!outcome.record)
    return fail(ErrorCode::bad_call, "There is no series to move the zero of.", "Read a series first.");
  const auto& namer = naming_tables();
  if (!namer) return fail(namer.error());
  SeriesRecord record = *outcome.record;
  for (FrameRecord& frame : record.frames) frame.seconds -= zero_s;
  record.zero = SeriesZero::applied;
  record.spots = spot_records(record.frames, true, progress);
  if (const auto why = nothing_told(record)) return fail(*why);
  Pictures pictures;
  for (const SeriesFrame& frame : outcome.frames) pictures[frame.name.toStdString()] = frame.picture;
  auto moved = outcome_from(std::move(record), *namer, pictures, screen, progress);
  if (moved) moved->job = outcome.job;
  return moved;
}

Result<std::monostate> write_series(const QString& file, const SeriesOutcome& outcome) {
  return write_file_atomically(file.toStdString(), series_json(*outcome.record) + "\n");
}

Result<std::monostate> write_strip(const QString& file, const SeriesOutcome& outcome, std::size_t line,
                                   Progress& progress) {
  if (outcome.record && outcome.job && line < outcome.lines.size())
    for (const SpotRecord& spot : outcome.record->spots)
      if (words(spot.id) == outcome.lines[line].id && spot.has_course())
        return tintfall::write_strip(spot, *outcome.record, *outcome.job, file.toStdString(), progress);
  return fail(ErrorCode::bad_call, "There is no course to take key moments from.",
              "Read a series with a spot or a bruise first.");
}

}  // namespace tintfall::viewer
