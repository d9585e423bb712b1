#include <colorlib/colorimetry/color_difference.hpp>
