#pragma once
/// Blur of the lens and noise of the sensor.

#include <colorlib/base/image.hpp>

#include "tests/scenes/random.hpp"

namespace colorlib::scenes {

/// Gaussian blur in place, edges continued; any number of channels.
void blur(ImageF& image, double sd_px);
/// Adds shot noise (variance value / full_well) and read noise (electrons), clips at full scale 1 from above
/// and -0.01 below.
void add_sensor_noise(ImageF& image, double full_well, double read_noise, Random& random);

}  // namespace colorlib::scenes
