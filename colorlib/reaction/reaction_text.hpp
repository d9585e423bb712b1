#pragma once
/// What a time course says, in the words of a description.

#include <colorlib/naming/namer.hpp>
#include <colorlib/naming/wording.hpp>
#include <colorlib/reaction/kinetics.hpp>
#include <colorlib/reaction/protocol.hpp>
#include <colorlib/reaction/reaction_bins.hpp>
#include <colorlib/reaction/series_times.hpp>
#include <string>
#include <string_view>
#include <vector>

namespace colorlib {

enum class ReactionVerdict {
  positive,
  negative,        ///< no change above the threshold, against the control that there was
  undecided,       ///< the change may or may not reach the threshold, or goes on in a straight line
  void_reagent,    ///< nothing happened, and the reagent failed its check on a known positive: says nothing
  described_only,  ///< too few frames
};
/// "positive", "negative", "undecided", "void", "described".
std::string_view verdict_name(ReactionVerdict verdict);

struct ReactionWords {
  ReactionVerdict verdict = ReactionVerdict::described_only;
  std::string
      verdict_text;  ///< "positive, blue, fast, very strong (+++)"; "negative against water, wetting only"
  std::string sentence;  ///< for the description; ends in a full stop
  /// Empty when nothing happened or the time is not known.
  std::string sign, strength, speed, color;
  std::vector<std::string> warnings;  ///< "bruise control missing: ...": what a careful reader asks for
};

struct ReactionSubject {
  RegionKind kind = RegionKind::spot;  ///< spot or bruise
  Protocol protocol;
  SeriesZero zero = SeriesZero::applied;  ///< what the times count from
};

/// Everything is said in the reader's wording: colours, which are block names, and the phrases around them.
/// The colour of the verdict is the trade's word for it if there is one. Speed and sign by `bins`; the sign
/// is that of the change against the subtracted control.
ReactionWords reaction_words(const Kinetics& kinetics, const ReactionSubject& subject, const Namer& namer,
                             const Wording& wording, const ReactionBins& bins);

/// In what a person counts times as long as this: s below 2 min, min below 2 h, else h.
struct DurationUnit {
  double seconds;
  const char* name;
};
DurationUnit duration_unit(double seconds);

/// "8.5 s", "45 s", "10 min", "2.5 h".
std::string duration_text(double seconds);

}  // namespace colorlib
