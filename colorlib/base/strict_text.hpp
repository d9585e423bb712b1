#pragma once
/// Strict reading of numbers and lines from foreign text.

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace colorlib {

/// Without spaces, tabs and line ends at both ends.
std::string_view trimmed(std::string_view text);

/// The whole of `text` (trimmed) as a finite number written with a decimal point; nothing else is taken:
/// no "nan", "inf", hexadecimal, trailing letters or decimal comma.
std::optional<double> number_from(std::string_view text);

/// The same, but a single decimal comma is taken as a decimal point ("95,1" -> 95.1).
std::optional<double> number_from_with_decimal_comma(std::string_view text);

/// Whether a control character stands in the text (C0, DEL or C1, U+0080 to U+009F) that is no tab and no
/// line end: nothing that belongs into a field, and a command to a terminal.
bool holds_control_character(std::string_view text);
/// The text with each of those as "?": a field that holds none. Nothing else is changed.
std::string without_field_controls(std::string_view text);

/// For a terminal: control characters other than line feed and tab, characters that turn the direction of
/// writing (U+061C, U+200E, U+200F, U+202A to U+202E, U+2066 to U+2069) and bytes that are not UTF-8 become
/// "?". The result is always well-formed UTF-8.
std::string without_controls(std::string_view text);

/// JSON that means the same, with those characters as "\u009b"; bytes that are not UTF-8 become "\ufffd".
std::string json_without_controls(std::string_view json);

/// How many bytes of `text` are left when an unfinished UTF-8 character at its end is cut off.
std::size_t whole_characters(std::string_view text);

/// Foreign text made fit for a message: at most `limit_characters` characters, then "..."; what
/// `without_controls` replaces becomes "?", line feed and tab, too. The result is always well-formed UTF-8.
std::string quotable(std::string_view text, std::size_t limit_characters = 40);

/// Without a leading UTF-8 byte-order mark.
std::string_view without_byte_order_mark(std::string_view text);

/// Lines without their ends (LF, CR LF or CR).
std::vector<std::string_view> lines_of(std::string_view text);

/// Fields of one separated line; double quotes may enclose a field, "" inside them is one quote.
/// Empty when a quote is left open.
std::optional<std::vector<std::string>> fields_of(std::string_view line, char separator);

}  // namespace colorlib
