#include <fmt/format.h>
#include <glib.h>

#include <algorithm>
#include <cctype>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/records/catalogue_rows_internal.hpp>
#include <memory>

namespace colorlib {

std::string lower_case(std::string_view text) {
  std::string lower(text);
  const bool ascii = std::all_of(text.begin(), text.end(), [](unsigned char c) { return c < 0x80; });
  if (!ascii && g_utf8_validate(text.data(), static_cast<gssize>(text.size()), nullptr)) {
    const std::unique_ptr<char, decltype(&g_free)> small(
        g_utf8_strdown(text.data(), static_cast<gssize>(text.size())), &g_free);
    return small.get();
  }
  std::transform(lower.begin(), lower.end(), lower.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  return lower;
}

std::string joined_words(const std::vector<std::string>& words) {
  if (words.empty()) return {};
  std::string joined = "|";
  for (const std::string& word : words) joined.append(word).append("|");
  return joined;
}

std::vector<std::string> split_words(std::string_view joined) {
  std::vector<std::string> words;
  while (joined.size() > 1) {
    joined.remove_prefix(1);
    const auto end = std::min(joined.find('|'), joined.size());
    words.emplace_back(joined.substr(0, end));
    joined.remove_prefix(end);
  }
  return words;
}

std::string joined_terms(const CatalogueReading& reading) {
  const std::string terms = joined_words(reading.terms), classes = joined_words(reading.deposit_classes);
  if (terms.empty() && classes.empty()) return {};
  return (terms.empty() ? "|" : terms) + (classes.empty() ? "|" : classes);
}

std::string like_literal(std::string_view text) {
  std::string literal;
  for (const char c : text) {
    if (c == '%' || c == '_' || c == '!') literal += '!';
    literal += c;
  }
  return literal;
}

std::string collection_select() {
  std::string columns = "c.uid";
  for (const CollectionField& field : collection_fields()) columns += fmt::format(", c.{}", field.name);
  return columns;
}

CollectionRow::CollectionRow()
    : texts(collection_fields().size()),
      numbers(collection_fields().size()),
      present(collection_fields().size()) {}

void CollectionRow::receive(soci::statement& statement) {
  statement.exchange(soci::into(uid));
  for (std::size_t i = 0; i < texts.size(); ++i) {
    if (collection_fields()[i].kind == FieldKind::number)
      statement.exchange(soci::into(numbers[i], present[i]));
    else
      statement.exchange(soci::into(texts[i], present[i]));
  }
}

Collection CollectionRow::collection() const {
  Collection collection;
  collection.uid = uid;
  for (std::size_t i = 0; i < texts.size(); ++i) {
    const CollectionField& field = collection_fields()[i];
    if (present[i] != soci::i_ok) continue;
    if (field.kind == FieldKind::number)
      collection.*(std::get<std::optional<double> Collection::*>(field.place)) = numbers[i];
    else
      collection.*(std::get<std::string Collection::*>(field.place)) = texts[i];
  }
  return collection;
}

void ReadingRow::receive(soci::statement& statement) {
  for (std::string* text : {&region, &kind, &name, &terms, &munsell}) statement.exchange(soci::into(*text));
  for (int i = 0; i < 10; ++i) statement.exchange(soci::into(numbers[i], present[i]));
  for (std::string* text : {&refused, &flags}) statement.exchange(soci::into(*text));
}

CatalogueReading ReadingRow::reading() const {
  CatalogueReading reading;
  reading.region = region;
  reading.kind = kind;
  reading.name = name;
  const auto gap = std::min(terms.find("||"), terms.size());
  reading.terms = split_words(std::string_view(terms).substr(0, std::min(gap + 1, terms.size())));
  if (gap < terms.size()) reading.deposit_classes = split_words(std::string_view(terms).substr(gap + 1));
  reading.munsell = munsell;
  reading.refused = refused;
  reading.flags = split_words(flags);
  if (present[0] != soci::i_ok) return reading;
  reading.lab = Lab{numbers[0], numbers[1], numbers[2]};
  const double* c = numbers + 3;
  reading.lab_covariance = {{c[0], c[1], c[2], c[1], c[3], c[4], c[2], c[4], c[5]}};
  reading.de00_expanded = numbers[9];
  return reading;
}

bool ReadingRow::mixes_terms() const { return !terms.empty() && terms.find("||") == std::string::npos; }

void take_terms_apart(CatalogueReading& reading, const CatalogueRecord& record, std::size_t position) {
  const auto whole = catalogue_record_from(record.json, record.photo_name);
  if (!whole || position >= whole->readings.size()) return;
  reading.terms = whole->readings[position].terms;
  reading.deposit_classes = whole->readings[position].deposit_classes;
}

void start(soci::statement& statement, const std::string& text, Parameters& parameters) {
  parameters.bind(statement);
  statement.alloc();
  statement.prepare(text);
  statement.define_and_bind();
  statement.execute(false);
}

void carry_out(Catalogue::Database& database, const std::string& text, Parameters& parameters) {
  soci::statement statement(database.sql);
  parameters.bind(statement);
  statement.alloc();
  statement.prepare(text);
  statement.define_and_bind();
  statement.execute(true);
}

std::string conditions_of(const CatalogueQuery& query, Parameters& parameters) {
  std::string conditions = "1 = 1";
  const auto add = [&](std::string_view condition) { conditions.append(" AND ").append(condition); };
  const auto part = [&](const char* name, const std::string& value) {
    parameters.text(name, fmt::format("%{}%", like_literal(lower_case(trimmed(value)))));
  };
  if (!query.number.empty()) {
    add("c.number = :number");
    parameters.text("number", query.number);
  }
  if (!query.collector.empty()) {
    add("(lower(c.collector) LIKE :collector ESCAPE '!' OR lower(d.read_by) LIKE :reader ESCAPE '!')");
    part("collector", query.collector);
    part("reader", query.collector);
  }
  if (!query.working_name.empty()) {
    add("lower(c.working_name) LIKE :working ESCAPE '!'");
    part("working", query.working_name);
  }
  if (!query.tissue.empty()) {
    add("(lower(d.tissue) LIKE :tissue ESCAPE '!' OR (coalesce(d.tissue, '') = '' AND lower(c.tissue) LIKE "
        ":ctissue "
        "ESCAPE '!'))");
    part("tissue", query.tissue);
    part("ctissue", query.tissue);
  }
  if (!query.state.empty()) {
    add("(lower(d.state) LIKE :state ESCAPE '!' OR (coalesce(d.state, '') = '' AND lower(c.state) LIKE "
        ":cstate "
        "ESCAPE '!'))");
    part("state", query.state);
    part("cstate", query.state);
  }
  if (!query.reagent.empty()) {
    // Of its record: untreated controls and drops of water met none (met_reagent).
    add("lower(d.reagent) LIKE :reagent ESCAPE '!' AND coalesce(r.kind, '') NOT IN ('control', 'water')");
    part("reagent", query.reagent);
  }
  if (!query.word.empty()) {
    add("(lower(r.name) = :word OR lower(r.terms) LIKE :term ESCAPE '!')");
    const std::string word = lower_case(trimmed(query.word));
    parameters.text("word", word);
    parameters.text("term", fmt::format("%|{}|%", like_literal(word)));
  }
  if (!query.kind.empty()) {
    add("r.kind = :kind");
    parameters.text("kind", query.kind);
  }
  if (!query.from.empty()) {
    add("c.collected >= :since");
    parameters.text("since", query.from);
  }
  if (!query.to.empty()) {
    // '~' sorts after everything that may follow: a time of the same day is still "to" that day.
    add("c.collected <> '' AND c.collected <= :until");
    parameters.text("until", fmt::format("{}~", query.to));
  }
  return conditions;
}

}  // namespace colorlib
