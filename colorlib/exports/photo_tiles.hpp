#pragma once
/// Parts of a photo as pictures for one screen: as taken, calibrated, or as the difference from a colour.

#include <colorlib/base/image.hpp>
#include <colorlib/calibration/calibration.hpp>
#include <colorlib/chart/placement.hpp>
#include <colorlib/colorimetry/display_transform.hpp>
#include <colorlib/image/photo_pyramid.hpp>

namespace colorlib {

/// How a photo is looked at.
enum class PhotoRendering {
  as_taken,    ///< as the camera developed it; linear photos by the camera's matrix, bright end to white
  calibrated,  ///< every pixel through the calibration: all photos under one white
  difference,  ///< dE00 of every calibrated pixel from one colour, as a scale from dark (0) to pale
};

struct TileRequest {
  PhotoRendering rendering = PhotoRendering::as_taken;
  int level = 0;
  PixelRectangle rectangle;     ///< in pixels of the level
  Lab difference_from;          ///< D50; of the difference rendering
  double difference_full = 10;  ///< dE00 that is shown as the scale's pale end
  double bright_end = 1;        ///< of linear photos as taken: the linear value that shows as white
};

/// The tile's pixels, 3 channels, and whether any of them is duller on this screen than it was measured.
struct PhotoTile {
  Image8 pixels;
  Image8 clipped;  ///< 1 channel, 1 where soft-clipped; empty when nothing was, and in the other renderings
};

/// 99 % quantile of the mean channel of a linear photo's smallest level after the camera's matrix; 1 for
/// developed photos.
double bright_end_of(const PhotoPyramid& pyramid);

/// `placement` and `calibration` may be null for PhotoRendering::as_taken.
PhotoTile photo_tile(const PhotoPyramid& pyramid, const Placement* placement, const Calibration* calibration,
                     const TileRequest& request, const DisplayTransform& display);

/// The colour that stands for a share (0 to 1) of the difference scale: lightness rises steadily from L* 12
/// to 96 while hue goes once from blue to yellow, so that it reads without colour vision and in grey print.
/// sRGB.
void difference_scale_color(double share, float* srgb);

}  // namespace colorlib
