#pragma once
/// The sentences of a series: what each spot did, in the words of a description.

#include <colorlib/naming/namer.hpp>
#include <colorlib/naming/wording.hpp>
#include <colorlib/records/series_record.hpp>
#include <filesystem>

namespace tintfall {

/// Fills verdict and sentence of every spot; what a careful reader asks for goes to the series' remarks.
/// `bins_file` empty: the shipped speed and sign bins. Errors: unreadable_table.
colorlib::Result<std::monostate> add_words(colorlib::SeriesRecord& series, const colorlib::Namer& namer,
                                           const colorlib::Wording& wording,
                                           const std::filesystem::path& bins_file);

}  // namespace tintfall
