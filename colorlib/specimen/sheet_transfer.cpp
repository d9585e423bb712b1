#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/base/median.hpp>
#include <colorlib/calibration/calibration.hpp>
#include <colorlib/chart/patch_sampler.hpp>
#include <colorlib/specimen/another_print.hpp>
#include <colorlib/specimen/sheet_transfer.hpp>
#include <set>

namespace colorlib {
namespace {

constexpr double least_standard_uncertainty = 0.05;  // of a value that is written with two decimals
constexpr double often_outlier_share = 1.0 / 3;      // of the patches: then it is the photo, not the patches

/// How both sheets lie in one plane, and the smallest rectangle that holds them, upright as the known sheet
/// is.
struct Table {
  PointMm origin;  ///< of the rectangle, in the known sheet's mm
  double width_mm = 0, height_mm = 0;
  Placement known;            ///< the rectangle's mm -> px
  Placement known_mm, other;  ///< each sheet's own mm -> px

  PointMm from_known(const PointMm& p) const { return {p.x - origin.x, p.y - origin.y}; }
  PointMm from_other(const PointMm& p) const { return from_known(known_mm.mm_from_px(other.px_from_mm(p))); }
};

Table table_of(const TwoSheets& found, const TransferSheets& sheets) {
  Table table;
  table.known_mm = found.known.placement;
  table.other = found.other.placement;
  double left = 0, top = 0, right = sheets.known.width_mm, bottom = sheets.known.height_mm;
  const double w = sheets.printed.width_mm, h = sheets.printed.height_mm;
  for (const PointMm corner : {PointMm{0, 0}, PointMm{w, 0}, PointMm{w, h}, PointMm{0, h}}) {
    const PointMm p = table.from_other(corner);
    left = std::min(left, p.x);
    top = std::min(top, p.y);
    right = std::max(right, p.x);
    bottom = std::max(bottom, p.y);
  }
  table.origin = {left, top};
  table.width_mm = right - left;
  table.height_mm = bottom - top;
  table.known = table.known_mm;
  Matrix3 shift = Matrix3::identity();
  shift(0, 2) = left;
  shift(1, 2) = top;
  table.known.homography = table.known_mm.homography * shift;
  return table;
}

double distance_mm(const PointMm& p, double width_mm, double height_mm) {
  return std::hypot(std::max({0.0, -p.x, p.x - width_mm}), std::max({0.0, -p.y, p.y - height_mm}));
}

/// The shortest way from the printed sheet's border to the known sheet.
double gap_of(const Table& table, const TransferSheets& sheets) {
  double gap = INFINITY;
  constexpr int steps = 20;
  const double w = sheets.printed.width_mm, h = sheets.printed.height_mm;
  for (int i = 0; i <= steps; ++i) {
    const double x = w * i / steps, y = h * i / steps;
    for (const PointMm p : {PointMm{x, 0}, PointMm{x, h}, PointMm{0, y}, PointMm{w, y}}) {
      const PointMm there = table.from_other(p);
      gap = std::min(gap, distance_mm({there.x + table.origin.x, there.y + table.origin.y},
                                      sheets.known.width_mm, sheets.known.height_mm));
    }
  }
  return gap;
}

SheetSide side_of(const Table& table, const TransferSheets& sheets) {
  const PointMm centre = table.from_other({sheets.printed.width_mm / 2, sheets.printed.height_mm / 2});
  const double dx = (centre.x + table.origin.x - sheets.known.width_mm / 2) / sheets.known.width_mm,
               dy = (centre.y + table.origin.y - sheets.known.height_mm / 2) / sheets.known.height_mm;
  if (std::abs(dx) > std::abs(dy)) return dx > 0 ? SheetSide::right : SheetSide::left;
  return dy > 0 ? SheetSide::below : SheetSide::above;
}

Reading patch_reading(const PatchSample& sample, const Patch& patch, const PointMm& place,
                      const Calibration& calibration, const TransferOptions& options) {
  Reading reading;
  reading.id = patch.id;
  if (sample.dropped) {
    reading.refused = Error{
        ErrorCode::untrustworthy, fmt::format("Patch '{}' cannot be used: {}.", patch.id, *sample.dropped),
        "Clean the sheet, keep glare and shadow off it, and expose less if patches are clipped."};
    return reading;
  }
  const SheetPixel mean{place, sample.encoded};
  const CalibratedColor color = calibration.color_of({&mean, 1}, Surface::printed);
  reading.lab = color.lab;
  reading.pixels = static_cast<std::size_t>(sample.pixels);
  for (BudgetComponent part : color.budget) {
    if (part.name == "lack-of-fit")
      part.covariance = options.print_lack_of_fit * options.print_lack_of_fit * part.covariance;
    reading.lab_covariance = reading.lab_covariance + part.covariance;
    reading.budget.push_back(std::move(part));
  }
  return reading;
}

/// Patches that no two photos show: their nominal colour and what this print is off by on the whole, as
/// uncertain as its patches are scattered.
void guess(const ChartDefinition& chart, SheetTransfer& transfer) {
  const std::set<std::size_t> guessed(transfer.guessed.begin(), transfer.guessed.end());
  Vector3 mean{}, square{};
  const double count = static_cast<double>(chart.patches.size() - guessed.size());
  for (int pass = 0; pass < 2; ++pass)
    for (std::size_t p = 0; p < chart.patches.size(); ++p) {
      if (guessed.contains(p)) continue;
      const Vector3 value = vector_from(transfer.values.patches[p].lab),
                    nominal = vector_from(chart.patches[p].nominal_lab);
      for (std::size_t k = 0; k < 3; ++k)
        if (pass == 0)
          mean[k] += (value[k] - nominal[k]) / count;
        else
          square[k] += std::pow(value[k] - nominal[k] - mean[k], 2) / (count - 1);
    }
  std::string ids;
  for (const std::size_t p : transfer.guessed) {
    PatchReference& value = transfer.values.patches[p];
    const Vector3 nominal = vector_from(chart.patches[p].nominal_lab);
    value.lab = lab_from({nominal[0] + mean[0], nominal[1] + mean[1], nominal[2] + mean[2]});
    for (std::size_t k = 0; k < 3; ++k)
      value.standard_uncertainty[k] = std::max(std::sqrt(square[k]), nominal_reference_uncertainty);
    ids += (ids.empty() ? "" : ", ") + value.id;
  }
  transfer.remarks.push_back(fmt::format(
      "Not seen well enough, so guessed from the print's other patches, with wide uncertainty: {}.", ids));
}

}  // namespace

Result<SheetBeside> read_sheet_beside(const Photo& photo, const TransferSheets& sheets,
                                      const TwoSheetsHints& hints, const TransferOptions& options,
                                      Progress& progress) {
  if (sheets.known_values.kind == ReferenceKind::nominal)
    return fail(
        ErrorCode::bad_call,
        fmt::format("Carrying reference values over: '{}' has nominal values only, measured ones are needed.",
                    sheets.known.name),
        "Name the known sheet's file of reference values.");
  progress.report(0, "looking for both sheets");
  const auto found = locate_two_sheets(photo, sheets.known, sheets.printed, hints, progress);
  if (!found) return fail(found.error());
  SheetBeside beside;
  beside.photo = photo.name();
  for (const LocatedSheet* sheet : {&found->known, &found->other})
    if (sheet->curled)
      beside.remarks.push_back(fmt::format("'{}': the {} sheet does not lie flat.", photo.name(),
                                           sheet == &found->known ? "known" : "printed"));
  const Table table = table_of(*found, sheets);
  beside.gap_mm = gap_of(table, sheets);
  beside.side = side_of(table, sheets);
  const auto sane = [](double mm) { return std::isfinite(mm) && mm < 5000; };
  if (!sane(table.width_mm) || !sane(table.height_mm) || !(beside.gap_mm <= options.widest_gap_mm))
    return fail(ErrorCode::untrustworthy,
                fmt::format("Carrying reference values over: in '{}' the sheets lie {:.0f} mm apart; at most "
                            "{:.0f} mm can be "
                            "bridged, because the light is known only where there is paper.",
                            photo.name(), std::min(beside.gap_mm, 9999.0), options.widest_gap_mm),
                "Lay the sheets edge to edge on one flat ground.");
  if (progress.cancelled())
    return fail(ErrorCode::cancelled, "The transfer was stopped.", "Start it again when you like.");

  progress.report(0.5, "measuring both sheets");
  SheetSamples samples = sample_sheet(photo, sheets.known, table.known_mm, {});
  const SheetSamples other = sample_sheet(photo, sheets.printed, table.other, {});
  for (PatchSample& patch : samples.patches) patch.place = table.from_known(patch.place);
  for (PaperSample& paper : samples.paper) paper.place = table.from_known(paper.place);
  samples.other_paper = other.paper;
  for (PaperSample& paper : samples.other_paper) paper.place = table.from_other(paper.place);
  if (samples.paper.empty() || samples.other_paper.empty())
    return fail(
        ErrorCode::untrustworthy,
        fmt::format(
            "Carrying reference values over: in '{}' the {} sheet shows no bare paper, which alone says how "
            "the light changes from one sheet to the other.",
            photo.name(), samples.paper.empty() ? "known" : "printed"),
        "Keep the paper between the patches clean, in view and not over-exposed.");
  ChartDefinition both = sheets.known;
  both.width_mm = table.width_mm;
  both.height_mm = table.height_mm;
  if (!samples.surroundings.empty()) samples.surroundings = Surroundings(photo, both, table.known);

  progress.report(0.7, "calibrating");
  CalibrationOptions calibrating;
  calibrating.encoding = photo.encoding().kind;
  calibrating.daylight_white = photo.encoding().daylight_white;
  calibrating.field_order = options.field_order;
  const auto calibration = calibrate(both, sheets.known_values, samples, calibrating);
  if (!calibration) return fail(calibration.error());
  beside.check_de00_mean = calibration->summary().check_de00_mean;
  if (of_another_print(both, sheets.known_values, samples, beside.check_de00_mean, calibrating))
    beside.remarks.push_back(
        fmt::format("'{}': the known values do not fit the known sheet, the chart's nominal ones fit better "
                    "(other-print): "
                    "give the file that was measured on this very sheet.",
                    photo.name()));
  for (std::size_t i = 0; i < sheets.printed.patches.size(); ++i)
    beside.patches.push_back(patch_reading(other.patches[i], sheets.printed.patches[i],
                                           table.from_other(other.patches[i].place), *calibration, options));
  progress.report(1, "done");
  return beside;
}

Result<SheetTransfer> transferred_reference(std::span<const SheetBeside> photos, const TransferSheets& sheets,
                                            const TransferOptions& options) {
  if (photos.size() < options.least_photos)
    return fail(ErrorCode::bad_call,
                fmt::format("Carrying reference values over: {} photo{} given; at least {} are needed.",
                            photos.size(), photos.size() == 1 ? " was" : "s were", options.least_photos),
                "Take three or more, and change the sheets' places between them.");
  SheetTransfer transfer;
  transfer.values.kind = ReferenceKind::transferred;
  transfer.values.source = fmt::format("carried over from '{}'", sheets.known.name);
  std::set<SheetSide> sides;
  for (const SheetBeside& photo : photos) sides.insert(photo.side);
  transfer.sides = static_cast<int>(sides.size());
  const double between = options.between_sheets * options.between_sheets / transfer.sides;

  std::vector<std::size_t> left_out(photos.size());
  std::vector<double> expanded, repeatability;
  std::string why;  // of a patch that was not read
  for (std::size_t p = 0; p < sheets.printed.patches.size(); ++p) {
    const Patch& patch = sheets.printed.patches[p];
    std::vector<const Reading*> readings;
    const Error* reason = nullptr;
    for (const SheetBeside& photo : photos) {
      readings.push_back(&photo.patches[p]);
      if (photo.patches[p].refused) reason = &*photo.patches[p].refused;
    }
    const auto mean = combined(readings, {});
    if (!mean) {
      transfer.values.patches.push_back({patch.id, patch.nominal_lab, {}});
      transfer.agreement.emplace_back();
      transfer.guessed.push_back(p);
      if (reason != nullptr) why = reason->message;
      continue;
    }
    const Matrix3 covariance =
        mean->lab_covariance + between * outer(proportional_light_direction(mean->lab));
    PatchReference value{patch.id, mean->lab, {}};
    for (int axis = 0; axis < 3; ++axis)
      value.standard_uncertainty[static_cast<std::size_t>(axis)] =
          std::max(std::sqrt(covariance(axis, axis)), least_standard_uncertainty);
    transfer.values.patches.push_back(std::move(value));
    for (const std::size_t i : mean->agreement->outliers) ++left_out[i];
    repeatability.push_back(mean->agreement->repeatability_de00);
    expanded.push_back(expanded_de00(mean->lab, covariance));
    transfer.agreement.push_back(*mean->agreement);
  }
  const auto most_guessed = static_cast<std::size_t>(options.most_guessed_share *
                                                     static_cast<double>(sheets.printed.patches.size()));
  if (transfer.guessed.size() > most_guessed)
    return fail(
        ErrorCode::untrustworthy,
        fmt::format("Carrying reference values over: {} of {} patches can be used in fewer than two of the "
                    "{} photos, the first of "
                    "them '{}'{}{}",
                    transfer.guessed.size(), sheets.printed.patches.size(), photos.size(),
                    sheets.printed.patches[transfer.guessed.front()].id, why.empty() ? "." : ": ", why),
        "Take more photos, in daylight, without glare or shadow on the printed sheet.");
  if (!transfer.guessed.empty()) guess(sheets.printed, transfer);
  transfer.median_expanded_de00 = median(expanded);
  transfer.median_repeatability_de00 = median(repeatability);
  for (std::size_t i = 0; i < photos.size(); ++i) {
    transfer.remarks.insert(transfer.remarks.end(), photos[i].remarks.begin(), photos[i].remarks.end());
    if (static_cast<double>(left_out[i]) >
        often_outlier_share * static_cast<double>(sheets.printed.patches.size()))
      transfer.remarks.push_back(
          fmt::format("'{}' differs from the other photos in {} of {} patches: look at its light.",
                      photos[i].photo, left_out[i], sheets.printed.patches.size()));
  }
  if (transfer.sides == 1)
    transfer.remarks.push_back(
        "The printed sheet lay on the same side of the known one in all photos: what the light does between "
        "them is in every "
        "value alike. Change places for some of the photos, and the uncertainty shrinks.");
  if (sheets.known_values.kind == ReferenceKind::transferred)
    transfer.remarks.push_back(
        "The known sheet's own values were carried over from another: each step adds uncertainty.");
  return transfer;
}

}  // namespace colorlib
