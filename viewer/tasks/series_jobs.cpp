#include <QBuffer>
#include <QFileInfo>
#include <QPainter>
#include <algorithm>
#include <colorlib/base/file_access.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/exports/series_strip.hpp>
#include <colorlib/exports/sheet_picture.hpp>
#include <colorlib/naming/color_change.hpp>
#include <colorlib/reaction/stills_reading.hpp>
#include <map>
#include <viewer/command/series_run.hpp>
#include <viewer/tasks/naming_tables.hpp>
#include <viewer/tasks/request_from_setup.hpp>
#include <viewer/tasks/series_jobs.hpp>

namespace tintfall::viewer {

using namespace colorlib;

namespace {

constexpr double picture_px_per_mm = 5, margin_mm = 6;

QString words(const std::string& text) { return QString::fromStdString(text); }

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
    if (regions.frame == RegionFrame::chart_mm && window.place.contains({(left + right) / 2, (top + bottom) / 2}))
      return window.place;
  if (regions.frame == RegionFrame::photo_px) return {0, 0, chart.width_mm, chart.height_mm};
  return {left - margin_mm, top - margin_mm, right - left + 2 * margin_mm, bottom - top + 2 * margin_mm};
}

QImage image_from(const Image8& pixels) {
  QImage image(pixels.columns, pixels.rows, QImage::Format_RGB888);
  for (int r = 0; r < pixels.rows; ++r)
    std::copy(pixels.at(r, 0), pixels.at(r, 0) + static_cast<std::ptrdiff_t>(pixels.columns) * 3, image.scanLine(r));
  return image;
}

/// Lines and frames as they are drawn, from a record and the pictures of its photos.
SeriesOutcome outcome_from(SeriesRecord record, const std::map<std::string, QImage>& pictures, const Screen& screen) {
  SeriesOutcome outcome;
  const auto& namer = naming_tables();
  for (const FrameRecord& frame : record.frames) {
    SeriesFrame shown{words(frame.photo), words(frame.record.photo.captured), frame.seconds, {}, {}};
    if (frame.dropped) shown.dropped = words(frame.dropped->message);
    if (const auto picture = pictures.find(frame.photo); picture != pictures.end()) shown.picture = picture->second;
    outcome.frames.push_back(std::move(shown));
  }
  for (const SpotRecord& spot : record.spots) {
    if (spot.refused) {
      outcome.remarks.push_back(words(spot.refused->message));
      continue;
    }
    const Kinetics& kinetics = spot.kinetics;
    CourseLine line;
    line.id = words(spot.id);
    const ColorState before = kinetics.phases.empty() ? kinetics.path.front() : kinetics.phases.front().color;
    line.before = before.lab;
    for (std::size_t i = 0; i < kinetics.path.size(); ++i) {
      CourseMark mark;
      mark.seconds = kinetics.seconds[i];
      mark.change_de00 = difference_ciede2000(before.lab, kinetics.path[i].lab);
      mark.frame = spot.frames[i];
      mark.swatch = swatch_of(kinetics.path[i].lab, screen);
      if (namer) {
        // What all frames share does not enter a difference between two of them.
        const ColorChange change = color_change({before.lab, {}}, kinetics.path[i], *namer);
        mark.change_expanded = change.de00_expanded;
        mark.words = words(sentence_from(change, Wording()));
      }
      line.marks.push_back(std::move(mark));
    }
    for (const StripStage& stage : strip_stages(kinetics)) line.key_frames.push_back(line.marks[stage.frame].frame);
    for (const std::string& remark : kinetics.remarks) line.remarks.push_back(words(remark));
    outcome.lines.push_back(std::move(line));
  }
  for (const std::string& remark : record.remarks) outcome.remarks.push_back(words(remark));
  outcome.record = std::make_shared<const SeriesRecord>(std::move(record));
  return outcome;
}

}  // namespace

Result<SeriesOutcome> read_series(const SeriesParameters& parameters, Progress& progress) {
  const auto& namer = naming_tables();
  if (!namer) return fail(namer.error());
  if (parameters.regions.items.empty())
    return fail(ErrorCode::bad_call, "A series needs to be told where to look, and no region was drawn.",
                "Draw the spot and its controls in one of the photos on the page 'One photo', then come back.");
  SheetOutcome said;
  auto request = request_from_setup(parameters.setup, said);
  if (!request) return fail(request.error());
  request->regions = parameters.regions;
  SeriesJob job;
  StillsTask task;
  for (const QString& photo : parameters.photos) task.photos.emplace_back(photo.toStdString());
  job.photos = task.photos;
  job.protocol = parameters.protocol;
  job.times.interval_s = parameters.interval_s;
  if (!parameters.applied.isEmpty()) {
    std::vector<std::string> names;
    for (const auto& photo : task.photos) names.push_back(photo.filename().string());
    const auto applied = applied_moment_from(parameters.applied.toStdString(), names);
    if (!applied) return fail(applied.error());
    job.times.applied = *applied;
  }
  ReadFrames read;
  read.frames.resize(task.photos.size());
  std::map<std::string, QImage> pictures;
  const auto keep = [&](const StillOutcome& still) -> Result<std::monostate> {
    FrameRecord frame;
    frame.photo = task.photos[still.index].filename().string();
    if (still.reading) {
      frame.record = record_from(*still.photo, *still.reading, parameters.setup.subject);
      frame.areas = still.comparison.areas;
      const PhotoReading& found = *still.reading;
      pictures[frame.photo] =
          image_from(sheet_picture(*still.photo, found.sheet.placement, found.calibration,
                                   scene_of(found.chart, parameters.regions), picture_px_per_mm, *parameters.screen));
    } else {
      frame.dropped = still.reading.error();
      if (still.photo != nullptr && still.photo->capture().captured)
        frame.record.photo.captured = still.photo->capture().captured->iso8601();
    }
    read.frames[still.index] = std::move(frame);
    return std::monostate{};
  };
  if (const auto done = read_stills(task, *request, *namer, keep, progress); !done) return fail(done.error());
  auto record = series_from(job, std::move(read));
  if (!record) return fail(record.error());
  return outcome_from(std::move(*record), pictures, parameters.screen);
}

Result<SeriesOutcome> with_zero(const SeriesOutcome& outcome, double zero_s, const Screen& screen) {
  if (!outcome.record) return fail(ErrorCode::bad_call, "There is no series to move the zero of.", "Read a series first.");
  SeriesRecord record = *outcome.record;
  for (FrameRecord& frame : record.frames) frame.seconds -= zero_s;
  record.zero = SeriesZero::applied;
  record.spots = spot_records(record.frames, true);
  std::map<std::string, QImage> pictures;
  for (const SeriesFrame& frame : outcome.frames) pictures[frame.name.toStdString()] = frame.picture;
  return outcome_from(std::move(record), pictures, screen);
}

Result<std::monostate> write_series(const QString& file, const SeriesOutcome& outcome) {
  return write_file_atomically(file.toStdString(), series_json(*outcome.record) + "\n");
}

Result<std::monostate> write_strip(const QString& file, const SeriesOutcome& outcome, std::size_t line) {
  if (line >= outcome.lines.size() || outcome.lines[line].key_frames.empty())
    return fail(ErrorCode::bad_call, "There is no course to take key moments from.", "Read a series with a spot or a bruise first.");
  constexpr int cell = 320, words_px = 52, gap = 8;
  const auto& frames = outcome.lines[line].key_frames;
  QImage strip(gap + static_cast<int>(frames.size()) * (cell + gap), cell + words_px + 2 * gap, QImage::Format_RGB32);
  strip.fill(qRgb(119, 119, 119));
  QPainter painter(&strip);
  painter.setRenderHint(QPainter::SmoothPixmapTransform);
  painter.setPen(Qt::white);
  for (std::size_t i = 0; i < frames.size(); ++i) {
    const SeriesFrame& frame = outcome.frames[frames[i]];
    const QRect box(gap + static_cast<int>(i) * (cell + gap), gap, cell, cell);
    const QSize size = frame.picture.size().scaled(box.size(), Qt::KeepAspectRatio);
    painter.drawImage(QRect(box.center() - QPoint(size.width() / 2, size.height() / 2), size), frame.picture);
    QString text = QStringLiteral("%1 s").arg(frame.seconds, 0, 'f', 1);
    for (const CourseMark& mark : outcome.lines[line].marks)
      if (mark.frame == frames[i]) text += QStringLiteral("\nΔE00 %1 ± %2").arg(mark.change_de00, 0, 'f', 1).arg(mark.change_expanded, 0, 'f', 1);
    painter.drawText(QRect(box.left(), box.bottom() + 4, cell, words_px), Qt::AlignHCenter | Qt::AlignTop, text);
  }
  painter.end();
  QByteArray bytes;
  QBuffer buffer(&bytes);
  buffer.open(QIODevice::WriteOnly);
  strip.save(&buffer, "PNG");
  return write_file_atomically(file.toStdString(), {bytes.constData(), static_cast<std::size_t>(bytes.size())});
}

}  // namespace tintfall::viewer
