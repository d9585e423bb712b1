#pragma once
#include "tests/scenes/tone_curves.hpp"

namespace colorlib::scenes::held_out {
/// Only the accuracy tests may use these; no constant of the method may be chosen with them.
ToneCurve random_tone_curve(Random& random);
}  // namespace colorlib::scenes::held_out
