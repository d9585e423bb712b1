#include <QCoreApplication>
#include <viewer/settings/figures.hpp>
#include <viewer/tasks/catalogue_address_of.hpp>
#include <viewer/tasks/catalogue_jobs.hpp>

namespace tintfall::viewer {

using namespace colorlib;

namespace {

QString tr(const char* text) { return QCoreApplication::translate("CatalogueJobs", text); }
QString words(const std::string& text) { return QString::fromStdString(text); }

std::string value_of(const Collection& collection, const std::string& name) {
  const CollectionField* field = find_collection_field(name);
  return field == nullptr ? std::string() : field_text(collection, *field);
}

QString what_is_kept(const Collection& place) {
  if (!place.latitude_deg)
    return place.place.empty() && place.area.empty() ? tr("No place is kept.")
                                                     : tr("Kept in words, without coordinates.");
  QString text = tr("Kept as %1, %2 degrees (north, east)")
                     .arg(short_figure(*place.latitude_deg, 10), short_figure(*place.longitude_deg, 10));
  if (place.coordinate_uncertainty_m)
    text += tr(", the site within %L1 km of it").arg(figure(*place.coordinate_uncertainty_m / 1000, 1));
  return text + QStringLiteral(".");
}

}  // namespace

Result<CatalogueChangeAsked> change_catalogue(const QString& address, const CatalogueChangeAsked& change) {
  auto catalogue = open_catalogue(address, Catalogue::Open::existing);
  if (!catalogue) return fail(catalogue.error());
  using Kind = CatalogueChangeAsked::Kind;
  const std::string number = change.number.toStdString(), content = change.content.toStdString();
  CatalogueChangeAsked back = change;
  if (change.kind != Kind::edit) {
    back.kind = change.kind == Kind::remove ? Kind::restore : Kind::remove;
    const auto done = change.kind == Kind::remove ? catalogue->remove(number, content)
                                                  : catalogue->restore(number, content);
    if (!done) return fail(done.error());
    return back;
  }
  const auto before = catalogue->show(number, true);
  if (!before) return fail(before.error());
  back.fields.clear();
  std::vector<std::pair<std::string, std::string>> fields;
  for (const auto& [name, value] : change.fields) {
    fields.emplace_back(name.toStdString(), value.toStdString());
    back.fields.emplace_back(name, words(value_of(before->collection, name.toStdString())));
    if (name == QLatin1String("number")) back.number = value.trimmed();
  }
  if (const auto done = catalogue->edit(number, fields); !done) return fail(done.error());
  return back;
}

Result<PlaceChecked> check_place(const PlaceTyped& typed) {
  Collection place;
  const auto set = [&](const char* name, const QString& value) -> Result<std::monostate> {
    const CollectionField* field = find_collection_field(name);
    if (const auto done = set_field(place, *field, value.toStdString()); !done)
      return fail(ErrorCode::bad_call, "The field " + std::string(name) + ": " + done.error().message + ".",
                  done.error().advice);
    return std::monostate{};
  };
  // A comma as decimal sign is what many type; coordinates hold no other comma.
  const QString latitude = QString(typed.latitude).replace(QLatin1Char(','), QLatin1Char('.')),
                longitude = QString(typed.longitude).replace(QLatin1Char(','), QLatin1Char('.'));
  for (const auto& [name, value] :
       {std::pair{"place", typed.place}, std::pair{"area", typed.area}, std::pair{"latitude_deg", latitude},
        std::pair{"longitude_deg", longitude},
        std::pair{"hide_place", typed.hidden ? QStringLiteral("yes") : QString()}})
    if (const auto done = set(name, value); !done) return fail(done.error());
  if (place.latitude_deg.has_value() != place.longitude_deg.has_value())
    return fail(ErrorCode::bad_call, "Only one of latitude and longitude was typed.",
                "Give both, or neither.");
  if (typed.grid_deg > 0) coarsen_place(place, typed.grid_deg);
  PlaceChecked checked;
  for (const char* name : {"place", "area", "latitude_deg", "longitude_deg", "coordinate_uncertainty_m",
                           "place_coarseness_deg", "hide_place"})
    checked.fields.emplace_back(QString::fromLatin1(name), words(value_of(place, name)));
  const Collection told = with_place(place, PlaceDetail::coarse);
  checked.sentence = what_is_kept(place) + QStringLiteral(" ") +
                     (told.latitude_deg ? tr("A coarse export tells %1, %2 and no site.")
                                              .arg(short_figure(*told.latitude_deg, 10),
                                                   short_figure(*told.longitude_deg, 10))
                                        : tr("A coarse export tells no coordinates and no site."));
  return checked;
}

Result<AddedToCatalogue> add_to_catalogue(const QString& address, const std::vector<NamedRecord>& records,
                                          const QString& number, Progress& progress) {
  std::vector<CatalogueEntry> entries;
  for (const NamedRecord& each : records) {
    auto record = catalogue_record_from(each.json, each.name.toStdString());
    if (!record) return fail(record.error());
    auto entry = entry_of(std::move(*record), number.trimmed().toStdString());
    if (!entry) return fail(entry.error());
    bool joined = false;
    for (CatalogueEntry& known : entries)
      if (known.collection.number == entry->collection.number) {
        fill_blanks(known.collection, entry->collection);
        known.records.push_back(std::move(entry->records.front()));
        joined = true;
        break;
      }
    if (!joined) entries.push_back(std::move(*entry));
  }
  if (entries.empty())
    return fail(ErrorCode::bad_call, "There is no record to add.",
                "Read a photo first, or choose record files.");
  auto catalogue = open_catalogue(address, Catalogue::Open::create);
  if (!catalogue) return fail(catalogue.error());
  const auto sum = catalogue->add(entries, progress);
  if (!sum) return fail(sum.error());
  AddedToCatalogue added;
  added.number = words(entries.front().collection.number);
  added.sentence = sum->records_added == 0
                       ? tr("Already there: nothing was added.")
                       : tr("Added to the catalogue: %1 record(s) with %2 reading(s), %3 new collection(s).")
                             .arg(sum->records_added)
                             .arg(sum->readings_added)
                             .arg(sum->collections_added);
  return added;
}

}  // namespace tintfall::viewer
