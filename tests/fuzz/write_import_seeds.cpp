/// Seeds for import_fuzz: the invented scenario in every format, and a series. `write_import_seeds FOLDER`.
#include <colorlib/exports/catalogue_files.hpp>
#include <colorlib/records/collection_text.hpp>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <tests/colorlib/records/catalogue_entries.hpp>
#include <tests/colorlib/records/example_series.hpp>

int main(int count, char** arguments) {
  using namespace colorlib;
  if (count != 2) return 2;
  const std::filesystem::path folder = arguments[1];
  std::filesystem::create_directories(folder);
  const auto entries = scenario_entries();
  for (const auto& [format, name] : {std::pair{CatalogueFormat::csv, "a.csv"},
                                     {CatalogueFormat::cgats, "a.cgats"},
                                     {CatalogueFormat::darwin_core, "a.zip"},
                                     {CatalogueFormat::text, "a.txt"},
                                     {CatalogueFormat::json_lines, "a.jsonl"}})
    std::ofstream(folder / name, std::ios::binary) << exported(entries, format).value();
  std::ofstream(folder / "collection.json") << collection_json(entries.front().collection).dump();
  std::ofstream(folder / "series.json") << series_json(series_record(course_named("R2"), geometric_s), -1);
  return 0;
}
