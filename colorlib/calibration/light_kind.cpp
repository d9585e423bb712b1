#include <algorithm>
#include <colorlib/calibration/light_kind.hpp>

namespace colorlib {

std::optional<LightKind> light_kind_from(std::string_view name) {
  const auto found = std::find(light_kind_names.begin(), light_kind_names.end(), name);
  if (found == light_kind_names.end()) return std::nullopt;
  return static_cast<LightKind>(found - light_kind_names.begin());
}

}  // namespace colorlib
