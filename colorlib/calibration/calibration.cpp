#include <colorlib/calibration/calibration.hpp>
