#include <fmt/format.h>

#include <cmath>
#include <colorlib/naming/name_sentence.hpp>

namespace colorlib {

std::string percentage_from(double probability) {
  // Shares are counted over a finite set: no count proves certainty.
  const double percent = std::round(probability * 100);
  if (percent >= 100) return "> 99 %";
  if (percent <= 0) return "< 1 %";
  return fmt::format("{:.0f} %", percent);
}

std::string sentence_from(const ColorDescription& description, const Wording& wording) {
  if (description.name.name.empty()) return wording.said("no color");
  std::string sentence = wording.said(description.name.name);
  const bool exact = !(description.de00_expanded > 0);
  if (!exact) sentence += fmt::format(" ({})", percentage_from(description.name.probability));
  for (std::size_t i = 0; i < description.alternatives.size(); ++i) {
    const char* link = i == 0 ? ", {} {}" : i + 1 < description.alternatives.size() ? ", {1}" : " {} {}";
    sentence += fmt::format(fmt::runtime(link), wording.said(i == 0 ? "otherwise" : "or"),
                            wording.said(description.alternatives[i].name));
  }
  if (!exact) sentence += fmt::format("; within ΔE00 {:.1f} (95 %)", description.de00_expanded);
  if (description.outside_renotation)
    sentence += fmt::format("; {}", wording.said("beyond the published colors, named by the nearest"));
  return sentence;
}

}  // namespace colorlib
