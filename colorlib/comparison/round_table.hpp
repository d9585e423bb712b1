#pragma once
/// Readings in order: items by collectors.

#include <colorlib/comparison/compared_reading.hpp>
#include <cstddef>
#include <string>
#include <vector>

namespace colorlib {

/// Someone, or something, that contributes readings: a collector, or a single reading that names none.
struct Participant {
  std::string name;
  bool is_collector = false;  ///< named in the records; else `name` is the reading's label
};

/// One participant's readings of one item.
struct RoundCell {
  std::size_t item = 0, participant = 0;
  std::vector<std::size_t> readings;  ///< places in RoundTable::readings
  /// Mean of the readings. Its covariance is the mean of theirs, not divided by their number: photographs of
  /// one collector share sheet, lamp and camera, and the uncertainty that these bring is not averaged away.
  UncertainColor mean;
};

struct RoundTable {
  std::vector<ComparedReading> readings;
  std::vector<std::string> items;  ///< empty text: records that do not say
  std::vector<Participant> participants;
  std::vector<RoundCell> cells;  ///< by item, then participant

  const RoundCell* cell(std::size_t item, std::size_t participant) const;
  std::vector<const RoundCell*> cells_of_item(std::size_t item) const;
};

/// Items and participants in the order in which they first appear. Where one item has readings of several
/// kinds (deposit, spot, ...), each kind is an item of its own, called "ITEM KIND".
RoundTable round_table_from(std::vector<ComparedReading> readings);

/// What must be known about the table before believing it, one sentence each: readings without item or
/// collector, items that mix tissues, states or surfaces, or kinds that were kept apart.
std::vector<std::string> remarks_on(const RoundTable& table);

}  // namespace colorlib
