#include <fmt/format.h>

#include <colorlib/base/strict_text.hpp>
#include <viewer/command/corner_options.hpp>

namespace tintfall {

using namespace colorlib;

Result<std::array<PointPx, 4>> corners_from(const std::vector<std::string>& texts) {
  std::array<PointPx, 4> corners;
  for (std::size_t i = 0; i < corners.size(); ++i) {
    const auto fields = fields_of(texts[i], ',');
    const auto x = fields && fields->size() == 2 ? number_from((*fields)[0]) : std::nullopt;
    const auto y = fields && fields->size() == 2 ? number_from((*fields)[1]) : std::nullopt;
    if (!x || !y)
      return fail(ErrorCode::bad_call,
                  fmt::format("The corner '{}' is not of the form x,y in pixels.", texts[i]),
                  "Write four corners, for example --corners 120,80 3800,95 3790,2900 130,2880.");
    corners[i] = {*x, *y};
  }
  return corners;
}

}  // namespace tintfall
