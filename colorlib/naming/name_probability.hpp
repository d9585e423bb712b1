#pragma once
/// How likely each name is, given what a reading leaves open.

#include <colorlib/colorimetry/color_types.hpp>
#include <colorlib/naming/color_names.hpp>
#include <colorlib/naming/munsell_renotation.hpp>
#include <vector>

namespace colorlib {

/// One block and the share of a distribution that falls in it.
struct BlockShare {
  int block = 0;           ///< 1 to 267
  double probability = 0;  ///< (0, 1]
};

/// The blocks that the colours of `distribution` (see distribution_of) fall in, in order of their numbers.
/// The shares sum to 1.
std::vector<BlockShare> block_shares(const std::vector<Lab>& distribution,
                                     const MunsellRenotation& renotation, const ColorNames& names);

/// One name of a level and its share.
struct NameProbability {
  std::size_t name_index = 0;  ///< in ColorNames::names_at(level)
  double probability = 0;
};

/// The shares of the names of a level, the most probable first; equal ones in the order of the table.
std::vector<NameProbability> name_probabilities(const std::vector<BlockShare>& shares,
                                                const ColorNames& names, NameLevel level);

}  // namespace colorlib
