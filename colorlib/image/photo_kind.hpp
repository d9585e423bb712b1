#pragma once
/// Whether bytes begin as a photograph does, without decoding it.

#include <string_view>

namespace colorlib {

/// True for the beginnings of JPEG, PNG, TIFF, camera raw and HEIF, told by content.
bool begins_like_a_photo(std::string_view bytes);

}  // namespace colorlib
