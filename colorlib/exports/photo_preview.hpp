#pragma once
/// A photograph made small, as a picture for the screen.

#include <colorlib/base/image.hpp>
#include <colorlib/image/photo.hpp>

namespace colorlib {

/// 8-bit sRGB, 3 channels, upright, long side `longest_px` (or the photo's own when that is shorter); each
/// pixel is the mean of the ones it covers. Linear photos are developed: camera matrix, bright end (99 %
/// quantile of the mean channel) to white, sRGB curve. Works in strips: needs no second copy of the photo.
/// `longest_px` >= 1; an empty photo gives an empty picture.
Image8 photo_preview(const Photo& photo, int longest_px);

}  // namespace colorlib
