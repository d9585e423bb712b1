#pragma once
/// Rows of readings as CSV, as CGATS.17 text, and as plain text to paste into any record's notes; and back.

#include <colorlib/exports/reading_rows.hpp>
#include <string>
#include <string_view>

namespace colorlib {

/// UTF-8, comma, one line of names. Read back by rows_from_csv, and by any spreadsheet.
std::string csv_from(const ReadingRows& rows);
Result<ReadingRows> rows_from_csv(std::string_view text, std::string name);

/// ISO 28178 keyword text: SAMPLE_ID, LAB_L LAB_A LAB_B, STDEV_L STDEV_A STDEV_B (standard uncertainties)
/// first, the other columns after them in capitals, each declared by a KEYWORD. Only rows with a colour. '%'
/// and '"' inside a cell are written %25 and %22; an empty cell is a lone '%'.
std::string cgats_from(const ReadingRows& rows);
/// Any CGATS text with LAB values: without a column NUMBER the SAMPLE_ID is the collection's number, without
/// covariances the STDEV columns give them. Errors: unreadable_table.
Result<ReadingRows> rows_from_cgats(std::string_view text, std::string_view name);

/// A block a row: a heading, a sentence for people, then "name: value" of every cell that says something.
std::string text_blocks_from(const ReadingRows& rows);
inline constexpr std::string_view text_block_heading = "== Tintfall reading";
Result<ReadingRows> rows_from_text_blocks(std::string_view text, std::string_view name);

}  // namespace colorlib
