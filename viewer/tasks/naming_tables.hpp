#pragma once
/// The naming tables, loaded once by whichever job needs them first.

#include <colorlib/base/result.hpp>
#include <colorlib/naming/namer.hpp>

namespace tintfall::viewer {

/// For jobs only: the first call reads files.
const colorlib::Result<colorlib::Namer>& naming_tables();

}  // namespace tintfall::viewer
