#pragma once
/// Why a region has no reading: each with cause and cure. None: nothing speaks against it.

#include <colorlib/calibration/calibration.hpp>
#include <colorlib/specimen/reading.hpp>
#include <colorlib/specimen/region_pixels.hpp>
#include <colorlib/specimen/two_colors.hpp>
#include <optional>
#include <string>

namespace colorlib {

/// Too few pixels, beyond the photo, over-exposed.
std::optional<Error> unreadable(const RegionPixels& found, const Region& region);
/// Many pixels at the bottom of their range, where that is not black: `bottom_l` is the L* that it stands
/// for.
std::optional<Error> under_exposed(const RegionPixels& found, double bottom_l, const std::string& id);
/// `own_grounds`: the sheet itself has two.
Error two_separate_colors(const TwoColors& two, const std::string& id, bool own_grounds, const Namer& namer);
Error across_two_grounds(const std::string& id);
/// Mostly glints, or in a light that the paper does not tell.
std::optional<Error> untrustworthy(const CalibratedColor& color, const std::string& id);
/// `off_plane`: the budget's part for the height that was stated.
std::optional<Error> height_says_nothing(const BudgetComponent& off_plane, const Lab& lab,
                                         std::optional<double> height_mm, const std::string& id);
/// Surely lighter than a perfect diffuser.
std::optional<Error> lighter_than_white(const Reading& reading);

}  // namespace colorlib
