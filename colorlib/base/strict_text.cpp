#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <colorlib/base/strict_text.hpp>

namespace colorlib {

std::string_view trimmed(std::string_view text) {
  const auto first = text.find_first_not_of(" \t\r\n");
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t\r\n") - first + 1);
}

std::optional<double> number_from(std::string_view text) {
  text = trimmed(text);
  if (!text.empty() && text.front() == '+') {
    text.remove_prefix(1);
    if (!text.empty() && text.front() == '-') return std::nullopt;
  }
  if (text.empty() || text.find_first_not_of("0123456789.eE+-") != std::string_view::npos)
    return std::nullopt;
  double value = 0;
  const auto [end, problem] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (problem != std::errc() || end != text.data() + text.size() || !std::isfinite(value))
    return std::nullopt;
  return value;
}

std::optional<double> number_from_with_decimal_comma(std::string_view text) {
  std::string copy(trimmed(text));
  const auto comma = copy.find(',');
  if (comma != std::string::npos) {
    if (copy.find(',', comma + 1) != std::string::npos || copy.find('.') != std::string::npos)
      return std::nullopt;
    copy[comma] = '.';
  }
  return number_from(copy);
}

namespace {

/// The length of the well-formed UTF-8 character at the front of `text`, or 0.
std::size_t character_length(std::string_view text) {
  const auto byte = [&text](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned char lead = byte(0);
  if (lead < 0x80) return 1;
  const std::size_t length = lead >= 0xC2 && lead < 0xE0   ? 2
                             : lead >= 0xE0 && lead < 0xF0 ? 3
                             : lead >= 0xF0 && lead < 0xF5 ? 4
                                                           : 0;
  if (length == 0 || text.size() < length) return 0;
  for (std::size_t i = 1; i < length; ++i)
    if ((byte(i) & 0xC0) != 0x80) return 0;
  // Overlong forms, surrogates, and beyond U+10FFFF.
  if ((lead == 0xE0 && byte(1) < 0xA0) || (lead == 0xED && byte(1) > 0x9F) ||
      (lead == 0xF0 && byte(1) < 0x90) || (lead == 0xF4 && byte(1) > 0x8F))
    return 0;
  return length;
}

/// The code point of a well-formed character.
unsigned code_point(std::string_view character) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(character[i]); };
  if (character.size() == 1) return byte(0);
  unsigned code = byte(0) & (0x7Fu >> character.size());
  for (std::size_t i = 1; i < character.size(); ++i) code = code << 6 | (byte(i) & 0x3Fu);
  return code;
}

bool is_control(unsigned code) { return code < ' ' || (code >= 0x7F && code <= 0x9F); }

bool turns_direction(unsigned code) {
  return code == 0x061C || code == 0x200E || code == 0x200F || (code >= 0x202A && code <= 0x202E) ||
         (code >= 0x2066 && code <= 0x2069);
}

/// Bytes that are not UTF-8 stand for this one.
constexpr unsigned replacement_character = 0xFFFD;

bool fits_no_field(unsigned code) { return is_control(code) && code != '\n' && code != '\r' && code != '\t'; }

/// Calls `visit(character, code point)` for each until it returns false; returns whether it never did.
template <class Visit>
bool each_character(std::string_view text, const Visit& visit) {
  while (!text.empty()) {
    const std::size_t length = character_length(text);
    const std::string_view character = text.substr(0, std::max<std::size_t>(length, 1));
    if (!visit(character, length > 0 ? code_point(character) : replacement_character)) return false;
    text.remove_prefix(character.size());
  }
  return true;
}

/// The text with every control character but line feed and tab, every turn of direction and every byte that
/// is not UTF-8 as `replace` has it.
template <class Replace>
std::string replaced(std::string_view text, const Replace& replace) {
  std::string result;
  result.reserve(text.size());
  while (!text.empty()) {
    const std::size_t length = character_length(text);
    const std::string_view character = text.substr(0, std::max<std::size_t>(length, 1));
    const unsigned code = length > 0 ? code_point(character) : replacement_character;
    const bool kept =
        length > 0 && (code == '\n' || code == '\t' || !(is_control(code) || turns_direction(code)));
    if (kept)
      result += character;
    else
      result += replace(code);
    text.remove_prefix(character.size());
  }
  return result;
}

}  // namespace

bool holds_control_character(std::string_view text) {
  return !each_character(text, [](std::string_view, unsigned code) { return !fits_no_field(code); });
}

std::string without_field_controls(std::string_view text) {
  std::string result;
  result.reserve(text.size());
  each_character(text, [&](std::string_view character, unsigned code) {
    result += fits_no_field(code) ? std::string_view("?") : character;
    return true;
  });
  return result;
}

std::string without_controls(std::string_view text) {
  return replaced(text, [](unsigned) { return std::string_view("?"); });
}

std::string json_without_controls(std::string_view json) {
  return replaced(json, [](unsigned code) { return fmt::format("\\u{:04x}", code); });
}

std::size_t whole_characters(std::string_view text) {
  constexpr std::size_t longest = 4;
  for (std::size_t back = 1; back < longest && back <= text.size(); ++back) {
    const auto byte = static_cast<unsigned char>(text[text.size() - back]);
    if ((byte & 0xC0) == 0x80) continue;
    const std::size_t announced = byte >= 0xF0 ? 4 : byte >= 0xE0 ? 3 : byte >= 0xC0 ? 2 : 1;
    return announced > back ? text.size() - back : text.size();
  }
  return text.size();
}

std::string quotable(std::string_view text, std::size_t limit_characters) {
  std::string result;
  for (std::size_t count = 0; !text.empty(); ++count) {
    if (count == limit_characters) return result + "...";
    const std::size_t length = character_length(text);
    const std::string_view character = text.substr(0, std::max<std::size_t>(length, 1));
    result += character == "\n" || character == "\t" ? std::string("?") : without_controls(character);
    text.remove_prefix(character.size());
  }
  return result;
}

std::string_view without_byte_order_mark(std::string_view text) {
  return text.substr(0, 3) == "\xEF\xBB\xBF" ? text.substr(3) : text;
}

std::vector<std::string_view> lines_of(std::string_view text) {
  std::vector<std::string_view> lines;
  while (!text.empty()) {
    const auto end = text.find_first_of("\r\n");
    lines.push_back(text.substr(0, end));
    if (end == std::string_view::npos) break;
    const bool crlf = text[end] == '\r' && end + 1 < text.size() && text[end + 1] == '\n';
    text.remove_prefix(end + (crlf ? 2 : 1));
  }
  return lines;
}

std::optional<std::vector<std::string>> fields_of(std::string_view line, char separator) {
  std::vector<std::string> fields(1);
  bool quoted = false;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const char c = line[i];
    if (c == '"') {
      if (quoted && i + 1 < line.size() && line[i + 1] == '"') {
        fields.back() += '"';
        ++i;
      } else {
        quoted = !quoted;
      }
    } else if (c == separator && !quoted) {
      fields.emplace_back();
    } else {
      fields.back() += c;
    }
  }
  if (quoted) return std::nullopt;
  for (auto& field : fields) field = std::string(trimmed(field));
  return fields;
}

}  // namespace colorlib
