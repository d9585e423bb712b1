#include <fmt/format.h>

#include <algorithm>
#include <cmath>
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
std::vector<std::size_t> shown_points(const SpotCourse& course, bool all) {
  std::vector<std::size_t> shown;
  const std::size_t n = course.points.size();
  for (std::size_t i = 0; i < n; ++i) shown.push_back(i);
  if (all || n <= most_rows) return shown;
  const auto place = [&](std::size_t i) {
    const double t = course.points[i].seconds;
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

void print_course(const SpotCourse& course, const SeriesSummaryOptions& options, std::ostream& out) {
  const auto shown = shown_points(course, options.verbose);
  out << fmt::format("\n         {:>9}  {:>11}  {:>5} {:>6} {:>6}\n", "seconds", "change ΔE00", "L*", "a*",
                     "b*");
  for (const std::size_t i : shown) {
    const CoursePoint& point = course.points[i];
    out << fmt::format("         {:>9.1f}  {:>10.1f}   {:>5.1f} {:>6.1f} {:>6.1f}\n", point.seconds,
                       point.change_de00, point.lab.l, point.lab.a, point.lab.b);
  }
  if (shown.size() < course.points.size())
    out << fmt::format("         ({} of {} frames; --verbose shows all)\n", shown.size(),
                       course.points.size());
}

void print_spot(const SpotCourse& course, const SeriesRecord& series, const SeriesSummaryOptions& options,
                std::ostream& out) {
  out << fmt::format("\n  {} {}", region_kind_name(course.kind), course.id);
  if (!course.controls.empty()) {
    out << fmt::format("   less what {} {} did", course.water ? "the water drop" : "the untreated tissue",
                       fmt::join(course.controls, ", "));
  } else {
    out << "   without any control: light and wetting stand in it as change";
  }
  out << '\n';
  (void)series;
  print_course(course, options, out);
  for (const std::string& remark : course.remarks) labelled("note", remark, out);
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

void print_series(const SeriesRecord& series, const Namer& namer, const SeriesSummaryOptions& options,
                  std::ostream& out) {
  (void)namer;
  std::size_t dropped = 0;
  for (const FrameRecord& frame : series.frames) dropped += frame.dropped.has_value();
  const double first = series.frames.front().seconds, last = series.frames.back().seconds;
  out << fmt::format("series of {} frames over {:.1f} s{}\n", series.frames.size(), last - first,
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
  for (const SpotCourse& course : series.spots) print_spot(course, series, options, out);
}

}  // namespace tintfall
