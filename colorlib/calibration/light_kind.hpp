#pragma once
/// What the user says the light was. The fit does not need it; the uncertainty does: a photo does not tell
/// every lamp from daylight.

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>

namespace colorlib {

enum class LightKind {
  unstated,  ///< judged by the fitted correction (`CalibrationSummary::light_odds`)
  daylight,  ///< window, shade or sun
  lamp,      ///< incandescent or LED, warm or cool
  tube,      ///< fluorescent, compact ones too
  mixed      ///< daylight and a lamp together
};

/// In the order of `LightKind`; empty for unstated.
inline constexpr std::array light_kind_names{"", "daylight", "lamp", "tube", "mixed"};

constexpr const char* light_kind_name(LightKind kind) {
  return light_kind_names[static_cast<std::size_t>(kind)];
}

/// The reverse; nothing for any other word.
std::optional<LightKind> light_kind_from(std::string_view name);

}  // namespace colorlib
