#pragma once
/// Records as JSON text (format "tintfall-record", version 1; docs/reference/record_format.md).

#include <colorlib/base/result.hpp>
#include <colorlib/records/record.hpp>
#include <cstddef>
#include <filesystem>
#include <string>
#include <string_view>

namespace colorlib {

/// Bounds on a record file.
struct RecordLimits {
  static constexpr std::size_t bytes =
      16u << 20;  ///< over a thousand readings; parsed, the worst text of this size takes 0.5 GB
  static constexpr int nesting = 16;
  static constexpr std::size_t readings = 10'000;
  static constexpr std::size_t photos = 1'000;  ///< read together
};

/// Pretty JSON when `indent` >= 0, one line otherwise; no line end. Rounding: Lab and its expanded
/// uncertainties, dE00 and millimetres to 3 decimals, pixels to 2, shares to 4, covariances to 6 significant
/// digits. Never NaN: a reading with a number that is not finite is written as refused, any other such number
/// as null.
std::string record_json(const Record& record, int indent = 2);

/// The inverse of record_json: everything written comes back. The advice beside a flag, which the record does
/// not hold, is this build's; empty beside a code that it does not know. Unknown keys are ignored. A reading
/// must have `lab` and `lab_covariance` or `lab_expanded`; what else is missing keeps its default (numbers of
/// the calibration: NaN when null). Errors: unreadable_record, naming the key.
Result<Record> parse_record(std::string_view json, std::string_view name);
/// The same from a file of at most RecordLimits::bytes.
Result<Record> read_record(const std::filesystem::path& path);
/// What parse_record makes of record_json(record): its numbers rounded as they are written. A record that
/// cannot be read back is returned as it is.
Record as_written(const Record& record);

}  // namespace colorlib
