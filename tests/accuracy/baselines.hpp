#pragma once
/// What careful use of general methods makes of the same photographs: one correction fitted to the patches of
/// the sheet, with the true places of patches and regions handed to it. Written plainly, from the literature,
/// to have something to be better than.

#include <string>
#include <vector>

#include "tests/accuracy/accuracy_run.hpp"

namespace colorlib::accuracy {

/// How the photo's values are made proportional to light first.
enum class Linearisation {
  as_encoded,
  grey_ramp
};  ///< sRGB curve (linear photos: none); or the curve the neutrals show
/// What is fitted from there to XYZ.
enum class Regression { grey_balance, matrix, matrix_offset, root_2, root_3, polynomial_2, polynomial_3 };

struct Baseline {
  Linearisation linearisation = Linearisation::as_encoded;
  Regression regression = Regression::matrix;
  bool flat_field = false;  ///< the picture divided by the true picture of bare paper first
};
std::string baseline_name(const Baseline& baseline);
/// Every combination; linear photos need no second linearisation.
std::vector<Baseline> all_baselines(bool linear);

struct BaselineRun {
  Baseline baseline;
  std::vector<double> de00;  ///< of every region, plain mean of its pixels
};

/// The same scenes as `run_condition` renders for these settings.
std::vector<BaselineRun> run_baselines(scenes::Condition condition, const RunSettings& settings);

}  // namespace colorlib::accuracy
