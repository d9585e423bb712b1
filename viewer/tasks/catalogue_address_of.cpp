#include <QFileInfo>
#include <viewer/tasks/catalogue_address_of.hpp>

namespace tintfall::viewer {

using namespace colorlib;

Result<CatalogueAddress> catalogue_address_of(const QString& typed) {
  if (!typed.trimmed().isEmpty()) return catalogue_address_from(typed.trimmed().toStdString());
  const auto usual = usual_catalogue();
  if (!usual) return fail(usual.error());
  return catalogue_address_from(*usual);
}

bool may_exist(const CatalogueAddress& address) {
  return address.server || QFileInfo::exists(QString::fromStdString(address.text));
}

Result<Catalogue> open_catalogue(const QString& typed, Catalogue::Open how) {
  const auto address = catalogue_address_of(typed);
  if (!address) return fail(address.error());
  return Catalogue::open(*address, how);
}

}  // namespace tintfall::viewer
