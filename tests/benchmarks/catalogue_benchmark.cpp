/// A million readings in a catalogue: adding in bulk and searching by colour, on SQLite and on PostgreSQL,
/// with every answer compared with a look at all readings. Times of a program of its own: there is nothing to
/// divide them by. `catalogue_benchmark [READINGS]`; the table goes to $TINTFALL_RESULTS_DIR/catalogue.md
/// when that is set.
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <colorlib/colorimetry/color_difference.hpp>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <fstream>
#include <string>
#include <tests/colorlib/records/catalogue_entries.hpp>
#include <tests/support/postgresql_server.hpp>

namespace {

using namespace colorlib;

constexpr std::size_t records_a_collection = 10, collections_a_block = 2000, searches = 100, nearest = 20;
constexpr double within_de00 = 5;

double seconds_of(auto&& work) {
  const auto begin = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
}

struct Figures {
  std::string database;
  std::size_t readings = 0;
  double added_a_second = 0, own_cpu_us = 0, median_ms = 0, p95_ms = 0, brute_force_ms = 0;
  std::size_t searches = 0, equal = 0, full_answers = 0;
};

/// The `nearest` smallest differences within the limit.
std::vector<double> brute_force(const std::vector<Lab>& all, const Lab& color) {
  std::vector<double> found;
  for (const Lab& lab : all)
    if (const double de00 = difference_ciede2000(color, lab); de00 <= within_de00) found.push_back(de00);
  std::sort(found.begin(), found.end());
  if (found.size() > nearest) found.resize(nearest);
  return found;
}

bool fill(Catalogue& catalogue, std::size_t readings, std::vector<Lab>& all, Figures& figures) {
  Progress silent;
  double time_s = 0, cpu_s = 0;
  while (figures.readings < readings) {
    const auto entries =
        made_up_entries(figures.readings / records_a_collection, collections_a_block, records_a_collection);
    for (const CatalogueEntry& entry : entries)
      for (const CatalogueRecord& record : entry.records) all.push_back(*record.readings.front().lab);
    bool sound = true;
    const std::clock_t cpu_begin = std::clock();
    time_s += seconds_of([&] {
      const auto added = catalogue.add(entries, silent);
      if (!added) std::fprintf(stderr, "%s\n", added.error().message.c_str());
      sound = added.has_value();
    });
    cpu_s += static_cast<double>(std::clock() - cpu_begin) / CLOCKS_PER_SEC;
    if (!sound) return false;
    figures.readings = all.size();
    std::fprintf(stderr, "\r%s: %zu readings, %.0f/s  ", figures.database.c_str(), figures.readings,
                 static_cast<double>(figures.readings) / time_s);
  }
  std::fprintf(stderr, "\n");
  figures.added_a_second = static_cast<double>(figures.readings) / time_s;
  figures.own_cpu_us = 1e6 * cpu_s / static_cast<double>(figures.readings);
  return true;
}

bool search(Catalogue& catalogue, const std::vector<Lab>& all, Figures& figures) {
  std::vector<double> times_ms;
  double brute_s = 0;
  for (const CatalogueEntry& asked : made_up_entries(50'000'000, searches, 1)) {
    CatalogueQuery query;
    query.color = asked.records.front().readings.front().lab;
    query.within_de00 = within_de00;
    query.limit = nearest;
    Result<std::vector<CatalogueHit>> hits;
    times_ms.push_back(1000 * seconds_of([&] { hits = catalogue.find(query); }));
    if (!hits) {
      std::fprintf(stderr, "%s\n", hits.error().message.c_str());
      return false;
    }
    std::vector<double> expected, found;
    brute_s += seconds_of([&] { expected = brute_force(all, *query.color); });
    for (const CatalogueHit& hit : *hits) found.push_back(hit.de00);
    ++figures.searches;
    figures.equal += found == expected;
    figures.full_answers += found.size() == nearest;
  }
  std::sort(times_ms.begin(), times_ms.end());
  figures.median_ms = times_ms[times_ms.size() / 2];
  figures.p95_ms = times_ms[times_ms.size() * 95 / 100];
  figures.brute_force_ms = 1000 * brute_s / static_cast<double>(figures.searches);
  return true;
}

bool measure(const CatalogueAddress& address, std::size_t readings, Figures& figures) {
  auto catalogue = Catalogue::open(address, Catalogue::Open::create);
  if (!catalogue) {
    std::fprintf(stderr, "%s\n", catalogue.error().message.c_str());
    return false;
  }
  std::vector<Lab> all;
  return fill(*catalogue, readings, all, figures) && search(*catalogue, all, figures);
}

std::string table(const std::vector<Figures>& rows) {
  std::string text = fmt::format(
      "# Catalogue of many readings\n\nMade-up readings over the colours of deposits, {} records a "
      "collection, one reading a "
      "record with its JSON, every transaction flushed to disk. Searches: the {} nearest within ΔE00 {}, {} "
      "colours that are "
      "not in the catalogue. Equal: the same differences, to the last bit, as a look at every reading in "
      "memory.\n\n"
      "| database | readings | added a second | processor time a reading, this program | search, median | "
      "search, 95 % | look at all | answers equal "
      "| answers of {} |\n"
      "| --- | --- | --- | --- | --- | --- | --- | --- | --- |\n",
      records_a_collection, nearest, within_de00, searches, nearest);
  for (const Figures& row : rows)
    text +=
        fmt::format("| {} | {} | {:.0f} | {:.0f} µs | {:.1f} ms | {:.1f} ms | {:.0f} ms | {} of {} | {} |\n",
                    row.database, row.readings, row.added_a_second, row.own_cpu_us, row.median_ms, row.p95_ms,
                    row.brute_force_ms, row.equal, row.searches, row.full_answers);
  return text +
         "\nWritten by tests/benchmarks/catalogue_benchmark.cpp on two cores of a virtual machine shared "
         "with other "
         "work: the rate of adding moves with that work, the processor time does not. Behind PostgreSQL the "
         "server's own time comes on top.\n";
}

}  // namespace

int main(int count, char** arguments) {
  std::size_t readings = 1'000'000;
  if (count > 1) readings = static_cast<std::size_t>(std::max(1L, std::atol(arguments[1])));
  std::vector<Figures> rows;
  const ScratchCatalogue scratch;
  rows.push_back({"SQLite"});
  if (!measure(scratch.address(), readings, rows.back())) return 1;
  if (PostgresqlServer* server = PostgresqlServer::shared()) {
    rows.push_back({"PostgreSQL, loopback"});
    if (!measure({true, server->new_database()}, readings, rows.back())) return 1;
  } else {
    std::fprintf(stderr, "PostgreSQL left out: %s\n", PostgresqlServer::missing().c_str());
  }
  const std::string text = table(rows);
  std::fputs(text.c_str(), stdout);
  if (const char* folder = std::getenv("TINTFALL_RESULTS_DIR"))
    std::ofstream(std::string(folder) + "/catalogue.md") << text;
  for (const Figures& row : rows)
    if (row.equal != row.searches) return 1;
  return 0;
}
