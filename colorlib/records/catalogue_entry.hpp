#pragma once
/// What a catalogue keeps: a collection with its records, each record with its readings.

#include <colorlib/base/result.hpp>
#include <colorlib/base/small_matrix.hpp>
#include <colorlib/colorimetry/color_types.hpp>
#include <colorlib/records/collection.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace colorlib {

/// One region's colour, as far as it is searched for; everything else stays in the record's JSON.
struct CatalogueReading {
  std::string region, kind;        ///< id and kind of the region
  std::string name;                ///< block name
  std::vector<std::string> terms;  ///< trade terms
  std::vector<std::string> deposit_classes;
  std::string munsell;
  std::optional<Lab> lab;  ///< D50, 2 degree; none: refused
  Matrix3 lab_covariance{};
  double de00_expanded = 0;
  std::string refused;  ///< why there is no colour
  std::vector<std::string> flags;
  bool operator==(const CatalogueReading&) const = default;
};

/// One photo's record.
struct CatalogueRecord {
  std::string json;     ///< the record (docs/reference/record_format.md) on one line: kept to the letter
  std::string content;  ///< SHA-256 of `json`, or of the record that it was reduced from: kept once
  std::string item, read_by, tissue, state, reagent;  ///< of its subject
  std::string captured, photo_name, photo_sha256, chart;
  std::vector<CatalogueReading> readings;
  std::string removed;  ///< when it was removed, ISO 8601; empty: it was not
  bool operator==(const CatalogueRecord&) const = default;
};

struct CatalogueEntry {
  Collection collection;
  std::vector<CatalogueRecord> records;
  std::string removed;  ///< as of a record
  /// The collection is known through its records alone: when none of them is new, none is made for them.
  bool of_records_only = false;
  bool operator==(const CatalogueEntry&) const = default;
};

/// What may be said beside a record that does not say it itself; what it says stays.
struct RecordAdditions {
  std::string reagent;
  std::string photo_sha256;
};

/// From the text of a record of format "tintfall-record". Additions are written into its JSON. Errors:
/// unreadable_record.
Result<CatalogueRecord> catalogue_record_from(std::string_view json, std::string_view name,
                                              const RecordAdditions& additions = {});

/// The collection that a record speaks of, as far as it does: number (`item`), collector, tissue, state,
/// surface, and the day of the photograph is not taken for the day of collecting.
Collection collection_of(const CatalogueRecord& record);

/// The entry that a record makes for the collection of this number (empty: the record's item). Who read it,
/// which tissue and which state stay with the record: two readers of one collection are no contradiction.
/// Errors: bad_call when neither names a collection.
Result<CatalogueEntry> entry_of(CatalogueRecord record, std::string_view number = {});

}  // namespace colorlib
