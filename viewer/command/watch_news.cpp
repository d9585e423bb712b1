#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/reaction/next_photo.hpp>
#include <colorlib/reaction/reaction_text.hpp>
#include <ostream>
#include <viewer/command/reading_summary.hpp>
#include <viewer/command/series_summary.hpp>
#include <viewer/command/watch_news.hpp>

namespace tintfall {

using namespace colorlib;

namespace {

/// Half of the last decimal that times are shown with.
constexpr double least_move_s = 0.05;

}  // namespace

void print_frame(const SeriesRecord& series, const std::string& photo, std::ostream& out) {
  for (std::size_t i = 0; i < series.frames.size(); ++i) {
    const FrameRecord& frame = series.frames[i];
    if (frame.photo != photo) continue;
    if (frame.dropped) {
      out << fmt::format("{}: no reading. {}\n", photo, frame.dropped->message);
      return;
    }
    for (const SpotRecord& spot : series.spots) {
      if (spot.refused) {
        if (const Reading* reading = reading_of(frame, spot.id))
          out << fmt::format("{:<24} {:>8.1f} s   {} {}   L* {:.1f}  a* {:.1f}  b* {:.1f}\n", photo,
                             frame.seconds, region_kind_name(spot.kind), spot.id, reading->lab.l,
                             reading->lab.a, reading->lab.b);
        for (const Reading& reading : frame.record.readings)
          if (reading.id == spot.id && reading.refused)
            out << fmt::format("{}: no reading of {} {}. {}\n", photo, region_kind_name(spot.kind), spot.id,
                               reading.refused->message);
        continue;
      }
      const Kinetics& k = spot.kinetics;
      const Lab before = k.phases.empty() ? k.path.front().lab : k.phases.front().color.lab;
      for (std::size_t p = 0; p < spot.frames.size(); ++p)
        if (spot.frames[p] == i)
          out << fmt::format(
              "{:<24} {:>8.1f} s   {} {}   change ΔE00 {:>5.1f}   L* {:.1f}  a* {:.1f}  b* {:.1f}\n", photo,
              frame.seconds, region_kind_name(spot.kind), spot.id,
              difference_ciede2000(before, k.path[p].lab), k.path[p].lab.l, k.path[p].lab.a, k.path[p].lab.b);
    }
  }
}

void print_moved_zero(const SeriesRecord& before, const SeriesRecord& now, std::ostream& out) {
  if (before.frames.empty()) return;
  const FrameRecord& known = before.frames.front();
  for (const FrameRecord& frame : now.frames) {
    if (frame.photo != known.photo) continue;
    const double moved_s = known.seconds - frame.seconds;
    if (std::abs(moved_s) >= least_move_s)
      out << fmt::format("  zero moved {} by {}: times are now {}\n", moved_s > 0 ? "on" : "back",
                         duration_text(std::abs(moved_s)), zero_text(now.zero));
    return;
  }
}

void print_running_fit(const SeriesRecord& series, std::ostream& out) {
  for (const SpotRecord& spot : series.spots) {
    if (spot.refused && spot.frames.size() >= 2)
      out << fmt::format("  {} {}: refused. {} {}\n", region_kind_name(spot.kind), spot.id,
                         spot.refused->message, spot.refused->advice);
    if (spot.refused) continue;
    const Kinetics& k = spot.kinetics;
    if (!is_reaction(k)) {
      out << fmt::format("  {} {}: {} so far\n", region_kind_name(spot.kind), spot.id,
                         k.state == KineticsState::described ? "too few frames for a fit" : "no reaction");
    } else {
      std::string times;
      if (k.onset.value_s) times += fmt::format(", onset {}", duration_text(*k.onset.value_s));
      if (k.half_time.value_s) times += fmt::format(", half time {}", duration_text(*k.half_time.value_s));
      out << fmt::format("  {} {}: {}{}, change ΔE00 {:.1f} ± {:.1f}\n", region_kind_name(spot.kind), spot.id,
                         kinetic_model_name(k.model), times, k.change_de00, k.change_de00_expanded);
    }
  }
  if (series.spots.empty() || series.frames.empty()) return;
  if (std::all_of(series.spots.begin(), series.spots.end(),
                  [](const SpotRecord& spot) { return spot.refused.has_value(); })) {
    if (std::all_of(series.spots.begin(), series.spots.end(),
                    [](const SpotRecord& spot) { return spot.frames.size() >= 2; }))
      return;
    out << "  next photo: one more before the drop, then the drop\n" << std::flush;
    return;
  }
  std::optional<NextPhoto> soonest;
  for (const SpotRecord& spot : series.spots) {
    if (spot.refused) continue;
    const auto next = next_useful_photo(spot.kinetics, series.frames.back().seconds);
    if (next && (!soonest || next->seconds < soonest->seconds)) soonest = next;
  }
  if (soonest)
    out << fmt::format("  next photo: at {}, {} after this one ({})\n", duration_text(soonest->seconds),
                       duration_text(soonest->seconds - series.frames.back().seconds), soonest->why);
  else
    out << "  next photo: none needed, the course has been seen\n";
  out << std::flush;
}

}  // namespace tintfall
