#pragma once
/// Files that pictures are written to, by their ending.

#include <colorlib/base/result.hpp>
#include <string_view>

namespace colorlib {

enum class PictureFormat { svg, pdf, png };

/// ".svg", ".pdf" or ".png" at the end of a file name, in any case. Errors: bad_call, naming `option`.
Result<PictureFormat> picture_format_of(std::string_view file, std::string_view option);

}  // namespace colorlib
