#include <colorlib/colorimetry/chromatic_adaptation.hpp>
