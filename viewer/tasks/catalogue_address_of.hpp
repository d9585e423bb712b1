#pragma once
/// Which catalogue is meant.

#include <QString>
#include <colorlib/records/catalogue.hpp>

namespace tintfall::viewer {

/// Empty: the usual one. Errors: bad_call.
colorlib::Result<colorlib::CatalogueAddress> catalogue_address_of(const QString& typed);
/// A file that is not there, or a server: only opening it tells.
bool may_exist(const colorlib::CatalogueAddress& address);
colorlib::Result<colorlib::Catalogue> open_catalogue(const QString& typed, colorlib::Catalogue::Open how);

}  // namespace tintfall::viewer
