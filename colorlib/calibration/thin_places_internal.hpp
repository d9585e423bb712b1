#pragma once
/// Thin places of a deposit, which look like mirrored light and are not.

#include <Eigen/Dense>
#include <vector>

namespace colorlib {

/// Takes back from `specular` what a matt ground shining through explains: pixels of `xyz` that lie between
/// the colour of the rest (the median of those not flagged) and `ground` in X, Y and Z alike, with a tenth to
/// spare. A film thins towards its ground on a path that bends with its pigment, much as if white light were
/// added to it; but nothing on a matt ground shines brighter than the ground. Without this the palest places
/// of a thin film are left out, and it reads too dark. Where the ground itself lies bare, between gills, it
/// is no part of the deposit: if more than 2 % of what is flagged come within three tenths of the way to the
/// ground's own colour, all stays out (a film thin enough for that has the ground's colour nearly everywhere,
/// and then little is flagged).
void keep_thin_places(std::vector<bool>& specular, const std::vector<Eigen::Vector3d>& xyz,
                      const Eigen::Vector3d& ground);

}  // namespace colorlib
