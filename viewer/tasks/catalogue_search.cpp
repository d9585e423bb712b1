#include <algorithm>
#include <colorlib/records/reagent_regions.hpp>
#include <set>
#include <tuple>
#include <viewer/settings/figures.hpp>
#include <viewer/tasks/catalogue_address_of.hpp>
#include <viewer/tasks/catalogue_jobs.hpp>

namespace tintfall::viewer {

using namespace colorlib;

namespace {

QString words(const std::string& text) { return QString::fromStdString(text); }
QString one_decimal(double value) { return figure(value, 1); }

CatalogueHitShown shown_hit(CatalogueHit hit, bool has_color, const Screen& screen) {
  CatalogueHitShown shown;
  if (hit.reading.lab) {
    const Lab& lab = *hit.reading.lab;
    shown.swatch = swatch_of(lab, screen);
    shown.lab = QStringLiteral("%1  %2  %3   ±%4")
                    .arg(one_decimal(lab.l), one_decimal(lab.a), one_decimal(lab.b),
                         one_decimal(hit.reading.de00_expanded));
  }
  if (const auto kind = region_kind_from(hit.reading.kind)) shown.kind = *kind;
  if (has_color) shown.distance = one_decimal(hit.de00);
  shown.hit = std::move(hit);
  return shown;
}

/// `limit`: 0, all.
Result<CatalogueQuery> query_of(const CatalogueSearch& search, std::size_t limit) {
  CatalogueQuery query;
  query.collector = search.collector.trimmed().toStdString();
  query.tissue = search.tissue.trimmed().toStdString();
  query.from = search.from.trimmed().toStdString();
  query.to = search.to.trimmed().toStdString();
  for (const std::string* day : {&query.from, &query.to})
    if (!day->empty() && !is_iso8601(*day))
      return fail(ErrorCode::bad_call, "'" + *day + "' is no ISO 8601 date.",
                  "Write it like 2031, 2031-10 or 2031-10-05.");
  if (search.kind) query.kind = region_kind_name(*search.kind);
  query.removed = search.removed;
  query.color = search.color;
  query.color_covariance = search.color_covariance;
  query.within_de00 = search.within_de00;
  query.limit = limit;
  return query;
}

/// The same question with the free text in each place where it may stand.
std::vector<CatalogueQuery> readings_of_text(const CatalogueQuery& query, const std::string& text) {
  if (text.empty()) return {query};
  std::vector<CatalogueQuery> all(3, query);
  all[0].number = text;
  all[1].working_name = text;
  all[2].word = text;
  return all;
}

tl::unexpected<Error> stopped() { return fail(ErrorCode::cancelled, "The search was stopped."); }

}  // namespace

Result<CatalogueAnswer> search_catalogue(const CatalogueSearch& search, const Screen& screen,
                                         Progress& progress) {
  CatalogueAnswer answer;
  const auto address = catalogue_address_of(search.address);
  if (!address) return fail(address.error());
  answer.where = words(address->text);
  const auto query = query_of(search, most_shown + 1);
  if (!query) return fail(query.error());
  if (!may_exist(*address)) return answer;
  progress.report(0, "searching");
  auto catalogue = Catalogue::open(*address, Catalogue::Open::existing);
  if (!catalogue) return fail(catalogue.error());
  answer.there = true;
  std::set<std::tuple<std::string, std::string, std::string>> known;  // number, record, region
  std::set<std::string> numbers;
  for (CatalogueQuery& each : readings_of_text(*query, search.text.trimmed().toStdString())) {
    if (progress.cancelled()) return stopped();
    auto hits = catalogue->find(each);
    if (!hits) return fail(hits.error());
    for (CatalogueHit& hit : *hits)
      if (known.emplace(hit.number, hit.content, hit.reading.region).second)
        answer.readings.push_back(shown_hit(std::move(hit), query->color.has_value(), screen));
    if (query->color) continue;  // only readings have colours
    auto lines = catalogue->list(each);
    if (!lines) return fail(lines.error());
    for (CatalogueLine& line : *lines)
      if (numbers.insert(line.number).second) answer.collections.push_back(std::move(line));
  }
  if (query->color)
    std::stable_sort(answer.readings.begin(), answer.readings.end(),
                     [](const auto& a, const auto& b) { return a.hit.de00 < b.hit.de00; });
  else
    std::stable_sort(answer.collections.begin(), answer.collections.end(),
                     [](const auto& a, const auto& b) { return a.number < b.number; });
  answer.more = answer.readings.size() > most_shown || answer.collections.size() > most_shown;
  if (answer.readings.size() > most_shown) answer.readings.resize(most_shown);
  if (answer.collections.size() > most_shown) answer.collections.resize(most_shown);
  if (progress.cancelled()) return stopped();
  return answer;
}

Result<QStringList> numbers_that_match(const CatalogueSearch& search, Progress& progress) {
  QStringList numbers;
  const auto address = catalogue_address_of(search.address);
  if (!address) return fail(address.error());
  const auto query = query_of(search, 0);
  if (!query) return fail(query.error());
  if (!may_exist(*address)) return numbers;
  progress.report(0, "searching");
  auto catalogue = Catalogue::open(*address, Catalogue::Open::existing);
  if (!catalogue) return fail(catalogue.error());
  std::set<std::string> found;
  for (const CatalogueQuery& each : readings_of_text(*query, search.text.trimmed().toStdString())) {
    if (progress.cancelled()) return stopped();
    if (query->color) {  // only readings have colours
      const auto hits = catalogue->find(each);
      if (!hits) return fail(hits.error());
      for (const CatalogueHit& hit : *hits) found.insert(hit.number);
      continue;
    }
    const auto lines = catalogue->list(each);
    if (!lines) return fail(lines.error());
    for (const CatalogueLine& line : *lines) found.insert(line.number);
  }
  for (const std::string& number : found) numbers.push_back(words(number));
  return numbers;
}

Result<CollectionShown> show_collection(const QString& address, const QString& number) {
  auto catalogue = open_catalogue(address, Catalogue::Open::existing);
  if (!catalogue) return fail(catalogue.error());
  auto entry = catalogue->show(number.toStdString(), true);
  if (!entry) return fail(entry.error());
  const auto changes = catalogue->history(number.toStdString());
  if (!changes) return fail(changes.error());
  CollectionShown shown;
  shown.number = words(entry->collection.number);
  shown.removed = !entry->removed.empty();
  static const std::set<std::string_view> of_place{"place",
                                                   "area",
                                                   "latitude_deg",
                                                   "longitude_deg",
                                                   "coordinate_uncertainty_m",
                                                   "hide_place",
                                                   "place_coarseness_deg"};
  for (const CollectionField& field : collection_fields())
    if (!of_place.contains(field.name))
      shown.fields.push_back({words(std::string(field.name)), words(field_text(entry->collection, field)),
                              words(std::string(field.explanation))});
  for (CatalogueRecord& record : entry->records) {
    RecordShown line{words(record.content),
                     words(record.photo_name),
                     words(record.captured),
                     words(record.read_by),
                     {},
                     !record.removed.empty(),
                     {},
                     {}};
    QStringList about;
    std::string reagent = reagent_words(record);
    for (const std::string* part : {&record.tissue, &record.state, &reagent, &record.chart})
      if (!part->empty()) about.push_back(words(*part));
    line.about = about.join(QStringLiteral(", "));
    for (const CatalogueReading& reading : record.readings) {
      const QString lab = reading.lab ? QStringLiteral("%1, %2  %3  %4")
                                            .arg(words(reading.name), one_decimal(reading.lab->l),
                                                 one_decimal(reading.lab->a), one_decimal(reading.lab->b))
                                      : words(reading.refused);
      line.readings.push_back(QStringLiteral("%1: %2").arg(words(reading.region), lab));
    }
    line.json = std::move(record.json);
    shown.records.push_back(std::move(line));
  }
  for (const CatalogueChange& change : *changes)
    shown.changes.push_back({words(change.when), words(change.who), words(change.what), words(change.before),
                             words(change.after)});
  shown.collection = std::move(entry->collection);
  return shown;
}

Result<std::vector<NamedRecord>> records_of(const QString& address, const QStringList& numbers,
                                            const QStringList& contents) {
  auto catalogue = open_catalogue(address, Catalogue::Open::existing);
  if (!catalogue) return fail(catalogue.error());
  std::vector<NamedRecord> records;
  for (const QString& number : numbers) {
    auto entry = catalogue->show(number.toStdString());
    if (!entry) return fail(entry.error());
    for (CatalogueRecord& record : entry->records)
      if (contents.isEmpty() || contents.contains(words(record.content)))
        records.push_back(
            {QStringLiteral("%1/%2/%3").arg(number, words(record.content).left(8), words(record.photo_name)),
             std::move(record.json)});
  }
  return records;
}

}  // namespace tintfall::viewer
