#include <colorlib/colorimetry/spectrum.hpp>
