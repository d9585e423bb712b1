#pragma once
/// Which of a photo's samples the fit is given, and how far each is believed beforehand.

#include <colorlib/calibration/model_fit_internal.hpp>
#include <colorlib/chart/patch_sampler.hpp>
#include <colorlib/chart/reference_values.hpp>
#include <vector>

namespace colorlib {

struct UsableSamples {
  FitInput input;
  std::vector<std::size_t> patches;  ///< of each row of `input.patches`: index into the definition
  std::vector<double> trust;         ///< of each row: variance of an even patch over that of this one, (0, 1]
  int light_neutrals = 0;            ///< how many rows may tell about the light
  double most_chroma = 0;            ///< largest range between the channels of a row, encoded value
};

/// Patches that were not dropped, with the paper of one or two sheets.
UsableSamples usable_samples(const SheetSamples& samples, const ReferenceValues& reference,
                             bool display_referred, const FitConstants& constants);

}  // namespace colorlib
