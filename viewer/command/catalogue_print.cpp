#include <fmt/format.h>

#include <algorithm>
#include <colorlib/calibration/error_budget.hpp>
#include <colorlib/naming/name_sentence.hpp>
#include <colorlib/records/collection_text.hpp>
#include <colorlib/records/photo_names.hpp>
#include <colorlib/records/reagent_regions.hpp>
#include <nlohmann/json.hpp>
#include <viewer/command/catalogue_print.hpp>
#include <viewer/command/json_text.hpp>
#include <viewer/command/swatch.hpp>

namespace tintfall {

using namespace colorlib;
using Json = nlohmann::ordered_json;

namespace {

constexpr std::size_t hash_digits = 8;
constexpr std::size_t swatch_columns = 4;

void print_swatch(const std::optional<Lab>& lab, bool color, std::ostream& out) {
  if (!lab || !color) return;
  write_swatch(*lab, swatch_columns, out);
  out << ' ';
}

std::string lab_text(const CatalogueReading& reading) {
  if (!reading.lab) return "refused: " + reading.refused;
  const Vector3 u = expanded_uncertainty(reading.lab_covariance);
  return fmt::format("L* {:.1f} ± {:.1f}  a* {:.1f} ± {:.1f}  b* {:.1f} ± {:.1f}", reading.lab->l, u[0],
                     reading.lab->a, u[1], reading.lab->b, u[2]);
}

std::string said(std::initializer_list<std::pair<const char*, const std::string*>> parts) {
  std::string text;
  for (const auto& [head, value] : parts)
    if (!value->empty()) text.append(text.empty() ? "" : ", ").append(head).append(*value);
  return text;
}

Json reading_json(const CatalogueReading& reading) {
  Json json{{"id", reading.region}, {"kind", reading.kind}};
  if (!reading.lab) {
    json["refused"] = reading.refused;
    return json;
  }
  const Vector3 u = expanded_uncertainty(reading.lab_covariance);
  json["lab"] = {reading.lab->l, reading.lab->a, reading.lab->b};
  json["lab_expanded"] = {rounded(u[0], 3), rounded(u[1], 3), rounded(u[2], 3)};
  json["de00_expanded"] = rounded(reading.de00_expanded, 3);
  json["munsell"] = reading.munsell;
  json["name"] = reading.name;
  json["terms"] = reading.terms;
  json["deposit_classes"] = reading.deposit_classes;
  json["flags"] = reading.flags;
  return json;
}

}  // namespace

void print_lines(const std::vector<CatalogueLine>& lines, std::ostream& out) {
  if (lines.empty()) out << "Nothing of that kind in the catalogue.\n";
  std::size_t widest = 0;
  for (const CatalogueLine& line : lines) widest = std::max(widest, line.number.size());
  for (const CatalogueLine& line : lines) {
    const std::string about =
        said({{"", &line.working_name}, {"by ", &line.collector}, {"", &line.collected}});
    out << fmt::format("{:<{}}   {:>3} {:<8} {:>3} {:<8}   {}{}\n", line.number, widest, line.records,
                       line.records == 1 ? "record," : "records,", line.readings,
                       line.readings == 1 ? "reading" : "readings", about,
                       line.removed.empty() ? "" : "   removed " + line.removed);
  }
}

void print_hits(const std::vector<CatalogueHit>& hits, const CatalogueQuery& query, bool color,
                std::ostream& out) {
  if (hits.empty()) out << "Nothing of that kind in the catalogue.\n";
  for (const CatalogueHit& hit : hits) {
    const CatalogueReading& reading = hit.reading;
    print_swatch(reading.lab, color, out);
    out << hit.number << "  " << reading.region << " (" << reading.kind << ")";
    if (query.color)
      out << fmt::format("   ΔE00 {:.1f}, within {:g} with {}", hit.de00, query.within_de00,
                         percentage_from(hit.within_probability));
    out << '\n';
    out << "    " << (reading.name.empty() ? "" : reading.name + "   ") << lab_text(reading) << '\n';
    const std::string about = said({{"", &hit.working_name},
                                    {"collected by ", &hit.collector},
                                    {"", &hit.collected},
                                    {"read by ", &hit.read_by},
                                    {"tissue ", &hit.tissue},
                                    {"reagent ", &hit.reagent},
                                    {"photo ", &hit.photo_name}});
    if (!about.empty()) out << "    " << about << '\n';
  }
  if (query.limit > 0 && hits.size() == query.limit)
    out << fmt::format("There may be more than these {}: --limit shows them.\n", query.limit);
}

void print_entry(const CatalogueEntry& entry, bool color, std::ostream& out) {
  out << entry.collection.number << (entry.removed.empty() ? "" : "   removed " + entry.removed) << '\n';
  for (const CollectionField& field : collection_fields()) {
    const std::string text = field_text(entry.collection, field);
    if (!text.empty() && field.name != "number") out << fmt::format("  {:<26}{}\n", field.name, text);
  }
  for (const CatalogueRecord& record : entry.records) {
    const std::string photos = photo_words(record), reagent = reagent_words(record);
    const std::string about = said({{"photo ", &photos},
                                    {"taken ", &record.captured},
                                    {"read by ", &record.read_by},
                                    {"tissue ", &record.tissue},
                                    {"state ", &record.state},
                                    {"reagent ", &reagent}});
    out << fmt::format("\n  record {}   {}{}\n", record.content.substr(0, hash_digits), about,
                       record.removed.empty() ? "" : "   removed " + record.removed);
    for (const CatalogueReading& reading : record.readings) {
      out << "    ";
      print_swatch(reading.lab, color, out);
      out << reading.region << " (" << reading.kind << ")   "
          << (reading.name.empty() ? "" : reading.name + "   ") << lab_text(reading) << '\n';
    }
  }
}

void print_history(const std::vector<CatalogueChange>& changes, std::ostream& out) {
  out << "\n  history\n";
  if (changes.empty()) out << "    nothing was changed\n";
  for (const CatalogueChange& change : changes) {
    out << fmt::format("    {} {}: {}", change.when, change.who, change.what);
    if (!change.before.empty() || !change.after.empty())
      out << fmt::format(" '{}' -> '{}'", change.before, change.after);
    out << '\n';
  }
}

Json json_from(const std::vector<CatalogueLine>& lines) {
  Json list = Json::array();
  for (const CatalogueLine& line : lines)
    list.push_back({{"number", line.number},
                    {"collector", line.collector},
                    {"collected", line.collected},
                    {"working_name", line.working_name},
                    {"records", line.records},
                    {"readings", line.readings},
                    {"removed", line.removed.empty() ? Json() : Json(line.removed)}});
  return {{"collections", list}};
}

Json json_from(const std::vector<CatalogueHit>& hits, const CatalogueQuery& query) {
  Json list = Json::array();
  for (const CatalogueHit& hit : hits) {
    Json json{{"number", hit.number},
              {"working_name", hit.working_name},
              {"collector", hit.collector},
              {"collected", hit.collected},
              {"record", hit.content},
              {"read_by", hit.read_by},
              {"tissue", hit.tissue},
              {"reagent", hit.reagent},
              {"captured", hit.captured},
              {"photo", hit.photo_name},
              {"reading", reading_json(hit.reading)}};
    if (query.color) {
      json["de00"] = rounded(hit.de00, 3);
      json["within_probability"] = rounded(hit.within_probability, 3);
    }
    list.push_back(std::move(json));
  }
  Json answer;
  if (query.color) answer["within_de00"] = query.within_de00;
  answer["hits"] = std::move(list);
  return answer;
}

Json json_from(const CatalogueEntry& entry) {
  Json records = Json::array();
  for (const CatalogueRecord& record : entry.records) {
    Json json{{"content", record.content}};
    if (!record.removed.empty()) json["removed"] = record.removed;
    json["record"] = Json::parse(record.json, nullptr, false);
    records.push_back(std::move(json));
  }
  Json json{{"collection", collection_json(entry.collection)}};
  if (!entry.removed.empty()) json["removed"] = entry.removed;
  json["records"] = std::move(records);
  return json;
}

}  // namespace tintfall
