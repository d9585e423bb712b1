#pragma once
/// The catalogue: collections, records and readings in an SQLite file, or on a PostgreSQL server.

#include <colorlib/base/progress.hpp>
#include <colorlib/base/result.hpp>
#include <colorlib/records/catalogue_address.hpp>
#include <colorlib/records/catalogue_entry.hpp>
#include <functional>
#include <memory>
#include <span>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace colorlib {

/// What is asked for; what is not said does not narrow. Texts are compared without regard to case
/// (on a server as far as its locale knows letters); people, tissue, state and reagent by a part of them,
/// numbers and words as a whole. A reagent is one that the reading met: controls and drops of water met none.
struct CatalogueQuery {
  std::optional<Lab> color;    ///< D50, 2 degree
  Matrix3 color_covariance{};  ///< of `color`; zero: it is exact
  double within_de00 = 5;      ///< of `color`
  std::string number, collector, working_name, tissue, state, reagent;
  std::string word;        ///< a block name, trade term or deposit class
  std::string kind;        ///< of region
  std::string from, to;    ///< collected on these days or between: ISO 8601, shortened as one likes
  bool removed = false;    ///< what was removed, instead of what was not
  std::size_t limit = 20;  ///< 0: no limit
};

/// A reading that was found.
struct CatalogueHit {
  std::string number, collector, collected, working_name;  ///< of its collection
  std::string read_by, tissue, reagent, captured, photo_name,
      content;  ///< of its record; reagent: reagent_of
  CatalogueReading reading;
  double de00 = 0;  ///< from the colour asked for
  double within_probability =
      0;  ///< that the true difference is at most `within_de00`, by both uncertainties
};

/// A collection in a list.
struct CatalogueLine {
  std::string number, collector, collected, working_name, removed;
  std::size_t records = 0, readings = 0;
};

/// A record that was to go into one collection and lies in another already, where it stays.
struct RecordElsewhere {
  std::string photo_name;
  std::string wanted, number;  ///< of the collections: where it was to go, and where it lies
};

/// A collection that has another number in the catalogue, told by its uid.
struct CollectionRenumbered {
  std::string said, number;  ///< in what was added, and in the catalogue
};

/// What `add` did.
struct AddSummary {
  std::size_t collections_added = 0, collections_known = 0;
  std::size_t records_added = 0, records_known = 0, readings_added = 0;
  std::vector<RecordElsewhere> elsewhere;        ///< among `records_known`; the first 1000
  std::vector<CollectionRenumbered> renumbered;  ///< among `collections_known`; the first 1000
  AddSummary& operator+=(const AddSummary& more);
};

/// One change of one field.
struct CatalogueChange {
  std::string when, who, what;  ///< what: a field's name, "removed", "restored", ...
  std::string before, after;
};

/// What `check` found.
struct CatalogueHealth {
  int schema_version = 0;
  std::size_t collections = 0, records = 0, readings = 0;
  std::vector<std::string> problems;  ///< one sentence each; none: sound
  std::string advice;
};

/// One open catalogue; belongs to one thread. Every change is one transaction: it is there as a whole when
/// the call returns, and not at all when it fails. Several programs may use one catalogue at once; a writer
/// waits up to 30 s for another. Texts reach the database as parameters only, never as part of a statement.
/// Errors of all calls: unreadable_catalogue (damaged, foreign, newer, gone), cannot_write (full disk, no
/// right, busy), bad_call (what is asked for does not exist or contradicts what is there).
class Catalogue {
 public:
  enum class Open { existing, create };
  static constexpr int schema_version = 3;

  /// Opens, and brings an older schema forward. `create` makes the file or the tables when there are none.
  static Result<Catalogue> open(const CatalogueAddress& address, Open how);
  Catalogue(Catalogue&&) noexcept;
  Catalogue& operator=(Catalogue&&) noexcept;
  ~Catalogue();

  /// Adds collections and records. A collection of a known uid, else of a known number, keeps number and
  /// fields, blanks are filled; a field that says otherwise is an error (edit it first). A record that is
  /// there already is counted and passed over. Transactions of up to `batch` entries; `acknowledged` is
  /// called after each with what is safe so far.
  Result<AddSummary> add(std::span<const CatalogueEntry> entries, Progress& progress,
                         const std::function<void(const AddSummary&)>& acknowledged = {},
                         std::size_t batch = 1000);

  Result<std::vector<CatalogueHit>> find(const CatalogueQuery& query);
  /// By number; `limit` counts collections. The colour is not looked at.
  Result<std::vector<CatalogueLine>> list(const CatalogueQuery& query);
  /// With all records that were not removed (`removed`: those that were, too). Errors: bad_call.
  Result<CatalogueEntry> show(std::string_view number, bool removed = false);
  Result<std::vector<CatalogueChange>> history(std::string_view number);
  /// Every collection of `numbers` (all when empty), by number, in pages; stops at the first error of `take`.
  Result<std::monostate> each(const std::vector<std::string>& numbers, bool removed,
                              const std::function<Result<std::monostate>(const CatalogueEntry&)>& take);

  /// Fields and their new values; the values before stay in the history. Errors: bad_call.
  Result<std::monostate> edit(std::string_view number,
                              const std::vector<std::pair<std::string, std::string>>& fields);
  /// Out of sight, not gone: `restore` brings it back. `content` (a record's hash or its first 8 digits or
  /// more) removes only that record.
  Result<std::monostate> remove(std::string_view number, std::string_view content = {});
  Result<std::monostate> restore(std::string_view number, std::string_view content = {});

  Result<CatalogueHealth> check(Progress& progress);
  /// Builds the index of colours again from the readings.
  Result<std::monostate> rebuild_index();
  /// A copy as an SQLite file while others go on using the catalogue; an older backup is replaced as a
  /// whole. Errors: bad_call, when the file that is there is no catalogue.
  Result<std::monostate> backup(const std::filesystem::path& path, Progress& progress);

  struct Database;  ///< knows SOCI

 private:
  explicit Catalogue(std::unique_ptr<Database> database);
  std::unique_ptr<Database> database_;
};

}  // namespace colorlib
