#pragma once
/// How the name of a file with saved work ends.

#include <QLatin1String>

namespace tintfall::viewer {

inline constexpr QLatin1String work_ending{".tintfall"};

}  // namespace tintfall::viewer
