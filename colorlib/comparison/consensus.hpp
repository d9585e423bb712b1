#pragma once
/// What an item's colour is, by all who read it or by a reference, and how far each is from it.

#include <array>
#include <colorlib/comparison/agreement.hpp>
#include <colorlib/comparison/robust_mean.hpp>
#include <colorlib/comparison/round_table.hpp>
#include <optional>
#include <string>
#include <vector>

namespace colorlib {

/// A colour that an item is known to have.
struct ReferenceColor {
  std::string item;  ///< empty: of the only item
  UncertainColor color;
  std::string source;  ///< in words
};

/// From this many participants on a score against their own consensus is judged; [ISO13528] advises against
/// judging by the robust mean of very few.
inline constexpr std::size_t consensus_worth_judging = 8;

/// The assigned value from `means` of participants: the robust mean in Lab. Its covariance is 1.25^2 S* / p
/// from four participants on; from fewer, who tell too little about their spread, the sum of the stated and
/// the seen covariance, divided by p. One participant: that one's own. `means` not empty.
UncertainColor consensus_value(const std::vector<UncertainColor>& means);

struct ParticipantDistance {
  std::size_t participant = 0;
  double de00 = 0;  ///< of the participant's mean from the assigned value
  std::optional<Agreement>
      agreement;  ///< against the reference, or the consensus of the others; none when there are none
};

struct ItemConsensus {
  std::size_t item = 0;
  std::optional<std::string> reference;  ///< source of the reference; none: the consensus is assigned
  UncertainColor assigned;               ///< reference, or robust mean in Lab
  bool judged =
      false;  ///< a reference, or enough participants: verdicts against the assigned value mean something
  std::array<RobustMean, 3>
      by_coordinate;     ///< Algorithm A of L*, a*, b* over the participants' means, for comparison
  RobustLabMean robust;  ///< of the same means
  std::vector<ParticipantDistance> participants;
  std::vector<double>
      reading_de00;  ///< distance of each of the item's readings, in the order of RoundTable::cells
  std::vector<std::size_t> readings;  ///< which readings these are
};

/// A participant is in the consensus it is compared with, which would flatter it: so each one's agreement is
/// with the consensus of the others.
ItemConsensus consensus_of(const RoundTable& table, std::size_t item,
                           const std::optional<ReferenceColor>& reference, const AgreementRule& rule);

}  // namespace colorlib
