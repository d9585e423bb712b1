#include <colorlib/base/data_folder.hpp>
#include <colorlib/reaction/reaction_text.hpp>
#include <viewer/command/series_words.hpp>

namespace tintfall {

using namespace colorlib;

Result<std::monostate> add_words(SeriesRecord& series, const Namer& namer, const Wording& wording,
                                 const std::filesystem::path& bins_file) {
  const auto bins = bins_file.empty() ? ReactionBins::load(data_folder()) : ReactionBins::read(bins_file);
  if (!bins) return fail(bins.error());
  for (SpotRecord& spot : series.spots) {
    if (spot.refused) continue;
    ReactionSubject subject{spot.kind, series.protocol, series.zero};
    const ReactionWords words = reaction_words(spot.kinetics, subject, namer, wording, *bins);
    spot.verdict = std::string(verdict_name(words.verdict));
    spot.verdict_text = words.verdict_text;
    spot.sentence = words.sentence;
    spot.sign = words.sign;
    spot.warnings = words.warnings;
  }
  return std::monostate{};
}

}  // namespace tintfall
