#pragma once
/// The readings that a round file names.

#include <colorlib/base/progress.hpp>
#include <colorlib/base/result.hpp>
#include <colorlib/comparison/compared_reading.hpp>
#include <colorlib/comparison/consensus.hpp>
#include <colorlib/records/round_file.hpp>
#include <filesystem>
#include <vector>

namespace colorlib {

struct RoundReadings {
  ChosenReadings
      chosen;  ///< item and collector as the round names them; the collector's camera and light as traits
  std::vector<ReferenceColor> references;
};

/// Reads the records of `round`, whose paths count from `folder`. Errors: unreadable_record when a record is
/// missing or wrong, holds no such reading or several, or says another item or collector than the round does
/// (the collector's id or name); cancelled. A reading that was refused, or states no uncertainty, is left
/// out.
Result<RoundReadings> readings_of_round(const Round& round, const std::filesystem::path& folder,
                                        Progress& progress);

}  // namespace colorlib
