#pragma once
/// The tables of this source tree, loaded once for all tests of the room.

#include <colorlib/naming/namer.hpp>
#include <filesystem>
#include <stdexcept>

namespace colorlib {

inline std::filesystem::path source_folder() { return TINTFALL_SOURCE_FOLDER; }

inline const Namer& namer() {
  static const Namer loaded = [] {
    auto result = Namer::load(source_folder());
    if (!result) throw std::runtime_error(result.error().message);
    return *result;
  }();
  return loaded;
}

}  // namespace colorlib
