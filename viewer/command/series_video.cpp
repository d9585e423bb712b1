#include <fmt/format.h>

#include <algorithm>
#include <viewer/command/series_video.hpp>
#ifdef TINTFALL_VIDEO
#include <colorlib/video/video_reading.hpp>
#endif

namespace tintfall {

using namespace colorlib;

Result<bool> is_one_video(const std::vector<std::filesystem::path>& files) {
  const auto video = std::find_if(files.begin(), files.end(), is_video);
  if (video == files.end()) return false;
  if (files.size() > 1)
    return fail(ErrorCode::bad_call,
                fmt::format("The video '{}' is a series of its own, but other files stand beside it.",
                            video->filename().string()),
                "Name one video alone, or photos only.");
  return true;
}

#ifndef TINTFALL_VIDEO

bool is_video(const std::filesystem::path&) { return false; }

Result<ReadFrames> read_video_frames(const SeriesJob&, const SeriesChoices&, Progress&, const FrameLook&) {
  return fail(ErrorCode::bad_call, "This build reads no videos.", "Build it with -DTINTFALL_VIDEO=ON.");
}

Result<std::map<std::string, Photo>> video_photos(const std::filesystem::path&,
                                                  const std::set<std::string>&) {
  return fail(ErrorCode::bad_call, "This build reads no videos.", "Build it with -DTINTFALL_VIDEO=ON.");
}

#else

namespace {

RecordPhoto photo_part_of(const VideoFrameOutcome& outcome, const VideoDescription& about) {
  RecordPhoto photo;
  photo.name = fmt::format("{} {}", about.name, outcome.name);
  photo.width_px = about.width_px;
  photo.height_px = about.height_px;
  photo.encoding = "display-referred";
  photo.profile = "video, taken as sRGB";
  photo.profile_assumed = true;
  return photo;
}

}  // namespace

bool is_video(const std::filesystem::path& file) { return looks_like_video(file); }

Result<ReadFrames> read_video_frames(const SeriesJob& job, const SeriesChoices& choices, Progress& progress,
                                     const FrameLook& look) {
  ReadFrames result;
  result.from_video = true;
  const auto& video = job.photos.front();
  VideoOptions options;
  options.thinning.every_frame = choices.every_frame;
  Record last;  // of the last frame with a sheet
  VideoDescription about;
  {
    const auto opened = VideoFrames::open(video);
    if (!opened) return fail(opened.error());
    about = opened->description();
  }
  const Subject subject = merged(job.read.fields.subject_of(about.name), choices.read.subject);
  const auto keep = [&](const VideoFrameOutcome& outcome) -> Result<std::monostate> {
    FrameRecord frame;
    frame.photo = outcome.name;
    frame.seconds = outcome.seconds;
    frame.dropped = outcome.dropped;
    frame.areas = outcome.comparison.areas;
    for (const RegionMovement& moved : outcome.comparison.movements)
      if (moved.followed) frame.movements.push_back(moved);
    if (outcome.reading != nullptr) {
      frame.record = record_from(*outcome.photo, *outcome.reading, subject);
      if (job.read.sheet) {
        frame.record.chart.sheet_label = job.read.sheet->label;
        frame.record.chart.printed = job.read.sheet->printed;
      }
      frame.record.photo = photo_part_of(outcome, about);
      last = frame.record;
      if (look) look(outcome.name, *outcome.photo, *outcome.reading);
    } else if (!outcome.dropped) {
      frame.record = last;
      frame.record.photo = photo_part_of(outcome, about);
      frame.record.readings = outcome.carried;
      frame.record.scales.clear();
    }
    result.frames.push_back(std::move(frame));
    return std::monostate{};
  };
  const auto summary = read_video(video, job.read.request, job.read.naming.namer, options, keep, progress);
  if (!summary) return fail(summary.error());
  result.recorded = about.recorded;
  result.remarks.push_back(fmt::format("Of {} frames all were looked at and {} read{}.",
                                       summary->frames_decoded, summary->frames_read,
                                       choices.every_frame ? "" : ", most of them where colours changed"));
  if (summary->paces > 1)
    result.remarks.push_back(fmt::format(
        "So much moved that only changes of {} times the usual size made a frame be read.", summary->paces));
  if (summary->frames_carried > 0)
    result.remarks.push_back(
        fmt::format("In {} frames the sheet was hidden: the calibration of the nearest frames with a sheet "
                    "served, with a wider uncertainty.",
                    summary->frames_carried));
  if (summary->out_of_order > 0)
    result.remarks.push_back(
        fmt::format("{} frames whose time stamps do not follow on were left out.", summary->out_of_order));
  if (summary->of_other_size > 0)
    result.remarks.push_back(
        fmt::format("{} frames of another size than the first were left out.", summary->of_other_size));
  if (summary->damaged > 0)
    result.remarks.push_back(summary->damaged == 1
                                 ? std::string("1 part of the video is damaged.")
                                 : fmt::format("{} parts of the video are damaged.", summary->damaged));
  return result;
}

Result<std::map<std::string, Photo>> video_photos(const std::filesystem::path& video,
                                                  const std::set<std::string>& wanted) {
  std::map<std::string, Photo> photos;
  auto frames = VideoFrames::open(video);
  if (!frames) return fail(frames.error());
  while (photos.size() < wanted.size()) {
    auto next = frames->next();
    if (!next) return fail(next.error());
    if (!*next) break;
    std::string name = fmt::format("frame {}", (*next)->number());
    if (!wanted.contains(name)) continue;
    auto photo = (*next)->photo();
    if (!photo) return fail(photo.error());
    photos.emplace(std::move(name), std::move(*photo));
  }
  for (const std::string& name : wanted)
    if (!photos.contains(name))
      return fail(ErrorCode::bad_call,
                  fmt::format("The video '{}' has no {}.", video.filename().string(), name),
                  "Check that it is the file that was read.");
  return photos;
}

#endif

}  // namespace tintfall
