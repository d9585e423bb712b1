#pragma once
/// How far, in dE00, a colour lies from the nearest colour that bears a name.

#include <colorlib/colorimetry/color_types.hpp>
#include <colorlib/naming/color_names.hpp>
#include <colorlib/naming/munsell_renotation.hpp>
#include <vector>

namespace colorlib {

/// One name of a level and its distance.
struct NameDistance {
  std::size_t name_index = 0;  ///< in ColorNames::names_at(level)
  double de00 = 0;             ///< to the nearest colour of the name
};

/// Distances from one colour to the regions of the names. The regions are the boxes of Munsell space,
/// continued along the published extrapolation of the renotation. Each distance is the smallest found by a
/// search in each box, from its point nearest in Munsell coordinates; within 0.05 dE00 of a fine scan
/// (tested).
class NameDistances {
 public:
  /// `lab` D50, 2 degree. The tables must outlive this value.
  NameDistances(const Lab& lab, const MunsellRenotation& renotation, const ColorNames& names);

  /// The distance to one name; 0 when `lab` bears it.
  double to_name(std::size_t name_index, NameLevel level) const;
  /// The nearest name other than this one; at 0 when the colour's own name is another.
  NameDistance to_other_than(std::size_t name_index, NameLevel level) const;
  /// Every name within `limit_de00`, nearest first; the colour's own name at 0.
  std::vector<NameDistance> within(double limit_de00, NameLevel level) const;

 private:
  struct Candidate {
    const NameCell* cell;
    Munsell start;
    double start_de00;
  };
  double difference_at(const Munsell& munsell) const;
  double searched(const Candidate& candidate) const;

  Lab lab_;
  const MunsellRenotation* renotation_;
  const ColorNames* names_;
  int own_block_ = 1;
  std::vector<Candidate> candidates_;  ///< nearest start first
};

}  // namespace colorlib
