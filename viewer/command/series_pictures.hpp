#pragma once
/// The pictures of a series: diagram and row of stages.

#include <colorlib/records/series_record.hpp>
#include <viewer/command/series_options.hpp>

namespace tintfall {

/// Checks the names of the outputs and their folders before any photo is read. Errors: bad_call,
/// cannot_write.
colorlib::Result<std::monostate> check_pictures(const SeriesChoices& choices,
                                                const std::vector<std::filesystem::path>& photos);

/// Writes what was asked for: with several spots one file each, the spot's id before the ending. Errors:
/// cannot_write; a photo that cannot be read any more.
colorlib::Result<std::monostate> write_pictures(const colorlib::SeriesRecord& series, const SeriesJob& job,
                                                const SeriesChoices& choices, colorlib::Progress& progress);

}  // namespace tintfall
