/// libFuzzer: any bytes as a file to import, as a file of collections, and as the record of a series. What is
/// taken has to export, and come back the same; what is taken of a series has to be drawn.

#include <colorlib/exports/catalogue_files.hpp>
#include <colorlib/exports/series_plot.hpp>
#include <colorlib/records/collection_text.hpp>
#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string_view>

/// Fontconfig keeps the fonts that it has found until the process ends.
extern "C" const char* __lsan_default_suppressions() { return "leak:libfontconfig\n"; }

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace colorlib;
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  if (const auto collections = parse_collections(bytes, "fuzz"))
    for (const Collection& collection : *collections)
      if (!check_collection(collection)) std::abort();
  if (const auto series = parse_series(bytes, "fuzz"); series && *series)
    for (const SpotRecord& spot : (*series)->spots)
      if (spot.has_course() && !draw_series_plot(series_plot_of(spot, **series), PictureFormat::svg))
        std::abort();
  const auto entries = imported(bytes, "fuzz");
  if (!entries) return 0;
  for (const auto format : {CatalogueFormat::csv, CatalogueFormat::json_lines, CatalogueFormat::text}) {
    const auto first = exported(*entries, format);
    if (!first) std::abort();
    if (entries->empty()) continue;
    const auto back = imported(*first, "fuzz");
    if (!back) {
      std::fprintf(stderr, "%s\n", back.error().message.c_str());
      std::abort();
    }
    if (const auto second = exported(*back, format); *second != *first) {
      std::fprintf(stderr, "once:\n%s\ntwice:\n%s\n", first->c_str(), second->c_str());
      std::abort();
    }
  }
  return 0;
}
