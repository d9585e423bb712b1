#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/reaction/reaction_text.hpp>
#include <viewer/command/series_summary.hpp>
#include <viewer/command/text_wrap.hpp>

namespace tintfall {
namespace {

using namespace colorlib;

constexpr std::size_t label_columns = 12;
constexpr std::size_t most_rows = 16;

void labelled(std::string_view label, std::string_view text, std::ostream& out) {
  out << fmt::format("  {:<{}}", label, label_columns - 2) << wrapped(text, label_columns, label_columns)
      << '\n';
}

std::string source_text(const SeriesRecord& series) {
  switch (series.source) {
    case TimesSource::capture_times:
      return series.resolution_s >= 1 ? "the photos' own clock, whole seconds" : "the photos' own clock";
    case TimesSource::times_file:
      return "the times file";
    case TimesSource::interval:
      return "the interval stated";
    case TimesSource::stream:
      return "the video's time stamps";
  }
  return "";
}

/// The course's points that are shown: all, or those nearest to even steps of the square root of time, ends
/// included.
std::vector<std::size_t> shown_points(const std::vector<double>& seconds, bool all) {
  std::vector<std::size_t> shown;
  const std::size_t n = seconds.size();
  for (std::size_t i = 0; i < n; ++i) shown.push_back(i);
  if (all || n <= most_rows) return shown;
  const auto place = [&](std::size_t i) {
    const double t = seconds[i];
    return t < 0 ? -std::sqrt(-t) : std::sqrt(t);
  };
  shown.clear();
  const double first = place(0), last = place(n - 1);
  for (std::size_t k = 0; k < most_rows; ++k) {
    const double wanted = first + (last - first) * static_cast<double>(k) / (most_rows - 1);
    std::size_t best = 0;
    for (std::size_t i = 1; i < n; ++i)
      if (std::abs(place(i) - wanted) < std::abs(place(best) - wanted)) best = i;
    if (shown.empty() || shown.back() != best) shown.push_back(best);
  }
  return shown;
}

void print_course(const Kinetics& kinetics, const SeriesSummaryOptions& options, std::ostream& out) {
  if (kinetics.path.empty()) return;
  const auto shown = shown_points(kinetics.seconds, options.verbose);
  const Lab before = kinetics.phases.empty() ? kinetics.path.front().lab : kinetics.phases.front().color.lab;
  out << fmt::format("\n         {:>9}  {:>11}  {:>5} {:>6} {:>6}   less what the controls did\n", "seconds",
                     "change ΔE00", "L*", "a*", "b*");
  for (const std::size_t i : shown) {
    const Lab& lab = kinetics.path[i].lab;
    const bool bad =
        std::find(kinetics.bad_frames.begin(), kinetics.bad_frames.end(), i) != kinetics.bad_frames.end();
    out << fmt::format("         {:>9.1f}  {:>10.1f}   {:>5.1f} {:>6.1f} {:>6.1f}{}\n", kinetics.seconds[i],
                       difference_ciede2000(before, lab), lab.l, lab.a, lab.b,
                       bad ? "   left out of the fit" : "");
  }
  if (shown.size() < kinetics.path.size())
    out << fmt::format("         ({} of {} frames; --verbose shows all)\n", shown.size(),
                       kinetics.path.size());
}

/// Three digits, or as many as stand before the point.
std::string three_digits(double value) {
  if (std::abs(value) >= 999.5) return fmt::format("{:.0f}", value);
  return std::abs(value) < 0.001 ? "0" : fmt::format("{:.3g}", value);
}

/// "2.1 s (1.8 to 2.4)", "1.25 h (1.1 to 1.4)", "less than 4 s", "more than 10 min"; empty when nothing is
/// known.
std::string time_words(const TimeEstimate& time) {
  const auto told = [](double seconds) {
    const DurationUnit unit = duration_unit(seconds);
    return fmt::format("{} {}", three_digits(seconds / unit.seconds), unit.name);
  };
  if (time.value_s) {
    if (!time.low_s || !time.high_s) return told(*time.value_s);
    const double unit_s = duration_unit(*time.value_s).seconds;
    return fmt::format("{} ({} to {})", told(*time.value_s), three_digits(*time.low_s / unit_s),
                       three_digits(*time.high_s / unit_s));
  }
  if (time.less_than_s) return fmt::format("less than {}", told(*time.less_than_s));
  if (time.greater_than_s) return fmt::format("more than {}", told(*time.greater_than_s));
  return {};
}

std::string model_words(KineticModel model) {
  switch (model) {
    case KineticModel::none:
      return "no change beyond the scatter of the frames";
    case KineticModel::drift:
      return "an even drift, no reaction that starts";
    case KineticModel::first_order:
      return "one step, first order after an onset";
    case KineticModel::consecutive:
      return "two steps one after the other, each of first order";
    case KineticModel::fading:
      return "one step that fades again";
  }
  return "";
}

void print_kinetics(const Kinetics& kinetics, std::ostream& out) {
  if (kinetics.state == KineticsState::described) {
    labelled("course", "three frames or fewer: described, not fitted", out);
  } else {
    labelled("course", model_words(kinetics.model), out);
  }
  const bool reaction = is_reaction(kinetics);
  if (reaction) {
    labelled("onset", time_words(kinetics.onset), out);
    labelled("half time", fmt::format("{} from the onset", time_words(kinetics.half_time)), out);
    if (const auto words = time_words(kinetics.to_95); !words.empty()) labelled("95 % done", words, out);
    if (const auto words = time_words(kinetics.second_half_time);
        !words.empty() &&
        (kinetics.model == KineticModel::consecutive || kinetics.model == KineticModel::fading))
      labelled("2nd half", words, out);
  }
  labelled("change",
           fmt::format("ΔE00 {:.1f} ± {:.1f} (k = 2); {:.1f} is needed to count as a reaction",
                       kinetics.change_de00, kinetics.change_de00_expanded, kinetics.threshold_de00),
           out);
}

void print_spot(const SpotRecord& spot, const SeriesSummaryOptions& options, std::ostream& out) {
  out << fmt::format("\n  {} {}", region_kind_name(spot.kind), spot.id);
  if (!spot.controls.empty())
    out << fmt::format("   controls {}", fmt::join(spot.controls, ", "));
  else
    out << "   without any control: light and wetting stand in it as change";
  out << '\n';
  if (spot.refused) {
    labelled("refused", spot.refused->message, out);
    return;
  }
  if (!spot.sentence.empty()) labelled("in words", spot.sentence, out);
  if (!spot.verdict_text.empty()) labelled("verdict", spot.verdict_text, out);
  print_kinetics(spot.kinetics, out);
  for (const std::string& warning : spot.warnings) labelled("mind", warning, out);
  for (const std::string& remark : spot.kinetics.remarks) labelled("note", remark, out);
  print_course(spot.kinetics, options, out);
}

void print_protocol(const SeriesRecord& series, std::ostream& out) {
  const Protocol& p = series.protocol;
  std::string said;
  const auto add = [&](std::string_view what, const std::string& value) {
    if (!value.empty()) said += fmt::format("{}{} {}", said.empty() ? "" : ", ", what, value);
  };
  add("reagent", p.reagent);
  add("strength", p.strength);
  if (p.batch_age_days) add("batch", fmt::format("{:.0f} days old", *p.batch_age_days));
  add("tissue", p.tissue);
  add("zone", p.zone);
  add("state", p.state);
  add("by", p.method);
  if (p.temperature_c) add("at", fmt::format("{:.1f} °C", *p.temperature_c));
  if (!said.empty()) labelled("protocol", said, out);
  bool reagent = false, water = false, controls = false;
  const FrameRecord* frame = series.representative();
  if (frame == nullptr) return;
  for (const Reading& reading : frame->record.readings) {
    reagent |= reading.kind == RegionKind::spot;
    water |= reading.kind == RegionKind::water;
    controls |= reading.kind == RegionKind::control;
  }
  const auto missing = missing_from(p, reagent, water, controls);
  if (!missing.empty())
    labelled("not said",
             fmt::format("{}. A record of a reaction is worth more with them (--protocol).",
                         fmt::join(missing, ", ")),
             out);
}

}  // namespace

std::string zero_text(SeriesZero zero) {
  switch (zero) {
    case SeriesZero::first_photo:
      return "counted from the first photo";
    case SeriesZero::applied:
      return "counted from the moment of application";
    case SeriesZero::photo:
      return "counted from the photo named as the application";
    case SeriesZero::times_file:
      return "counted from the application, as the times file says";
    case SeriesZero::found:
      return "counted from the first frame that shows the drop or the wound, which was found";
  }
  return "";
}

void print_series(const SeriesRecord& series, const SeriesSummaryOptions& options, std::ostream& out) {
  std::size_t dropped = 0;
  for (const FrameRecord& frame : series.frames) dropped += frame.dropped.has_value();
  const double first = series.frames.front().seconds, last = series.frames.back().seconds;
  out << fmt::format("series of {} frames over {}{}\n", series.frames.size(), duration_text(last - first),
                     dropped > 0 ? fmt::format(", {} dropped", dropped) : "");
  labelled("times", fmt::format("{}; {}", source_text(series), zero_text(series.zero)), out);
  const FrameRecord* frame = series.representative();
  if (frame != nullptr) {
    const Record& record = frame->record;
    labelled("sheet", fmt::format("{}, reference values {}", record.chart.name, record.chart.reference_kind),
             out);
    if (!record.subject.item.empty()) labelled("subject", fmt::format("item {}", record.subject.item), out);
  }
  print_protocol(series, out);
  for (const std::string& remark : series.remarks) labelled("note", remark, out);
  for (const SpotRecord& spot : series.spots) print_spot(spot, options, out);
  out << '\n';
}

}  // namespace tintfall
