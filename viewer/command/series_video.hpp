#pragma once
/// A series that is one video file.

#include <colorlib/specimen/photo_reading.hpp>
#include <filesystem>
#include <functional>
#include <map>
#include <set>
#include <string>
#include <vector>
#include <viewer/command/series_run.hpp>

namespace tintfall {

/// By content; always false in a build without videos.
bool is_video(const std::filesystem::path& file);

/// Whether these files are one video. Errors: bad_call when others stand beside a video.
colorlib::Result<bool> is_one_video(const std::vector<std::filesystem::path>& files);

/// Told of each frame in which the sheet was seen, while its pixels are at hand.
using FrameLook =
    std::function<void(const std::string& frame, const colorlib::Photo&, const colorlib::PhotoReading&)>;

/// Reads the video of `job` into frames with their times on the stream. Errors: of read_video.
colorlib::Result<ReadFrames> read_video_frames(const SeriesJob& job, const SeriesChoices& choices,
                                               colorlib::Progress& progress, const FrameLook& look = {});

/// Some frames again, for pictures: their photos by name, in one pass that ends with the last of them.
/// Errors: of the decoder; bad_call when there is no such frame.
colorlib::Result<std::map<std::string, colorlib::Photo>> video_photos(const std::filesystem::path& video,
                                                                      const std::set<std::string>& frames);

}  // namespace tintfall
