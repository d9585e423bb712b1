#include <algorithm>
#include <colorlib/base/cautions.hpp>
#include <viewer/command/text_wrap.hpp>

namespace tintfall {
namespace {

/// Characters, not bytes: continuation bytes of UTF-8 do not count.
std::size_t columns_of(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(
      text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

}  // namespace

std::string wrapped(std::string_view text, std::size_t first, std::size_t indent, std::size_t columns) {
  std::string result;
  std::size_t column = first;
  bool line_has_word = false;
  while (!text.empty()) {
    const std::size_t word_start = std::min(text.find_first_not_of(' '), text.size());
    const std::size_t word_end = std::min(text.find(' ', word_start), text.size());
    const std::string_view gap = text.substr(0, word_start),
                           word = text.substr(word_start, word_end - word_start);
    text.remove_prefix(word_end);
    if (word.empty()) break;
    if (line_has_word && column + gap.size() + columns_of(word) > columns) {
      result.append("\n").append(indent, ' ');
      column = indent;
    } else if (line_has_word) {
      result.append(gap);
      column += gap.size();
    }
    result.append(word);
    column += columns_of(word);
    line_has_word = true;
  }
  return result;
}

std::string caution_text() {
  std::string text("Caution: ");
  text.append(colorlib::caution_safety).append(" ").append(colorlib::caution_names);
  return wrapped(text, 0, 0);
}

std::string reagent_caution_text() {
  std::string text(colorlib::caution_reagents);
  text.append(" ").append(colorlib::caution_contamination);
  return wrapped(text, 0, 0);
}

}  // namespace tintfall
