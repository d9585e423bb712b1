#pragma once
/// Pixels of colorlib as Qt's.

#include <QImage>
#include <colorlib/base/image.hpp>

namespace tintfall::viewer {

/// A copy; three channels of sRGB, or of whatever screen they were made for.
QImage image_from(const colorlib::Image8& pixels);

}  // namespace tintfall::viewer
