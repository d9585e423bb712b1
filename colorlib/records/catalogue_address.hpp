#pragma once
/// Where a catalogue lies: a file, or a PostgreSQL server.

#include <colorlib/base/result.hpp>
#include <filesystem>
#include <string>
#include <string_view>

namespace colorlib {

struct CatalogueAddress {
  bool server = false;
  std::string text;  ///< path of the SQLite file, or what libpq takes as connection string

  /// For sentences.
  std::string shown() const { return server ? text : "'" + text + "'"; }
};

/// "postgresql://..." or "postgres://..." is a connection URI, "postgresql:host=... dbname=..." a list of
/// connection words, everything else a file name. Errors: bad_call, when libpq cannot read the address, or it
/// holds a password (which would stand in process lists and histories: libpq takes it from ~/.pgpass or a
/// service file).
Result<CatalogueAddress> catalogue_address_from(std::string_view text);

/// $TINTFALL_CATALOGUE, else $XDG_DATA_HOME/tintfall/catalogue.db, else ~/.local/share/tintfall/catalogue.db.
/// Errors: bad_call when none of them is set.
Result<std::string> usual_catalogue();

}  // namespace colorlib
