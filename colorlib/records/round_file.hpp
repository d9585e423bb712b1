#pragma once
/// A round: several collectors read the same items. The file that ties items, collectors and records together
/// (format "tintfall-round", version 1; docs/reference/round_format.md).

#include <colorlib/base/result.hpp>
#include <colorlib/colorimetry/color_types.hpp>
#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace colorlib {

/// What an item's colour is known to be: stated, or read from a record.
struct RoundReference {
  std::string source;  ///< words: "spectrophotometer, 45:0"
  Lab lab;             ///< D50, 2 degree; meaningless when `record` is named
  Matrix3 covariance{};
  std::string record, reading;  ///< path of a record and id of the reading in it; empty: the value is stated
};

struct RoundItem {
  std::string id, title;
  std::optional<RoundReference> reference;
};

/// `camera` and `light` are the collector's own words; they are repeated, not interpreted.
struct RoundCollector {
  std::string id, name, camera, light;
};

struct RoundEntry {
  std::string item, collector;
  std::string record;   ///< path, relative to the round file's folder, inside it
  std::string reading;  ///< id; empty: the only comparable one of the record
};

struct Round {
  std::string title, remark;
  std::optional<double> tolerance_de00;
  std::vector<RoundItem> items;
  std::vector<RoundCollector> collectors;
  std::vector<RoundEntry> entries;
};

struct RoundLimits {
  static constexpr std::size_t bytes = 8u << 20;
  static constexpr int nesting = 8;
  static constexpr std::size_t items = 1000, collectors = 1000, entries = 20'000;
};

/// Errors: unreadable_record, naming the place: an id that stands twice or is not declared, the same reading
/// listed twice, a path that is absolute or leaves the folder, a reference without uncertainty, a number that
/// is none. Unknown keys are ignored.
Result<Round> parse_round(std::string_view json, std::string_view name);
Result<Round> read_round(const std::filesystem::path& path);

/// The inverse: everything parsed comes back.
std::string round_json(const Round& round);

}  // namespace colorlib
