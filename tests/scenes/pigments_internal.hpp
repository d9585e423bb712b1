#pragma once
#include <vector>

#include "tests/scenes/pigments.hpp"

namespace colorlib::scenes {

std::vector<PigmentFamily> tuning_pigments();
std::vector<PigmentFamily> broad_pigments();
namespace held_out {
/// Only the accuracy tests may use these; no constant of the method may be chosen with them.
std::vector<PigmentFamily> pigments();
}  // namespace held_out

}  // namespace colorlib::scenes
