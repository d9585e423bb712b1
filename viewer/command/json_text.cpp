#include <cmath>
#include <nlohmann/json.hpp>
#include <viewer/command/json_text.hpp>

namespace tintfall {

using nlohmann::ordered_json;

ordered_json rounded(double number, int decimals) {
  if (!std::isfinite(number)) return nullptr;
  const double scale = std::pow(10.0, decimals);
  return std::round(number * scale) / scale + 0.0;
}

std::string json_text(const ordered_json& answer, int indent) {
  return answer.dump(indent, ' ', false, ordered_json::error_handler_t::replace);
}

}  // namespace tintfall
