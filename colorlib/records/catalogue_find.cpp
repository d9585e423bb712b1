#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/colorimetry/difference_reach.hpp>
#include <colorlib/naming/color_distribution.hpp>
#include <colorlib/naming/tolerance.hpp>
#include <colorlib/records/catalogue_rows_internal.hpp>
#include <colorlib/records/color_cells_internal.hpp>
#include <colorlib/records/reagent_regions.hpp>
#include <map>

namespace colorlib {
namespace {

using Database = Catalogue::Database;

struct Candidate {
  long long id = 0;
  double de00 = 0;
  bool operator<(const Candidate& other) const {
    return de00 != other.de00 ? de00 < other.de00 : id < other.id;
  }
};

constexpr const char* joined =
    "JOIN records d ON d.id = r.record_id JOIN collections c ON c.id = d.collection_id";

const char* visibility(bool removed) {
  return removed ? "(d.removed IS NOT NULL OR c.removed IS NOT NULL)"
                 : "d.removed IS NULL AND c.removed IS NULL";
}

/// Rows of (id, l, a, b), in blocks.
template <class Take>
void each_color(Database& database, const std::string& text, Parameters& parameters, const Take& take) {
  constexpr std::size_t block = 1024;
  std::vector<long long> ids(block);
  std::vector<double> l(block), a(block), b(block);
  soci::statement statement(database.sql);
  statement.exchange(soci::into(ids));
  statement.exchange(soci::into(l));
  statement.exchange(soci::into(a));
  statement.exchange(soci::into(b));
  start(statement, text, parameters);
  while (statement.fetch()) {
    for (std::size_t i = 0; i < ids.size(); ++i) take(ids[i], Lab{l[i], a[i], b[i]});
    ids.resize(block);
    l.resize(block);
    a.resize(block);
    b.resize(block);
  }
}

/// Every reading within `de00`, by the index of colours, then exactly.
std::vector<Candidate> within(Database& database, const CatalogueQuery& query, double de00) {
  Parameters parameters;
  std::string conditions = conditions_of(query, parameters);
  std::string from = "FROM readings r ";
  const Vector3 centre = vector_from(*query.color), reach = ciede2000_reach(*query.color, de00);
  const bool bounded = std::isfinite(reach[1]);
  if (bounded && database.server) {
    // OFFSET 0: the box is looked up in its index first, whatever the planner thinks of the joins.
    from = "FROM (SELECT * FROM readings WHERE colour <@ cast(:box AS cube) OFFSET 0) r ";
    parameters.text("box", fmt::format("({},{},{}),({},{},{})", centre[0] - reach[0], centre[1] - reach[1],
                                       centre[2] - reach[2], centre[0] + reach[0], centre[1] + reach[1],
                                       centre[2] + reach[2]));
  } else if (bounded) {
    Vector3 low, high;
    for (std::size_t i = 0; i < 3; ++i) {
      low[i] = centre[i] - reach[i];
      high[i] = centre[i] + reach[i];
    }
    const ColorCells cells = color_cells(low, high);
    // CROSS: the cells are looked up in their index first, whatever the planner thinks of the joins.
    from = "FROM json_each(:cells) k CROSS JOIN readings r ";
    conditions +=
        " AND r.cell BETWEEN k.value AND k.value + :more"
        " AND r.l BETWEEN :l0 AND :l1 AND r.a BETWEEN :a0 AND :a1 AND r.b BETWEEN :b0 AND :b1";
    parameters.text("cells", fmt::format("[{}]", fmt::join(cells.first, ",")));
    parameters.integer("more", cells.more);
    constexpr const char* lows[] = {"l0", "a0", "b0"};
    constexpr const char* highs[] = {"l1", "a1", "b1"};
    for (std::size_t i = 0; i < 3; ++i) {
      parameters.real(lows[i], low[i]);
      parameters.real(highs[i], high[i]);
    }
  }
  std::vector<Candidate> found;
  each_color(database,
             fmt::format("SELECT r.id, r.l, r.a, r.b {}{} WHERE {} AND {} AND r.l IS NOT NULL", from, joined,
                         visibility(query.removed), conditions),
             parameters, [&](long long id, const Lab& lab) {
               const double difference = difference_ciede2000(*query.color, lab);
               if (difference <= de00) found.push_back({id, difference});
             });
  return found;
}

bool narrows(const CatalogueQuery& query) {
  return query.removed || !(query.number + query.collector + query.working_name + query.tissue + query.state +
                            query.reagent + query.word + query.kind + query.from + query.to)
                               .empty();
}

/// The difference of the `limit`-th of the readings nearest in Lab: the `limit`-th nearest in dE00 is no
/// farther. Nothing when some of them were removed. Server only: its index knows the nearest.
std::optional<double> difference_of_nearest(Database& database, const CatalogueQuery& query) {
  Parameters parameters;
  parameters.text("centre", fmt::format("({},{},{})", query.color->l, query.color->a, query.color->b));
  parameters.integer("most", static_cast<long long>(query.limit));
  double farthest = 0;
  std::size_t count = 0;
  each_color(
      database,
      fmt::format("SELECT r.id, r.l, r.a, r.b FROM (SELECT * FROM readings WHERE colour IS NOT NULL ORDER BY "
                  "colour <-> cast(:centre AS cube) LIMIT :most) r {} WHERE {}",
                  joined, visibility(false)),
      parameters, [&](long long, const Lab& lab) {
        farthest = std::max(farthest, difference_ciede2000(*query.color, lab));
        ++count;
      });
  if (count < query.limit) return std::nullopt;
  return farthest;
}

/// The nearest readings, nearest first. A box around the colour grows until what it holds proves that nothing
/// nearer lies outside.
std::vector<Candidate> nearest(Database& database, const CatalogueQuery& query) {
  double reach = query.within_de00;
  if (query.limit > 0) {
    reach = query.within_de00 / 16;
    if (database.server && !narrows(query))
      reach = std::min(difference_of_nearest(database, query).value_or(reach), query.within_de00);
  }
  for (;;) {
    auto found = within(database, query, reach);
    if (reach >= query.within_de00 || (query.limit > 0 && found.size() >= query.limit)) {
      std::sort(found.begin(), found.end());
      if (query.limit > 0 && found.size() > query.limit) found.resize(query.limit);
      return found;
    }
    reach = std::min(2 * reach, query.within_de00);
  }
}

/// Readings by number of their collection, when no colour is asked for.
std::vector<Candidate> by_number(Database& database, const CatalogueQuery& query) {
  Parameters parameters;
  const std::string conditions = conditions_of(query, parameters);
  std::string text =
      fmt::format("SELECT r.id FROM readings r {} WHERE {} AND {} ORDER BY c.number, d.id, r.position",
                  joined, visibility(query.removed), conditions);
  if (query.limit > 0) {
    text += " LIMIT :most";
    parameters.integer("most", static_cast<long long>(query.limit));
  }
  std::vector<Candidate> found;
  long long id = 0;
  soci::statement statement(database.sql);
  statement.exchange(soci::into(id));
  start(statement, text, parameters);
  while (statement.fetch()) found.push_back({id, 0});
  return found;
}

/// Everything shown of these readings, in their order.
std::vector<CatalogueHit> details(Database& database, const std::vector<Candidate>& candidates) {
  std::vector<CatalogueHit> hits(candidates.size());
  constexpr std::size_t block = 500;
  for (std::size_t begin = 0; begin < candidates.size(); begin += block) {
    const std::size_t end = std::min(begin + block, candidates.size());
    std::map<long long, std::size_t> place;
    std::string list = database.server ? "{" : "[";
    for (std::size_t i = begin; i < end; ++i) {
      place[candidates[i].id] = i;
      list += fmt::format("{}{}", i > begin ? "," : "", candidates[i].id);
    }
    list += database.server ? "}" : "]";
    Parameters parameters;
    parameters.text("list", list);
    long long id = 0, position = 0;
    CatalogueHit hit;
    ReadingRow row;
    CatalogueRecord mixed;  // its text only where a row mixes its terms
    soci::statement statement(database.sql);
    statement.exchange(soci::into(id));
    for (std::string* text : {&hit.number, &hit.collector, &hit.collected, &hit.working_name, &hit.read_by,
                              &hit.tissue, &hit.reagent, &hit.captured, &hit.photo_name, &hit.content})
      statement.exchange(soci::into(*text));
    row.receive(statement);
    statement.exchange(soci::into(position));
    statement.exchange(soci::into(mixed.json));
    start(statement,
          fmt::format(
              "SELECT r.id, c.number, c.collector, c.collected, c.working_name, d.read_by, "
              "CASE WHEN d.tissue = '' THEN c.tissue ELSE d.tissue END, d.reagent, d.captured, d.photo_name, "
              "d.content, {}, r.position, CASE WHEN r.terms = '' OR r.terms LIKE '%||%' THEN '' ELSE d.json "
              "END "
              "FROM readings r {} WHERE {}",
              reading_select, joined,
              database.server ? "r.id = ANY(cast(:list AS bigint[]))"
                              : "r.id IN (SELECT value FROM json_each(:list))"),
          parameters);
    while (statement.fetch()) {
      const std::size_t i = place.at(id);
      hits[i] = hit;
      hits[i].reading = row.reading();
      if (!met_reagent(hits[i].reading.kind)) hits[i].reagent.clear();
      if (row.mixes_terms()) take_terms_apart(hits[i].reading, mixed, static_cast<std::size_t>(position));
      hits[i].de00 = candidates[i].de00;
    }
  }
  return hits;
}

}  // namespace

Result<std::vector<CatalogueHit>> Catalogue::find(const CatalogueQuery& query) {
  if (query.color && !(std::isfinite(query.color->l + query.color->a + query.color->b) &&
                       query.within_de00 >= 0 && std::isfinite(query.within_de00)))
    return fail(ErrorCode::bad_call, "A search needs a finite colour and a difference of 0 or more.",
                "Say for example --near 42 20 29 --within 5.");
  return database_->guarded("Searching the catalogue", [&]() -> Result<std::vector<CatalogueHit>> {
    auto hits = details(*database_, query.color ? nearest(*database_, query) : by_number(*database_, query));
    if (!query.color) return hits;
    for (CatalogueHit& hit : hits) {
      if (!hit.reading.lab) continue;
      hit.within_probability =
          share_within(distribution_of(*hit.reading.lab, hit.reading.lab_covariance + query.color_covariance),
                       *query.color, query.within_de00);
    }
    return hits;
  });
}

Result<std::vector<CatalogueLine>> Catalogue::list(const CatalogueQuery& query) {
  return database_->guarded("Listing the catalogue", [&]() -> Result<std::vector<CatalogueLine>> {
    Parameters parameters;
    const std::string conditions = conditions_of(query, parameters);
    std::string text = fmt::format(
        "SELECT c.number, c.collector, c.collected, c.working_name, coalesce(c.removed, max(d.removed), ''), "
        "count(DISTINCT d.id), count(r.id) "
        "FROM collections c LEFT JOIN records d ON d.collection_id = c.id AND {} LEFT JOIN readings r ON "
        "r.record_id = "
        "d.id WHERE {} AND {} GROUP BY c.id, c.number, c.collector, c.collected, c.working_name, c.removed "
        "ORDER BY c.number",
        query.removed ? "(d.removed IS NOT NULL OR c.removed IS NOT NULL)" : "d.removed IS NULL",
        query.removed ? "(d.removed IS NOT NULL OR c.removed IS NOT NULL)" : "c.removed IS NULL", conditions);
    if (query.limit > 0) {
      text += " LIMIT :most";
      parameters.integer("most", static_cast<long long>(query.limit));
    }
    std::vector<CatalogueLine> lines;
    CatalogueLine line;
    long long records = 0, readings = 0;
    soci::statement statement(database_->sql);
    for (std::string* place :
         {&line.number, &line.collector, &line.collected, &line.working_name, &line.removed})
      statement.exchange(soci::into(*place));
    statement.exchange(soci::into(records));
    statement.exchange(soci::into(readings));
    start(statement, text, parameters);
    while (statement.fetch()) {
      line.records = static_cast<std::size_t>(records);
      line.readings = static_cast<std::size_t>(readings);
      lines.push_back(line);
    }
    return lines;
  });
}

}  // namespace colorlib
