#pragma once
/// The pictures of a series: diagram and row of stages.

#include <colorlib/records/series_record.hpp>
#include <viewer/command/series_options.hpp>

namespace tintfall {

/// The stages of a spot with a course, side by side, as PNG; their photos are read once more. Errors:
/// cannot_write; a photo that cannot be read any more.
colorlib::Result<std::monostate> write_strip(const colorlib::SpotRecord& spot,
                                             const colorlib::SeriesRecord& series, const SeriesJob& job,
                                             const std::string& file, colorlib::Progress& progress);

/// Checks that the pictures' formats can be drawn. Errors: bad_call.
colorlib::Result<std::monostate> check_pictures(const SeriesChoices& choices);

/// Every file that `write_pictures` may write for these regions.
std::vector<Output> pictures_of(const SeriesChoices& choices, const std::vector<colorlib::Region>& regions);

/// Writes what was asked for: with several spots one file each, the spot's id before the ending. Errors:
/// cannot_write; a photo that cannot be read any more.
colorlib::Result<std::monostate> write_pictures(const colorlib::SeriesRecord& series, const SeriesJob& job,
                                                const SeriesChoices& choices, colorlib::Progress& progress);

}  // namespace tintfall
