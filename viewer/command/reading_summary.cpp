#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/calibration/error_budget.hpp>
#include <colorlib/exports/screen_color.hpp>
#include <colorlib/naming/name_sentence.hpp>
#include <colorlib/reaction/reagents.hpp>
#include <viewer/command/reading_summary.hpp>
#include <viewer/command/swatch.hpp>
#include <viewer/command/text_wrap.hpp>

namespace tintfall {
namespace {

using namespace colorlib;

constexpr std::size_t label_columns = 12;  // "  sheet     "
constexpr std::size_t reading_columns = 9;
constexpr std::size_t swatch_columns = 6;

/// "  sheet     text", wrapped under itself.
void labelled(std::string_view label, std::string_view text, std::ostream& out) {
  const std::string head = fmt::format("  {:<{}}", label, label_columns - 2);
  out << head << wrapped(text, label_columns, label_columns) << '\n';
}

void indented(std::string_view text, std::ostream& out) {
  out << std::string(reading_columns, ' ') << wrapped(text, reading_columns, reading_columns) << '\n';
}

std::string join(const std::vector<std::string>& parts) { return fmt::format("{}", fmt::join(parts, ", ")); }

/// The file's name in "ref.txt; what it states of itself".
std::string file_of(const std::string& source) { return source.substr(0, source.find(';')); }

void print_photo(const RecordPhoto& photo, const Subject& subject, std::ostream& out) {
  out << fmt::format("{}   {} x {} px{}\n", photo.name, photo.width_px, photo.height_px,
                     photo.captured.empty() ? "" : ", taken " + photo.captured);
  std::vector<std::string> said;
  for (const SubjectField& field : subject_fields)
    if (const std::string& value = subject.*(field.place); !value.empty())
      said.push_back(fmt::format("{} {}", field.name, value));
  if (!said.empty()) labelled("subject", join(said), out);
}

/// The share of the check that all sentences about it have.
std::string met_within(double mean, double p95) {
  return fmt::format("patches left out in turn are met within ΔE00 {:.1f} on average, {:.1f} for 95 %", mean,
                     p95);
}

bool each_checked(const Record& record) {
  return !record.photos.empty() &&
         std::all_of(record.photos.begin(), record.photos.end(),
                     [](const RecordPhoto& photo) { return photo.check.has_value(); });
}

/// Of several photos the worst, or each: one sheet that is not the others' must not hide behind the first.
void print_checks(const Record& record, bool verbose, std::ostream& out) {
  const RecordCalibration& fit = record.calibration;
  if (!each_checked(record)) {
    labelled("check",
             fmt::format("{}; light that differs by ΔE00 {:.1f} across the sheet was corrected",
                         met_within(fit.check_de00_mean, fit.check_de00_p95), fit.lighting_spread_de00),
             out);
    return;
  }
  const auto mean_of = [](const RecordPhoto& photo) { return photo.check->de00_mean; };
  const auto [best, worst] = std::minmax_element(
      record.photos.begin(), record.photos.end(),
      [&](const RecordPhoto& a, const RecordPhoto& b) { return mean_of(a) < mean_of(b); });
  double spread = 0;
  for (const RecordPhoto& photo : record.photos) spread = std::max(spread, photo.check->lighting_spread_de00);
  labelled(
      "check",
      fmt::format("worst of {} photos, {}: {} (best, {}: {:.1f} and {:.1f}); light that differs by up to "
                  "ΔE00 {:.1f} across the sheet was corrected",
                  record.photos.size(), worst->name, met_within(mean_of(*worst), worst->check->de00_p95),
                  best->name, mean_of(*best), best->check->de00_p95, spread),
      out);
  if (!verbose) return;
  for (const RecordPhoto& photo : record.photos)
    labelled("", photo.name + ": " + met_within(mean_of(photo), photo.check->de00_p95), out);
}

/// " (a.jpg, b.jpg)": the photos that have a flag which not all of them have.
std::string photos_with(const Record& record, const std::string& code) {
  if (!each_checked(record)) return {};
  std::vector<std::string> names;
  for (const RecordPhoto& photo : record.photos)
    if (const auto& flags = photo.check->flags; std::find(flags.begin(), flags.end(), code) != flags.end())
      names.push_back(photo.name);
  return names.empty() || names.size() == record.photos.size() ? std::string() : " (" + join(names) + ")";
}

void print_calibration(const Record& record, bool verbose, std::ostream& out) {
  const RecordChart& chart = record.chart;
  const RecordCalibration& fit = record.calibration;
  std::string sheet = chart.name;
  if (!chart.sheet_label.empty()) sheet += fmt::format(" '{}'", chart.sheet_label);
  if (!chart.printed.empty()) sheet += fmt::format(", printed {}", chart.printed);
  sheet += fit.markers_found > 0 ? fmt::format(", placed by {} markers", fit.markers_found)
                                 : ", placed by its corners";
  const std::string whose = each_checked(record) ? " (" + record.photo.name + ")" : std::string();
  labelled("sheet", fmt::format("{} within {:.2f} px rms{}", sheet, fit.reprojection_px, whose), out);
  labelled(
      "colours",
      fmt::format("{} patches used, {} dropped, {} places of bare paper{}; reference values {}{}",
                  fit.patches_used, fit.patches_dropped.size(), fit.paper_used, whose, chart.reference_kind,
                  verbose || chart.reference_kind == "nominal" || chart.reference_source.empty()
                      ? ""
                      : " (" + file_of(chart.reference_source) + ")"),
      out);
  print_checks(record, verbose, out);
  if (verbose) {
    if (!chart.reference_source.empty()) labelled("reference", chart.reference_source, out);
    for (const auto& [id, reason] : fit.patches_dropped)
      labelled("dropped", fmt::format("{}: {}", id, reason), out);
    for (const std::string& remark : chart.reference_remarks) labelled("reference", remark, out);
    labelled("model", fit.model, out);
    labelled("profile", record.photo.profile + (record.photo.profile_assumed ? " (assumed)" : ""), out);
  }
}

void print_refused(const Reading& reading, std::ostream& out) {
  out << fmt::format("  ------ {} {}   no reading\n", region_kind_name(reading.kind), reading.id);
  indented(reading.refused->message, out);
  indented(reading.refused->advice, out);
}

void print_words(const ColorDescription& words, const Wording& wording, std::ostream& out) {
  std::vector<std::string> others;
  for (const NameShare& other : words.alternatives)
    others.push_back(fmt::format("{} ({}, ΔE00 {:.1f} away)", wording.said(other.name),
                                 percentage_from(other.probability), other.de00));
  if (!others.empty()) indented("otherwise " + join(others), out);
}

/// "contrast ratio 87 ± 4 %", "99.2 ± 0.3 %": with a digit of the uncertainty that is not 0.
std::string contrast_text(double ratio, double expanded) {
  constexpr int most_decimals = 2;
  int decimals = 0;
  for (double shown = 100 * expanded; shown < 0.95 && decimals < most_decimals; shown *= 10) ++decimals;
  return fmt::format("contrast ratio {:.{}f} ± {:.{}f} %", 100 * ratio, decimals,
                     std::max(100 * expanded, std::pow(10, -decimals)), decimals);
}

/// Of a colour beside the reading's own.
template <class Colour>
std::string colour_line(const Colour& colour) {
  return fmt::format(
      "L* {:.1f} ± {:.1f}   a* {:.1f} ± {:.1f}   b* {:.1f} ± {:.1f}   within ΔE00 {:.1f} (95 %)",
      colour.lab.l, colour.lab_expanded[0], colour.lab.a, colour.lab_expanded[1], colour.lab.b,
      colour.lab_expanded[2], colour.de00_expanded);
}

/// "thin layer: ..." and what it would be when thick.
void print_layer(const LayerReading& layer, const SummaryOptions& options, std::ostream& out) {
  const std::string hides = layer.contrast_ratio
                                ? contrast_text(*layer.contrast_ratio, layer.contrast_ratio_expanded)
                                : std::string();
  if (layer.refused) {
    indented("no masstone: " + layer.refused->message, out);
    indented(layer.refused->advice, out);
    return;
  }
  indented(
      fmt::format("masstone, of a layer thick enough to hide its ground: {} ({})",
                  options.wording.said(layer.words.name.name), percentage_from(layer.words.name.probability)),
      out);
  indented(colour_line(layer) + "   Munsell " + layer.words.munsell, out);
  const char* from = layer.method == "uneven-thickness" ? "from its uneven thickness over one ground"
                     : layer.with.empty()               ? "from two grounds"
                                                        : "from two grounds, with ";
  indented(hides + ", " + from + (layer.method == "uneven-thickness" ? "" : layer.with), out);
}

/// Where the deposit is thickest, when that can be seen beside the mean.
void print_tenth(const ThickestTenth& tenth, const SummaryOptions& options, std::ostream& out) {
  if (tenth.de00_from_mean < visible_tenth_de00 && !options.verbose) return;
  indented(
      fmt::format("thickest tenth: {} ({}), Munsell {}, ΔE00 {:.1f} from the mean",
                  options.wording.said(tenth.words.name.name), percentage_from(tenth.words.name.probability),
                  tenth.words.munsell, tenth.de00_from_mean),
      out);
  indented(colour_line(tenth), out);
}

/// How the photos read together agreed, and which was left out.
void print_agreement(const PhotoAgreement& agreement, const std::vector<RecordPhoto>& photos,
                     std::ostream& out) {
  indented(fmt::format("{} photos together; one differs from their mean by ΔE00 {:.1f}",
                       agreement.photos - agreement.outliers.size(), agreement.repeatability_de00),
           out);
  for (const std::size_t i : agreement.outliers)
    indented(fmt::format("left out: {}, ΔE00 {:.1f} away from the others",
                         i < photos.size() ? photos[i].name : fmt::format("photo {}", i + 1),
                         agreement.de00_from_mean[i]),
             out);
}

/// ", 87 % of it covered by the deposit, ..."; nothing where it covers the region as good as wholly.
std::string coverage_text(const Reading& reading) {
  std::string text;
  if (reading.coverage_share && *reading.coverage_share < full_coverage)
    text += fmt::format(", {:.0f} % of it covered by the deposit, bare ground between",
                        100 * *reading.coverage_share);
  if (reading.foreign_share.value_or(0) > 0)
    text += fmt::format(", {:.1f} % of it something else, left out", 100 * *reading.foreign_share);
  return text;
}

void print_budget(const Reading& reading, std::ostream& out) {
  for (const BudgetComponent& part : reading.budget) {
    const Vector3 expanded = expanded_uncertainty(part.covariance);
    indented(fmt::format("{:<14} L* ± {:.2f}   a* ± {:.2f}   b* ± {:.2f}", part.name, expanded[0],
                         expanded[1], expanded[2]),
             out);
  }
}

void print_reading(const Reading& reading, const ColorDescription& words, const SummaryOptions& options,
                   std::ostream& out) {
  const ScreenColor screen = screen_color_from_lab(reading.lab);
  out << "  ";
  if (options.colour)
    write_swatch(reading.lab, swatch_columns, out);
  else
    out << std::string(swatch_columns, ' ');
  out << fmt::format(" {} {}   {} ({})\n", region_kind_name(reading.kind), reading.id,
                     options.wording.said(words.name.name), percentage_from(words.name.probability));
  print_words(words, options.wording, out);
  indented(fmt::format(
               "L* {:.1f} ± {:.1f}   a* {:.1f} ± {:.1f}   b* {:.1f} ± {:.1f}   (CIELAB, D50, 2°; ± is k = 2)",
               reading.lab.l, reading.lab_expanded[0], reading.lab.a, reading.lab_expanded[1], reading.lab.b,
               reading.lab_expanded[2]),
           out);
  indented(
      fmt::format("within ΔE00 {:.1f} of the true colour (95 %)   Munsell {}{}   on a screen {}{}",
                  reading.de00_expanded, words.munsell, words.outside_renotation ? " (edge of the data)" : "",
                  screen.hex(), screen.clipped ? " (duller than it is)" : ""),
      out);
  std::vector<std::string> terms;
  for (const std::string& term : words.trade_terms) terms.push_back(options.wording.said(term));
  if (!terms.empty()) indented("in the trade's words: " + fmt::format("{}", fmt::join(terms, " or ")), out);
  indented(fmt::format("{} pixels{}{}", reading.pixels,
                       reading.area_mm2 > 0 ? fmt::format(", {:.0f} mm²", reading.area_mm2) : std::string(),
                       coverage_text(reading)),
           out);
  if (reading.tenth) print_tenth(*reading.tenth, options, out);
  if (reading.layer) print_layer(*reading.layer, options, out);
  if (options.verbose) print_budget(reading, out);
  std::vector<std::string> codes;
  for (const Flag& flag : reading.flags) codes.push_back(flag.code);
  if (!codes.empty()) indented("flags: " + join(codes), out);
}

/// Each code once, with what to do where that is known: those of the readings, then those of the photo.
void print_flags(const Record& record, std::ostream& out) {
  std::vector<std::string> told;
  const auto tell = [&](const std::vector<Flag>& flags, bool of_photos) {
    for (const Flag& flag : flags) {
      if (std::find(told.begin(), told.end(), flag.code) != told.end()) continue;
      told.push_back(flag.code);
      labelled(told.size() == 1 ? "flags" : "",
               fmt::format("{}{}{}{}", flag.code, of_photos ? photos_with(record, flag.code) : std::string(),
                           flag.advice.empty() ? "" : ": ", flag.advice),
               out);
    }
  };
  for (const Reading& reading : record.readings) tell(reading.flags, false);
  tell(record.flags, true);
}

void print_scales(const std::vector<ScaleAnswer>& scales, std::ostream& out) {
  for (const ScaleAnswer& scale : scales)
    for (const ScaleMatch& match : scale.matches)
      indented(fmt::format("scale {}: {} (ΔE00 {:.1f} away; within its tolerance of {:.1f}: {})", scale.scale,
                           match.entry, match.de00, match.tolerance_de00, answer_word(match.within)),
               out);
}

}  // namespace

void print_summary(const Record& record, const std::vector<ColorDescription>& words,
                   const SummaryOptions& options, std::ostream& out) {
  print_photo(record.photos.empty() ? record.photo : record.photos.front(), record.subject, out);
  for (std::size_t i = 1; i < record.photos.size(); ++i) print_photo(record.photos[i], {}, out);
  for (std::size_t i = 0; i < record.readings.size(); ++i) {
    const Reading& reading = record.readings[i];
    out << '\n';
    if (reading.refused) {
      print_refused(reading, out);
      continue;
    }
    print_reading(reading, i < words.size() ? words[i] : reading.words, options, out);
    if (reading.agreement) print_agreement(*reading.agreement, record.photos, out);
    if (i < record.scales.size()) print_scales(record.scales[i], out);
  }
  out << '\n';
  print_calibration(record, options.verbose, out);
  print_flags(record, out);
  out << '\n';
}

bool shows_reagent_spot(const Record& record) {
  return std::any_of(record.readings.begin(), record.readings.end(),
                     [](const Reading& reading) { return reading.kind == RegionKind::spot; });
}

void print_handling(const Protocol& protocol, bool reagent_used, std::ostream& out) {
  const auto text = handling_text(protocol, reagent_used);
  if (text && !text->empty()) out << wrapped("Handling: " + *text, 0, 0) << "\n\n";
}

void print_reading_cautions(bool reagent_spot, std::ostream& out) {
  if (reagent_spot) print_handling({}, true, out);
  print_caution(out);
}

void print_caution(std::ostream& out) { out << caution_text() << '\n'; }

}  // namespace tintfall
