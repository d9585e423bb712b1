#include <colorlib/records/catalogue.hpp>
#include <colorlib/records/catalogue_database_internal.hpp>

namespace colorlib {

Catalogue::Catalogue(std::unique_ptr<Database> database) : database_(std::move(database)) {}
Catalogue::Catalogue(Catalogue&&) noexcept = default;
Catalogue& Catalogue::operator=(Catalogue&&) noexcept = default;
Catalogue::~Catalogue() = default;

Result<Catalogue> Catalogue::open(const CatalogueAddress& address, Open how) {
  auto database = Database::connect(address, how);
  if (!database) return fail(database.error());
  if (const auto current = migrate(**database, how); !current) return fail(current.error());
  return Catalogue(std::move(*database));
}

}  // namespace colorlib
