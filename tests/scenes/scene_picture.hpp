#pragma once
/// Pictures of scenes for people to look at.

#include <string>

#include "tests/scenes/scene.hpp"

namespace colorlib::scenes {

/// The photo as a PNG file: phones as they are, linear photos through balance, matrix and the sRGB curve.
std::string png_of(const Scene& scene);
/// A linear photo as a DNG file, mosaiced (RGGB) or with three values a pixel; the camera's matrix and
/// as-shot white are in it. Throws std::runtime_error for a phone's photo.
std::string dng_of(const SceneSettings& settings, const Scene& scene, bool mosaic);
/// Any 8-bit picture (1 or 3 channels) as a PNG file.
std::string png_of(const Image8& image);
/// Another picture size, 4:3; blur, decentring and noise grain keep their look in px.
void set_picture_width(SceneSettings& settings, int width_px);

}  // namespace colorlib::scenes
