#include <fmt/format.h>

#include <algorithm>
#include <viewer/command/photo_table.hpp>

namespace tintfall {

using namespace colorlib;

void print_table(const std::vector<PhotoOutcome>& outcomes, const Wording& wording, std::ostream& out) {
  std::size_t widest = 5, stand = 0, refused = 0;
  for (const PhotoOutcome& outcome : outcomes) widest = std::max(widest, outcome.photo.size());
  out << fmt::format("{:<{}}  {:<8}  {:>13} {:>13} {:>13}  {:>6}  name\n", "photo", widest, "reading", "L*",
                     "a*", "b*", "ΔE00");
  for (const PhotoOutcome& outcome : outcomes) {
    if (!outcome.record) {
      out << fmt::format("{:<{}}  refused: {}\n", outcome.photo, widest, outcome.reason);
      ++refused;
      continue;
    }
    ++stand;
    for (const Reading& reading : outcome.record->readings) {
      if (reading.refused) {
        out << fmt::format("{:<{}}  {:<8}  refused: {}\n", outcome.photo, widest, reading.id,
                           reading.refused->message);
        continue;
      }
      const auto figure = [](double value, double u) { return fmt::format("{:.1f} ± {:.1f}", value, u); };
      out << fmt::format("{:<{}}  {:<8}  {:>13} {:>13} {:>13}  {:>6.1f}  {}\n", outcome.photo, widest,
                         reading.id, figure(reading.lab.l, reading.lab_expanded[0]),
                         figure(reading.lab.a, reading.lab_expanded[1]),
                         figure(reading.lab.b, reading.lab_expanded[2]), reading.de00_expanded,
                         wording.said(reading.words.name.name));
    }
  }
  out << fmt::format("{} read, {} refused. ± is k = 2; ΔE00 is the 95 % distance from the true colour.\n",
                     stand, refused);
}

}  // namespace tintfall
