#include <colorlib/chart/chart_file_name.hpp>

namespace colorlib {

bool names_chart_file(std::string_view name_or_path) {
  return name_or_path.find('/') != std::string_view::npos || name_or_path.ends_with(".json");
}

}  // namespace colorlib
