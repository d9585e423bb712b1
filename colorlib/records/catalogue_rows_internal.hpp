#pragma once
/// Entries as rows and back. For .cpp files only.

#include <colorlib/records/catalogue_database_internal.hpp>
#include <string>
#include <vector>

namespace colorlib {

/// Words as one column: "|rust|tobacco|", in lower case, so that a word is found whole.
std::string joined_words(const std::vector<std::string>& words);
std::vector<std::string> split_words(std::string_view joined);
/// Trade terms and deposit classes as one column, searched as one: "|rust|tobacco||ochre|".
std::string joined_terms(const CatalogueReading& reading);
/// Letters in lower case, accented ones too; of text that is no UTF-8 those of ASCII.
std::string lower_case(std::string_view text);
/// For LIKE ... ESCAPE '!': `text` taken by the letter.
std::string like_literal(std::string_view text);

/// "c.uid, c.number, ...": read by read_collection.
std::string collection_select();
/// Places that a statement fills with one collection.
struct CollectionRow {
  std::string uid;
  std::vector<std::string> texts;
  std::vector<double> numbers;
  std::vector<soci::indicator> present;

  CollectionRow();
  void receive(soci::statement& statement);
  Collection collection() const;
};

constexpr const char* reading_select =
    "r.region, r.kind, r.name, r.terms, r.munsell, r.l, r.a, r.b, r.c_ll, r.c_la, r.c_lb, r.c_aa, r.c_ab, "
    "r.c_bb, "
    "r.de00_expanded, r.refused, r.flags";
struct ReadingRow {
  std::string region, kind, name, terms, munsell, refused, flags;
  double numbers[10]{};
  soci::indicator present[10]{};

  void receive(soci::statement& statement);
  CatalogueReading reading() const;
  /// The column of an earlier program, which wrote trade terms and deposit classes as one list:
  /// "|rust|ochre|".
  bool mixes_terms() const;
};
/// Of a row that mixes them: both lists anew, from the reading of that position in its record.
void take_terms_apart(CatalogueReading& reading, const CatalogueRecord& record, std::size_t position);

/// Prepares, binds and executes a query; rows are then fetched.
void start(soci::statement& statement, const std::string& text, Parameters& parameters);
/// A statement that gives no rows.
void carry_out(Catalogue::Database& database, const std::string& text, Parameters& parameters);

/// The conditions of a query but its colour, on c (collections), d (records), r (readings); "1 = 1" when
/// none.
std::string conditions_of(const CatalogueQuery& query, Parameters& parameters);

}  // namespace colorlib
