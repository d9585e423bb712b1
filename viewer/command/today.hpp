#pragma once
/// The day on the user's clock.

#include <string>

namespace tintfall {

/// YYYY-MM-DD, local time.
std::string today();

}  // namespace tintfall
