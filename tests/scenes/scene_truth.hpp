#pragma once
/// What a perfect instrument would say of each specimen.

#include <functional>
#include <vector>

#include "tests/scenes/specimen_surface.hpp"

namespace colorlib::scenes {

/// Truth of every specimen's region. One that lies across two grounds gives two, "A-left" and "A-right", each
/// wholly on its ground.
std::vector<SpecimenTruth> specimen_truths(const std::vector<SpecimenSurface>& specimens,
                                           const std::vector<Ground>& grounds, const FoilSurface& foil,
                                           const std::function<std::size_t(double, double)>& ground_at);

}  // namespace colorlib::scenes
