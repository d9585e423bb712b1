#pragma once
/// A series that is one video file.

#include <filesystem>
#include <viewer/command/series_run.hpp>

namespace tintfall {

/// By content; always false in a build without videos.
bool is_video(const std::filesystem::path& file);

/// Reads the video of `job` into frames with their times on the stream. Errors: of read_video.
colorlib::Result<ReadFrames> read_video_frames(const SeriesJob& job, const SeriesChoices& choices,
                                               TimedProgress& progress);

/// One frame again, for pictures: its photo. Errors: of the decoder; bad_call when there is no such frame.
colorlib::Result<colorlib::Photo> video_photo(const std::filesystem::path& video, const std::string& frame);

}  // namespace tintfall
