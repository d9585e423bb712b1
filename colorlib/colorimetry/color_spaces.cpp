#include <colorlib/colorimetry/color_spaces.hpp>
