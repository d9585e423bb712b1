#pragma once
/// Which of a region's pixels show its surface: no mirrored light, nothing foreign.

#include <colorlib/calibration/calibration.hpp>
#include <colorlib/chart/placement.hpp>
#include <colorlib/image/photo.hpp>
#include <colorlib/specimen/reading.hpp>
#include <colorlib/specimen/sheet_cells_internal.hpp>
#include <colorlib/specimen/two_colors.hpp>
#include <optional>
#include <vector>

namespace colorlib {

/// The pixels' colours without those left out as glints.
std::vector<Lab> matt_colors(const Calibration& calibration, const std::vector<SheetPixel>& pixels,
                             bool glints);

/// Two separate colours of a region that should have one: among `matt`, or of the glints and the rest when
/// the former are one even colour. A white card beside a black one looks mirrored as a whole, but no mirror
/// is even.
std::optional<TwoColors> separate_colors(const Calibration& calibration,
                                         const std::vector<SheetPixel>& pixels, const std::vector<Lab>& matt,
                                         double glint_share);

/// Takes what is neither deposit nor ground out of the pixels; the share taken.
double take_out_foreign(const Calibration& calibration, const OwnColors& own,
                        std::vector<SheetPixel>& pixels);

/// Places of the deposit that was read, small enough to tell thick from thin, without those where it mirrors
/// or lies under something else.
std::vector<Cell> matt_cells(const Photo& photo, const Placement& placement, const Calibration& calibration,
                             const Reading& reading, bool glints);

}  // namespace colorlib
