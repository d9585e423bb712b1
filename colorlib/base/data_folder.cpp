#include <colorlib/base/data_folder.hpp>
#include <cstdlib>

namespace colorlib {

std::filesystem::path data_folder() {
  if (const char* stated = std::getenv("TINTFALL_DATA"); stated && *stated) return stated;
  std::error_code ignored;
  std::filesystem::path source = TINTFALL_SOURCE_FOLDER;
  if (std::filesystem::exists(source / "reference", ignored)) return source;
  return TINTFALL_INSTALLED_DATA;
}

}  // namespace colorlib
