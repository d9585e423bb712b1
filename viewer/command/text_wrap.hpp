#pragma once
/// Words broken into lines for a terminal.

#include <cstddef>
#include <string>
#include <string_view>

namespace tintfall {

/// `text` (UTF-8) broken at spaces so that no line passes column `columns`; the first line starts at column
/// `first`, the others are indented by `indent` spaces. Runs of spaces inside a line are kept; a word longer
/// than a line stands alone.
std::string wrapped(std::string_view text, std::size_t first, std::size_t indent, std::size_t columns = 100);

/// What stands under every help and every result.
std::string caution_text();
/// What stands besides in the help of what reads reagent spots.
std::string reagent_caution_text();

}  // namespace tintfall
