#include <fmt/format.h>

#include <colorlib/image/photo_files.hpp>
#include <utility>
#include <viewer/command/folder_watch.hpp>
#include <viewer/command/series_run.hpp>
#include <viewer/command/watch_news.hpp>

namespace tintfall {

using namespace colorlib;

namespace {

/// Every frame of the photos so far, those of earlier looks from the journal.
Result<ReadFrames> frames_so_far(const FolderWatch& watch, Streams& streams) {
  TimedProgress progress(streams, "watch");
  auto frames = read_frames(watch.job, watch.choices, progress);
  progress.clear();
  if (frames && !watch.moment.awaited.empty())
    frames->remarks.push_back(
        fmt::format("The photo '{}' that --applied names has not come; times count from the first photo.",
                    watch.moment.awaited));
  return frames;
}

/// Photos that were not spoken of yet; now they are.
std::vector<std::string> fresh_photos(const ReadFrames& frames, std::set<std::string>& told) {
  std::vector<std::string> fresh;
  for (const FrameRecord& frame : frames.frames)
    if (!frame.photo.empty() && told.insert(frame.photo).second) fresh.push_back(frame.photo);
  return fresh;
}

}  // namespace

Result<std::vector<std::filesystem::path>> SettledPhotos::look(const std::filesystem::path& folder) {
  auto photos = photos_of_folder(folder);
  if (!photos) return photos;
  std::map<std::filesystem::path, std::uintmax_t> sizes;
  std::vector<std::filesystem::path> settled;
  for (const auto& photo : *photos) {
    std::error_code problem;
    const auto size = std::filesystem::file_size(photo, problem);
    if (problem || size == 0) continue;
    sizes[photo] = size;
    const auto before = sizes_.find(photo);
    if (before != sizes_.end() && before->second == size) settled.push_back(photo);
  }
  sizes_ = std::move(sizes);
  return settled;
}

Result<FolderWatch> folder_watch(const std::filesystem::path& folder, const SeriesChoices& said) {
  FolderWatch watch;
  watch.folder = folder;
  watch.choices = said;
  watch.applied = said.applied;
  watch.choices.read.photos = {(folder / "the first photo").string()};
  if (watch.choices.journal.empty()) watch.choices.journal = (folder / watch_journal_name).string();
  watch.choices.applied.clear();  // may name a photo that is still to come
  const auto there = photos_of_folder(folder);
  if (!there) return fail(there.error());
  auto moment = watched_moment(watch.applied, *there, said.interval_s);
  if (!moment) return fail(moment.error());
  watch.moment = std::move(*moment);
  auto job = series_job_from(watch.choices);
  if (!job) return fail(job.error());
  watch.job = std::move(*job);
  watch.job.photos.clear();
  watch.job.arriving = true;
  watch.files = watch.job.read.files;
  for (const auto& photo : *there) watch.files.inputs.push_back(photo.string());
  return watch;
}

Result<bool> look(FolderWatch& watch, Streams& streams) {
  auto photos = watch.settled.look(watch.folder);
  if (!photos) return fail(photos.error());
  if (photos->size() == watch.job.photos.size()) return false;
  watch.job.photos = std::move(*photos);
  auto moment = watched_moment(watch.applied, watch.job.photos, watch.choices.interval_s);
  if (!moment) return fail(moment.error());
  watch.moment = std::move(*moment);
  watch.job.times.applied = watch.moment.applied;
  auto frames = frames_so_far(watch, streams);
  if (!frames) return fail(frames.error());
  const std::vector<std::string> fresh = fresh_photos(*frames, watch.told);
  auto now = series_from(watch.job, std::move(*frames));
  if (!now && now.error().code == ErrorCode::bad_call) return fail(now.error());
  if (!now) {
    for (const std::string& photo : fresh)
      streams.err << fmt::format("{}: {}\n", photo, now.error().message) << std::flush;
    return true;
  }
  const std::optional<SeriesRecord> before = std::exchange(watch.series, std::move(*now));
  if (!watch.choices.read.json.to_standard_output() && !watch.choices.read.quiet) {
    if (before) print_moved_zero(*before, *watch.series, streams.out);
    for (const std::string& photo : fresh) print_frame(*watch.series, photo, streams.out);
    if (!fresh.empty()) print_running_fit(*watch.series, streams.out);
  }
  return true;
}

}  // namespace tintfall
