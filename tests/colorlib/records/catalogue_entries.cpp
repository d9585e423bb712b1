#include <fmt/format.h>

#include <colorlib/records/content_hash.hpp>
#include <cstdlib>
#include <random>
#include <stdexcept>
#include <tests/colorlib/records/catalogue_entries.hpp>

namespace colorlib {

std::string scenario_record(const std::string& item, const std::string& reader, const Lab& lab,
                            const std::string& name, const std::string& term) {
  return fmt::format(
      R"({{"format":"tintfall-record","version":1,"software":"made for a test","subject":{{"item":"{0}",)"
      R"("collector":"{1}","tissue":"","state":"air-dried","surface":"foil"}},"photo":{{"name":"{0}-{1}.jpg",)"
      R"("width_px":4000,"height_px":3000,"captured":"2031-10-05T11:07:13+02:00"}},"chart":{{"name":"frame-a5",)"
      R"("reference":"measured"}},"calibration":{{"model":"none"}},"readings":[{{"id":"A","kind":"deposit",)"
      R"("region":{{"frame":"chart","shape":"ellipse","centre":[105,74],"radii":[8,8]}},"pixels":5000,)"
      R"("lab":[{2},{3},{4}],"lab_expanded":[0.8,1.0,1.2],)"
      R"("lab_covariance":[[0.16,0,0],[0,0.25,0],[0,0,0.36]],"de00_expanded":1.0,"munsell":"4.6YR 4.1/5.8",)"
      R"("name":"{5}","name_confidence":0.9,"trade_terms":["{6}"],"deposit_classes":["ochre"],)"
      R"("flags":["specular"]}}],"flags":[]}})",
      item, reader, lab.l, lab.a, lab.b, name, term);
}

std::vector<CatalogueEntry> scenario_entries() {
  // Means of the three repeats that the scenario's exchange lists.
  struct Row {
    const char *item, *reader;
    Lab lab;
  };
  const Row rows[] = {{"QH-01", "V", {88.12, 1.27, 17.43}},  {"QH-01", "Q", {89.74, 2.82, 14.61}},
                      {"QH-01", "H", {87.06, 1.71, 18.23}},  {"QH-01", "P", {87.76, 0.49, 16.58}},
                      {"QH-03", "V", {42.43, 19.30, 29.35}}, {"QH-03", "Q", {43.67, 20.60, 27.22}},
                      {"QH-03", "H", {40.77, 19.43, 30.21}}, {"QH-03", "P", {41.79, 18.35, 28.52}},
                      {"QH-06", "V", {42.88, 4.68, 25.30}},  {"QH-06", "Q", {44.95, 6.05, 22.71}},
                      {"QH-06", "H", {41.94, 5.26, 26.25}},  {"QH-06", "P", {42.63, 4.21, 24.53}}};
  struct Find {
    const char *number, *taxon, *place, *name, *term;
    double north, east;
  };
  const Find finds[] = {
      {"QH-01", "Russula sp.", "Old Ferrule Wood", "pale orange yellow", "cream", 51.2345, -2.3456},
      {"QH-03", "Cortinarius sp.", "Cindermarsh Heath", "strong brown", "rust", 51.3333, -2.1111},
      {"QH-06", "boletoid sp.", "Old Ferrule Wood", "moderate yellowish brown", "olive brown", 51.2346,
       -2.3457}};
  std::vector<CatalogueEntry> entries;
  for (const Find& find : finds) {
    CatalogueEntry entry;
    entry.collection.uid =
        fmt::format("urn:uuid:00000000-0000-4000-8000-0000000000{}", std::string(find.number).substr(3));
    entry.collection.number = find.number;
    entry.collection.collector = "Odmira Vell";
    entry.collection.collected = "2031-10-04T15:20+02:00";
    entry.collection.place = find.place;
    entry.collection.area = "Merrowshire";
    entry.collection.latitude_deg = find.north;
    entry.collection.longitude_deg = find.east;
    entry.collection.coordinate_uncertainty_m = 25;
    entry.collection.working_name = find.taxon;
    entry.collection.named_by = "Brisa Hollin";
    entry.collection.substrate = "soil, \"needle litter\"";
    entry.collection.deposit_covered = "yes";
    for (const Row& row : rows)
      if (std::string(row.item) == find.number) {
        auto record = catalogue_record_from(
            scenario_record(row.item, row.reader, row.lab, find.name, find.term), "test");
        if (!record) throw std::runtime_error(record.error().message);
        entry.records.push_back(*record);
      }
    entries.push_back(std::move(entry));
  }
  return entries;
}

std::vector<CatalogueEntry> made_up_entries(std::size_t first, std::size_t count, std::size_t records) {
  std::vector<CatalogueEntry> entries(count);
  for (std::size_t i = 0; i < count; ++i) {
    std::mt19937 random(static_cast<std::uint32_t>(first + i));
    std::uniform_real_distribution<double> lightness(15, 93), a(-8, 28), b(2, 45);
    CatalogueEntry& entry = entries[i];
    entry.collection.number = fmt::format("M-{:08}", first + i);
    entry.collection.collector = fmt::format("collector {}", (first + i) % 200);
    entry.collection.collected =
        fmt::format("20{:02}-{:02}-{:02}", 30 + (first + i) % 20, 1 + (first + i) % 12, 1 + (first + i) % 28);
    for (std::size_t k = 0; k < records; ++k) {
      CatalogueRecord record;
      record.item = entry.collection.number;
      record.read_by = entry.collection.collector;
      record.captured = entry.collection.collected;
      record.photo_name = fmt::format("{}-{}.jpg", entry.collection.number, k);
      record.chart = "frame-a5";
      CatalogueReading reading;
      reading.region = "A";
      reading.kind = "deposit";
      reading.name = "strong brown";
      reading.terms = {"rust", "tobacco"};
      reading.deposit_classes = {"ochre"};
      reading.munsell = "4.6YR 4.1/5.8";
      reading.lab = Lab{lightness(random), a(random), b(random)};
      reading.lab_covariance = {{0.16, 0.01, 0.02, 0.01, 0.25, 0.03, 0.02, 0.03, 0.36}};
      reading.de00_expanded = 1.1;
      record.json = fmt::format(
          R"({{"format":"tintfall-record","version":1,"subject":{{"item":"{}","collector":"{}"}},"photo":{{"name":"{}"}},)"
          R"("chart":{{"name":"frame-a5","reference":"measured"}},"readings":[{{"id":"A","kind":"deposit",)"
          R"("lab":[{},{},{}],"lab_expanded":[0.8,1.0,1.2],"lab_covariance":[[0.16,0.01,0.02],[0.01,0.25,0.03],)"
          R"([0.02,0.03,0.36]],"de00_expanded":1.1,"munsell":"4.6YR 4.1/5.8","name":"strong brown",)"
          R"("trade_terms":["rust","tobacco"],"deposit_classes":["ochre"],"flags":[]}}]}})",
          record.item, record.read_by, record.photo_name, reading.lab->l, reading.lab->a, reading.lab->b);
      record.content = sha256_of(record.json);
      record.readings.push_back(std::move(reading));
      entry.records.push_back(std::move(record));
    }
  }
  return entries;
}

ScratchCatalogue::ScratchCatalogue() {
  std::string pattern = (std::filesystem::temp_directory_path() / "tintfall-catalogue-XXXXXX").string();
  if (::mkdtemp(pattern.data()) == nullptr) throw std::runtime_error("no scratch folder");
  folder_ = pattern;
}

ScratchCatalogue::~ScratchCatalogue() {
  std::error_code ignored;
  std::filesystem::remove_all(folder_, ignored);
}

}  // namespace colorlib
