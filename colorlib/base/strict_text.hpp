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

/// Foreign text made fit for a message: at most `limit_characters` characters, then "..."; control characters
/// and bytes that are not UTF-8 become "?". The result is always well-formed UTF-8.
std::string quotable(std::string_view text, std::size_t limit_characters = 40);

/// Without a leading UTF-8 byte-order mark.
std::string_view without_byte_order_mark(std::string_view text);

/// Lines without their ends (LF, CR LF or CR).
std::vector<std::string_view> lines_of(std::string_view text);

/// Fields of one separated line; double quotes may enclose a field, "" inside them is one quote.
/// Empty when a quote is left open.
std::optional<std::vector<std::string>> fields_of(std::string_view line, char separator);

}  // namespace colorlib
