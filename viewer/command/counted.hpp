#pragma once
/// A number with its noun.

#include <cstddef>
#include <string>
#include <string_view>

namespace tintfall {

/// "1 record", "3 records". `noun` takes an s in the plural.
std::string counted(std::size_t count, std::string_view noun);

}  // namespace tintfall
