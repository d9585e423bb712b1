#pragma once
/// What one collector's records say that the others' do not.

#include <colorlib/comparison/round_table.hpp>
#include <string>
#include <vector>

namespace colorlib {

/// Facts from the records of `participant` beside those of all others, one phrase each: "photo: raw (others:
/// developed by the camera or a program)". Traits are listed when the value is said by no other participant;
/// the unevenness of the light and the check of the sheet when their mean is more than half as much again as
/// the median of the others; flags when most of this participant's readings carry them and no other's do.
/// They stand beside a bias; none is claimed to be its cause.
std::vector<std::string> record_differences(const RoundTable& table, std::size_t participant);

}  // namespace colorlib
