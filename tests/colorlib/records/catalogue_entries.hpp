#pragma once
/// Entries of the invented scenario, and any number of made-up ones, for tests and benchmarks.

#include <unistd.h>
#include <colorlib/records/catalogue.hpp>
#include <cstdint>
#include <string>
#include <vector>

namespace colorlib {

/// A record as JSON with one reading.
std::string scenario_record(const std::string& item, const std::string& reader, const Lab& lab,
                            const std::string& name, const std::string& term);
/// QH-01, QH-03 and QH-06 as V, Q, H and P read them; three collections of four records each.
std::vector<CatalogueEntry> scenario_entries();

/// Collections "M-00000012" and so on with `records` records of one reading each, spread over the colours of
/// deposits; the same for the same `first`.
std::vector<CatalogueEntry> made_up_entries(std::size_t first, std::size_t count, std::size_t records);

/// A file that is not there yet; it and its companions go at the end.
class ScratchCatalogue {
 public:
  ScratchCatalogue();
  ~ScratchCatalogue();
  ScratchCatalogue(const ScratchCatalogue&) = delete;
  ScratchCatalogue& operator=(const ScratchCatalogue&) = delete;
  CatalogueAddress address() const { return {false, path()}; }
  std::string path() const { return (folder_ / "catalogue.db").string(); }
  std::filesystem::path folder() const { return folder_; }
  Result<Catalogue> open(Catalogue::Open how = Catalogue::Open::create) const {
    return Catalogue::open(address(), how);
  }

 private:
  std::filesystem::path folder_;
};

}  // namespace colorlib
