#pragma once
/// A reading as it takes part in a comparison, with what its record says of how it came about.

#include <colorlib/comparison/agreement.hpp>
#include <colorlib/records/record.hpp>
#include <optional>
#include <string>
#include <vector>

namespace colorlib {

/// One thing that a record says: {"photo", "raw"}, {"chart", "frame-a5"}. Empty values are not kept.
struct Trait {
  std::string name, value;
  bool operator==(const Trait&) const = default;
};

struct ComparedReading {
  std::string label;       ///< unique in the comparison, for people and JSON
  std::string item;        ///< empty: the record does not say
  std::string collector;   ///< empty: the record does not say
  std::string record, id;  ///< the record's file, and the reading in it
  RegionKind kind = RegionKind::other;
  UncertainColor color;
  std::vector<Trait> traits;
  std::vector<std::string> flags;   ///< codes of the reading and of its photo
  std::string photo;                ///< name and time of the photo
  double check_de00_mean = 0;       ///< of the sheet's patches; 0 or NaN when not known
  double lighting_spread_de00 = 0;  ///< the same
};

/// A reading or a record that takes no part, and why, in one sentence.
struct LeftOut {
  std::string what, why;
};

/// Which readings of a record are compared. By default those of specimens: neither ground nor controls.
struct ReadingSelection {
  std::optional<RegionKind> kind;
  std::string id;  ///< empty: any
};

struct ChosenReadings {
  std::vector<ComparedReading> readings;
  std::vector<LeftOut> left_out;  ///< refused ones, and those that state no uncertainty
};

/// The readings of `record` that the selection means; `file` names the record.
ChosenReadings compared_readings_from(const Record& record, const std::string& file,
                                      const ReadingSelection& selection = {});

/// Removes readings that are another's copy (same photo, region and numbers, under any file name) and says
/// so: repeats of one photograph are no repeats.
void leave_out_copies(ChosenReadings& chosen);

}  // namespace colorlib
