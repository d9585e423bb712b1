#pragma once
/// The catalogue for the window: searching, one collection as it is shown, changing, adding. Each job opens
/// the catalogue for itself: an open one belongs to one thread.

#include <QImage>
#include <QStringList>
#include <colorlib/exports/catalogue_files.hpp>
#include <colorlib/records/catalogue.hpp>
#include <optional>
#include <viewer/tasks/record_jobs.hpp>

namespace tintfall::viewer {

/// What is looked for, as typed; what is empty does not narrow.
struct CatalogueSearch {
  QString address;  ///< empty: the usual one
  QString text;     ///< a number, part of a working name, or a name of a colour
  QString collector, tissue, from, to;
  std::optional<colorlib::RegionKind> kind;
  bool removed = false;
  std::optional<colorlib::Lab> color;
  colorlib::Matrix3 color_covariance{};
  double within_de00 = 5;
  bool operator==(const CatalogueSearch&) const = default;
};

/// A reading as it is listed.
struct CatalogueHitShown {
  colorlib::CatalogueHit hit;
  colorlib::RegionKind kind = colorlib::RegionKind::other;
  ScreenSwatch swatch;
  QString lab;       ///< "42.4  19.0  29.1   ±0.9"; empty: refused
  QString distance;  ///< from the colour asked for; empty: none was
};

struct CatalogueAnswer {
  bool there = false;  ///< false: there is no catalogue yet
  QString where;       ///< file or server, for people
  std::vector<CatalogueHitShown> readings;
  std::vector<colorlib::CatalogueLine> collections;
  bool more = false;  ///< there are more than are shown
};
inline constexpr std::size_t most_shown = 500;

/// For jobs. Errors: those of Catalogue; bad_call for days that are none; cancelled.
colorlib::Result<CatalogueAnswer> search_catalogue(const CatalogueSearch& search, const Screen& screen,
                                                   colorlib::Progress& progress);

/// The number of every collection that the same search finds, however many are shown. Errors: as above; none
/// is found: an empty list.
colorlib::Result<QStringList> numbers_that_match(const CatalogueSearch& search, colorlib::Progress& progress);

/// One field of a collection.
struct FieldShown {
  QString name;  ///< as files and options spell it
  QString value, explanation;
};
struct RecordShown {
  QString content, photo, captured, read_by, about;
  bool removed = false;
  QStringList readings;  ///< "A: strong brown, 42.4  19.0  29.1"
  std::string json;
};
struct ChangeShown {
  QString when, who, what, before, after;
};
struct CollectionShown {
  QString number;
  bool removed = false;
  std::vector<FieldShown> fields;  ///< all but those of the place
  colorlib::Collection collection;
  std::vector<RecordShown> records;
  std::vector<ChangeShown> changes;
};
colorlib::Result<CollectionShown> show_collection(const QString& address, const QString& number);

/// Records of these collections for comparing; those with `contents`, or all when it is empty.
colorlib::Result<std::vector<NamedRecord>> records_of(const QString& address, const QStringList& numbers,
                                                      const QStringList& contents);

/// What a change was and what takes it back.
struct CatalogueChangeAsked {
  enum class Kind { edit, remove, restore };
  Kind kind = Kind::edit;
  QString number;
  QString content;  ///< of a record that is removed or restored; empty: the whole collection
  std::vector<std::pair<QString, QString>> fields;
};
/// Gives the change that takes this one back.
colorlib::Result<CatalogueChangeAsked> change_catalogue(const QString& address,
                                                        const CatalogueChangeAsked& change);

/// The place of a collection as it is typed, without a map.
struct PlaceTyped {
  QString place, area, latitude, longitude;
  double grid_deg = 0;  ///< 0: as exact as typed
  bool hidden = false;
};
struct PlaceChecked {
  std::vector<std::pair<QString, QString>> fields;  ///< as they would be kept
  QString sentence;                                 ///< what stays and what is told
};
/// Errors: bad_call, naming field and value.
colorlib::Result<PlaceChecked> check_place(const PlaceTyped& typed);

/// Adds records, given as JSON with a name for messages. `number`: empty, the record's item.
struct AddedToCatalogue {
  QString number, sentence;
};
colorlib::Result<AddedToCatalogue> add_to_catalogue(const QString& address,
                                                    const std::vector<NamedRecord>& records,
                                                    const QString& number, colorlib::Progress& progress);
colorlib::Result<AddedToCatalogue> add_files_to_catalogue(const QString& address, const QStringList& files,
                                                          colorlib::Progress& progress);

/// Which collections leave, how much of their places, where to.
struct CatalogueExport {
  QString address;
  QStringList numbers;
  colorlib::PlaceDetail places = colorlib::PlaceDetail::coarse;
  QString file;      ///< its ending tells the format
  QString pictures;  ///< folder with overlays or photographs for the report
};
colorlib::Result<QString> export_catalogue(const CatalogueExport& wanted, colorlib::Progress& progress);
/// The first pages of the report.
colorlib::Result<std::vector<QImage>> preview_report(const CatalogueExport& wanted,
                                                     colorlib::Progress& progress);

}  // namespace tintfall::viewer
