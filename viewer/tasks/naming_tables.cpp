#include <colorlib/base/data_folder.hpp>
#include <viewer/tasks/naming_tables.hpp>

namespace tintfall::viewer {

const colorlib::Result<colorlib::Namer>& naming_tables() {
  static const auto namer = colorlib::Namer::load(colorlib::data_folder());
  return namer;
}

}  // namespace tintfall::viewer
