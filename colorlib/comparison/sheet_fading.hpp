#pragma once
/// One printed sheet measured twice, months apart: which of its patches have changed.

#include <colorlib/base/result.hpp>
#include <colorlib/chart/chart_definition.hpp>
#include <colorlib/chart/reference_values.hpp>
#include <colorlib/comparison/agreement.hpp>
#include <string>
#include <vector>

namespace colorlib {

enum class PatchChange { unchanged, undecided, changed };
std::string_view patch_change_word(PatchChange change);

struct PatchFading {
  std::string id;
  Lab before, after;
  double de00 = 0;
  double de00_expanded = 0;  ///< of the difference, as Agreement has it
  PatchChange change = PatchChange::undecided;
};

struct FadingRule {
  /// That chance alone calls any patch of an unchanged sheet changed. Each patch is tested at its share of it
  /// (Bonferroni).
  double false_alarm = 0.05;
  /// A patch that has moved by more makes the sheet one to print again: what it moves between two
  /// measurements is then no longer small against readings. The project's own choice.
  double reprint_de00 = 5;
  /// So does half of the patches moving by more than this.
  double reprint_median_de00 = 2;
};

/// What to do with the sheet.
enum class FadingAdvice { keep, use_newer_values, reprint };
std::string_view fading_advice_word(FadingAdvice advice);

struct SheetFading {
  std::vector<PatchFading> patches;  ///< in the chart's order
  std::size_t changed = 0, undecided = 0;
  double median_de00 = 0, worst_de00 = 0;
  FadingAdvice advice = FadingAdvice::keep;
  std::vector<std::string> remarks;
};

/// `before` and `after` are of one sheet of `chart`. A patch is `changed` when its difference is more than
/// chance and the stated uncertainties explain; `unchanged` when it truly lies within dE00 2 with a
/// probability of 95 %. Uncertainties are taken as independent: what both measurements have in common makes
/// the statement careful. Errors: bad_call (nominal values, the same values twice, `after` created before
/// `before`).
Result<SheetFading> sheet_fading(const ReferenceValues& before, const ReferenceValues& after,
                                 const FadingRule& rule = {});

}  // namespace colorlib
