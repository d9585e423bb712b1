#include <colorlib/colorimetry/icc.hpp>
