#include <fmt/format.h>

#include <array>
#include <colorlib/calibration/error_budget.hpp>
#include <colorlib/exports/darwin_core.hpp>
#include <colorlib/exports/json_lines.hpp>
#include <colorlib/exports/zip_archive.hpp>
#include <colorlib/records/reagent_regions.hpp>

namespace colorlib {
namespace {

constexpr std::string_view terms = "http://rs.tdwg.org/dwc/terms/", dublin_core = "http://purl.org/dc/terms/";
constexpr const char* own_file = "tintfall.jsonl";
constexpr std::size_t most_own_bytes = std::size_t{1} << 30;

/// A column: its term, and where the term lives.
struct Term {
  std::string_view name;
  std::string_view vocabulary = terms;
};

constexpr std::array occurrence_terms{Term{"occurrenceID"},
                                      Term{"basisOfRecord"},
                                      Term{"occurrenceStatus"},
                                      Term{"recordNumber"},
                                      Term{"recordedBy"},
                                      Term{"eventDate"},
                                      Term{"higherGeography"},
                                      Term{"locality"},
                                      Term{"decimalLatitude"},
                                      Term{"decimalLongitude"},
                                      Term{"geodeticDatum"},
                                      Term{"coordinateUncertaintyInMeters"},
                                      Term{"dataGeneralizations"},
                                      Term{"informationWithheld"},
                                      Term{"kingdom"},
                                      Term{"verbatimIdentification"},
                                      Term{"identifiedBy"},
                                      Term{"identificationRemarks"},
                                      Term{"habitat"},
                                      Term{"preparations"},
                                      Term{"associatedMedia"},
                                      Term{"occurrenceRemarks"},
                                      Term{"license", dublin_core}};
constexpr std::array measurement_terms{
    Term{"occurrenceID"},      Term{"measurementID"},           Term{"parentMeasurementID"},
    Term{"measurementType"},   Term{"measurementValue"},        Term{"measurementAccuracy"},
    Term{"measurementUnit"},   Term{"measurementDeterminedBy"}, Term{"measurementDeterminedDate"},
    Term{"measurementMethod"}, Term{"measurementRemarks"}};

std::string cell(const std::string& text) {
  std::string quoted = "\"";
  for (const char c : text) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  quoted += '"';
  return quoted;
}

std::string line(const std::vector<std::string>& cells) {
  std::string text;
  for (const std::string& value : cells) text.append(text.empty() ? "" : ",").append(cell(value));
  return text + "\n";
}

template <std::size_t N>
std::string heading(const std::array<Term, N>& columns) {
  std::vector<std::string> names;
  for (const Term& term : columns) names.emplace_back(term.name);
  return line(names);
}

template <std::size_t N>
std::string description(const char* element, const char* row_type, const char* file, const char* id,
                        const std::array<Term, N>& columns) {
  std::string xml = fmt::format(
      "  <{} encoding=\"UTF-8\" fieldsTerminatedBy=\",\" linesTerminatedBy=\"\\n\" fieldsEnclosedBy='\"' "
      "ignoreHeaderLines=\"1\" rowType=\"{}{}\">\n    <files><location>{}</location></files>\n    <{} "
      "index=\"0\"/>\n",
      element, terms, row_type, file, id);
  for (std::size_t i = 0; i < N; ++i)
    xml +=
        fmt::format("    <field index=\"{}\" term=\"{}{}\"/>\n", i, columns[i].vocabulary, columns[i].name);
  return xml + fmt::format("  </{}>\n", element);
}

std::string meta() {
  return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<archive xmlns=\"http://rs.tdwg.org/dwc/text/\">\n" +
         description("core", "Occurrence", "occurrence.csv", "id", occurrence_terms) +
         description("extension", "MeasurementOrFact", "measurementorfact.csv", "coreid", measurement_terms) +
         "</archive>\n";
}

/// "surface: foil; covered: yes", of what is said.
std::string listed(std::initializer_list<std::pair<const char*, std::string>> parts) {
  std::string text;
  for (const auto& [head, value] : parts)
    if (!value.empty()) text += fmt::format("{}{}{}", text.empty() ? "" : "; ", head, value);
  return text;
}

std::string number(const std::optional<double>& value) {
  return value ? fmt::format("{}", *value) : std::string();
}

std::string occurrence_line(const CatalogueEntry& entry, const std::string& id) {
  const Collection& c = entry.collection;
  std::string media;
  for (const CatalogueRecord& record : entry.records)
    if (!record.photo_sha256.empty())
      media +=
          fmt::format("{}{} (sha256 {})", media.empty() ? "" : " | ", record.photo_name, record.photo_sha256);
  return line(
      {id,
       "HumanObservation",
       "present",
       c.number,
       c.recorder.empty() || c.recorder == c.collector ? c.collector : c.collector + " | " + c.recorder,
       c.collected,
       c.area,
       c.place,
       number(c.latitude_deg),
       number(c.longitude_deg),
       c.latitude_deg ? "WGS84" : "",
       number(c.coordinate_uncertainty_m),
       c.place_coarseness_deg.value_or(0) > 0
           ? fmt::format("coordinates rounded to {} degree", *c.place_coarseness_deg)
           : "",
       c.hide_place == "yes" && !c.latitude_deg ? "the site is not published" : "",
       "Fungi",
       c.working_name,
       c.named_by,
       c.working_name.empty() ? "" : "working name; not derived from a colour",
       listed({{"", c.habitat}, {"substrate: ", c.substrate}}),
       listed({{"tissue: ", c.tissue},
               {"state: ", c.state},
               {"deposit on ", c.surface},
               {"deposit ", c.deposit_state},
               {"", c.deposit_form},
               {"thickness: ", c.thickness},
               {"backings: ", c.backings},
               {"contamination: ", c.contamination}}),
       media,
       c.remarks,
       c.licence});
}

std::string measurement_lines(const CatalogueRecord& record, const std::string& id) {
  std::string text;
  const std::string method = fmt::format(
      "photograph with a printed sheet of known colours ({}); CIELAB, D50, CIE 1931 2 degree observer",
      record.chart.empty() ? "sheet not stated" : record.chart);
  for (const CatalogueReading& reading : record.readings) {
    if (!reading.lab) continue;
    const std::string parent = fmt::format("{}#{}-{}", id, record.content.substr(0, 16), reading.region);
    const std::string where = listed({{"tissue: ", record.tissue},
                                      {"state: ", record.state},
                                      {"reagent: ", reagent_of(record, reading)},
                                      {"flags: ", fmt::format("{}", fmt::join(reading.flags, " "))}});
    text +=
        line({id, parent, "", fmt::format("colour of {}", reading.kind), reading.name,
              fmt::format("within CIEDE2000 {:.2f} of the true colour (95 %)", reading.de00_expanded), "",
              record.read_by, record.captured, method, listed({{"Munsell ", reading.munsell}, {"", where}})});
    const Vector3 u = expanded_uncertainty(reading.lab_covariance);
    const Vector3 lab = vector_from(*reading.lab);
    constexpr std::array coordinates{"L*", "a*", "b*"};
    for (std::size_t i = 0; i < 3; ++i)
      text += line({id, fmt::format("{}-{}", parent, coordinates[i][0]), parent,
                    fmt::format("CIELAB {} (D50, 2 degree) of {}", coordinates[i], reading.kind),
                    fmt::format("{}", lab[i]), fmt::format("U = {:.2f}, k = 2", u[i]), "1", record.read_by,
                    record.captured, method, where});
  }
  return text;
}

}  // namespace

Result<std::string> darwin_core_archive(const std::vector<CatalogueEntry>& entries) {
  std::string occurrences = heading(occurrence_terms), measurements = heading(measurement_terms);
  for (const CatalogueEntry& entry : entries) {
    const std::string id = entry.collection.uid.empty() ? entry.collection.number : entry.collection.uid;
    occurrences += occurrence_line(entry, id);
    for (const CatalogueRecord& record : entry.records) measurements += measurement_lines(record, id);
  }
  return zip_archive({{"meta.xml", meta()},
                      {"occurrence.csv", std::move(occurrences)},
                      {"measurementorfact.csv", std::move(measurements)},
                      {own_file, json_lines_from(entries)}});
}

Result<std::vector<CatalogueEntry>> entries_from_darwin_core(std::string_view archive,
                                                             std::string_view name) {
  const auto names = zip_names(archive);
  if (!names) return fail(names.error());
  if (std::find(names->begin(), names->end(), own_file) == names->end())
    return fail(
        ErrorCode::unreadable_table,
        fmt::format("Reading '{}': the archive holds no '{}', so it was not written here.", name, own_file),
        "Occurrences of other programs can be added as CSV with 'tintfall catalogue add --fields'.");
  const auto text = zip_member(archive, own_file, most_own_bytes);
  if (!text) return fail(text.error());
  return entries_from_json_lines(*text, fmt::format("{}/{}", name, own_file));
}

}  // namespace colorlib
