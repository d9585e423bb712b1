#include <fmt/format.h>

#include <algorithm>
#include <colorlib/base/distribution_quantiles.hpp>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/comparison/sheet_fading.hpp>

namespace colorlib {
namespace {

UncertainColor color_of(const PatchReference& patch) {
  const auto& u = patch.standard_uncertainty;
  return {patch.lab, Matrix3::diagonal(u[0] * u[0], u[1] * u[1], u[2] * u[2])};
}

bool same_values(const ReferenceValues& a, const ReferenceValues& b) {
  return std::equal(a.patches.begin(), a.patches.end(), b.patches.begin(), b.patches.end(),
                    [](const PatchReference& x, const PatchReference& y) { return x.lab == y.lab; });
}

bool is_day(const std::string& text) {
  if (text.size() < 10 || text[4] != '-' || text[7] != '-') return false;
  for (const std::size_t i : {0, 1, 2, 3, 5, 6, 8, 9})
    if (text[i] < '0' || text[i] > '9') return false;
  return true;
}

Result<std::monostate> checked(const ReferenceValues& before, const ReferenceValues& after) {
  if (before.kind == ReferenceKind::nominal || after.kind == ReferenceKind::nominal)
    return fail(ErrorCode::bad_call,
                "Comparing two measurements of a sheet: nominal values are no measurement.",
                "Name two files of reference values of this sheet.");
  if (before.patches.size() != after.patches.size() || before.patches.empty())
    return fail(ErrorCode::bad_call,
                fmt::format("Comparing two measurements of a sheet: one has {} patches and the other {}.",
                            before.patches.size(), after.patches.size()),
                "Name two files of the same chart.");
  if (same_values(before, after))
    return fail(ErrorCode::bad_call,
                "Comparing two measurements of a sheet: both files hold the very same values.",
                "Name an older and a newer measurement.");
  if (is_day(before.created) && is_day(after.created) &&
      before.created.substr(0, 10) > after.created.substr(0, 10))
    return fail(
        ErrorCode::bad_call,
        fmt::format("Comparing two measurements of a sheet: the first was made on {} and the second on {}.",
                    quotable(before.created.substr(0, 10)), quotable(after.created.substr(0, 10))),
        "Name the older file first.");
  return std::monostate{};
}

}  // namespace

std::string_view patch_change_word(PatchChange change) {
  switch (change) {
    case PatchChange::unchanged:
      return "unchanged";
    case PatchChange::changed:
      return "changed";
    case PatchChange::undecided:
      break;
  }
  return "undecided";
}

std::string_view fading_advice_word(FadingAdvice advice) {
  switch (advice) {
    case FadingAdvice::keep:
      return "keep";
    case FadingAdvice::use_newer_values:
      return "use-newer-values";
    case FadingAdvice::reprint:
      break;
  }
  return "reprint";
}

Result<SheetFading> sheet_fading(const ReferenceValues& before, const ReferenceValues& after,
                                 const FadingRule& rule) {
  if (const auto sound = checked(before, after); !sound) return fail(sound.error());
  SheetFading fading;
  const double count = static_cast<double>(before.patches.size());
  const double limit = chi_squared_quantile(1 - rule.false_alarm / count, 3);
  std::vector<double> sizes;
  for (std::size_t i = 0; i < before.patches.size(); ++i) {
    const UncertainColor old_color = color_of(before.patches[i]), new_color = color_of(after.patches[i]);
    const Agreement agreement = agreement_between(old_color, new_color);
    PatchFading patch{before.patches[i].id, before.patches[i].lab, after.patches[i].lab, agreement.de00,
                      agreement.de00_expanded};
    if (difference_statistic(old_color, new_color) > limit)
      patch.change = PatchChange::changed;
    else if (agreement.verdict == Verdict::same)
      patch.change = PatchChange::unchanged;
    fading.changed += patch.change == PatchChange::changed;
    fading.undecided += patch.change == PatchChange::undecided;
    sizes.push_back(patch.de00);
    fading.patches.push_back(std::move(patch));
  }
  std::sort(sizes.begin(), sizes.end());
  fading.median_de00 = sizes[sizes.size() / 2];
  fading.worst_de00 = sizes.back();
  const bool far = std::any_of(fading.patches.begin(), fading.patches.end(), [&](const PatchFading& patch) {
    return patch.change == PatchChange::changed && patch.de00 > rule.reprint_de00;
  });
  const bool many =
      2 * fading.changed > fading.patches.size() && fading.median_de00 > rule.reprint_median_de00;
  if (fading.changed > 0)
    fading.advice = far || many ? FadingAdvice::reprint : FadingAdvice::use_newer_values;
  if (before.measurement_source != after.measurement_source)
    fading.remarks.push_back(
        "The two files were not measured against the same known values: a difference common to all patches "
        "may be theirs.");
  return fading;
}

}  // namespace colorlib
