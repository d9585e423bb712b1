#pragma once
/// By how much, and in which direction, one collector reads differently from the others or from a reference.

#include <colorlib/comparison/consensus.hpp>
#include <cstddef>
#include <string>
#include <vector>

namespace colorlib {

/// What a bias is measured from, and what its interval stands on.
enum class BiasAgainst { reference, others };
enum class BiasBasis {
  items,    ///< three items or more: how much the bias varies from item to item
  repeats,  ///< fewer items, repeated: how much readings of one item vary; says nothing about other items
  too_few,  ///< neither: the bias is described, no interval is given and nothing is judged
};

struct CollectorBias {
  std::size_t participant = 0;
  BiasAgainst against = BiasAgainst::others;
  BiasBasis basis = BiasBasis::too_few;
  std::size_t items = 0, readings = 0;  ///< used
  Vector3 bias{};           ///< mean over the items of (L*, a*, b*): collector's mean - assigned value
  Vector3 standard{};       ///< standard uncertainty of `bias`; 0 when too few
  Vector3 half_width{};     ///< of the 95 % interval of each coordinate by itself; 0 when too few
  Vector3 effective_dof{};  ///< of `standard`; 0 when too few
  double de00 = 0;          ///< mean over the items of dE00(collector's mean, assigned value)
  std::vector<std::string>
      words;  ///< "lighter", "redder", ...: coordinates whose interval leaves out 0, largest first
};

/// The biases of all named collectors, each of `references` being of one item of the table. A collector whose
/// items have references is compared with these only; otherwise with the consensus of the others, item by
/// item.
///
/// The uncertainty has two parts: how far this collector's offset varies from item to item (or from repeat to
/// repeat), and how far what it is measured from may be off: the references' own uncertainty, taken as common
/// to all items; or how far the other collectors' own offsets lie apart. Against the others the bias is that
/// from an average collector. Degrees of freedom: Welch-Satterthwaite. With at least two collectors an entry
/// for each that has anything to be compared with.
std::vector<CollectorBias> biases_of(const RoundTable& table,
                                     const std::vector<std::optional<ReferenceColor>>& references);

/// Words for coordinates whose interval leaves out 0, by size: lighter or darker, redder or greener, yellower
/// or bluer.
std::vector<std::string> bias_words(const Vector3& bias, const Vector3& half_width);

}  // namespace colorlib
