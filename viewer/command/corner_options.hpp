#pragma once
/// A sheet's corners as typed: x,y in pixels.

#include <array>
#include <colorlib/base/result.hpp>
#include <colorlib/chart/geometry.hpp>
#include <string>
#include <vector>

namespace tintfall {

/// Four texts "x,y". Errors: bad_call.
colorlib::Result<std::array<colorlib::PointPx, 4>> corners_from(const std::vector<std::string>& texts);

}  // namespace tintfall
