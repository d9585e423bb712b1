#pragma once
/// Why a photo may show no chart: what a look at the whole picture tells.

#include <colorlib/image/photo.hpp>
#include <string>

namespace colorlib {

struct PhotoFaults {
  double white_share = 0;  ///< of the photo, at the top of the range
  double black_share = 0;  ///< of the photo, below 1 % of linear light
  double sharpest_spread_px =
      0;  ///< standard deviation of the sharpest borders' spread, px of the photo; rough
  bool overexposed = false, underexposed = false, blurred = false, featureless = false;
};

PhotoFaults faults_of(const Photo& photo);

/// One clause and one piece of advice for the worst of them; empty strings when the photo looks sound.
struct FaultWords {
  std::string clause, advice;
};
FaultWords words_for(const PhotoFaults& faults);

}  // namespace colorlib
