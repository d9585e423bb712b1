#pragma once
/// What lies in a deposit's region and is neither deposit nor ground: soil, a smear of another deposit.

#include <colorlib/colorimetry/color_types.hpp>
#include <optional>
#include <span>

namespace colorlib {

/// What counts as foreign; the project's own choice, on simulated deposits.
struct ForeignLimits {
  double least_lab = 10;          ///< Lab units from the deposit's middle
  double spreads = 5;             ///< and standard deviations of the deposit's own colours
  double beside_ground_lab = 6;   ///< further than this from every mixture of deposit and ground
  double near_share = 0.6;        ///< of the first two limits: from here to them pixels lie between
  double most_between = 0.6;      ///< of the number beyond: more, and they are the deposit's own uneven edge
  double most_share = 0.2;        ///< of the region: more can no longer be told from the deposit itself
  std::size_t least_pixels = 40;  ///< fewer are too few to learn from
};

/// The colours that a deposit has of its own accord: a middle and a spread that a quarter of foreign pixels
/// cannot move (the concentration steps of the minimum covariance determinant [RD1999]), and the mixtures
/// with its bare ground.
class OwnColors {
 public:
  /// From all pixels of a region and the colour (XYZ, D50) of its matt ground. None: nothing foreign lies
  /// there, too few pixels or too many foreign ones to tell, or no gap between what is foreign and the rest.
  static std::optional<OwnColors> beside_foreign(std::span<const Lab> pixels, const Xyz& ground,
                                                 const ForeignLimits& limits = {});
  bool foreign(const Lab& lab) const { return strangeness(lab) > 1; }

 private:
  /// How far from the deposit's own colours, in units of the limits; 0 for mixtures with the ground.
  double strangeness(const Lab& lab) const;

  Lab middle_;
  Matrix3 inverse_spread_{};
  Xyz ground_;
  ForeignLimits limits_;
};

}  // namespace colorlib
