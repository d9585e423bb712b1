#include <fmt/format.h>

#include <colorlib/image/photo_files.hpp>
#include <filesystem>
#include <viewer/command/photo_list.hpp>

namespace tintfall {

using namespace colorlib;

Result<PhotoList> photo_list_from(const std::vector<std::string>& named) {
  PhotoList list;
  for (const std::string& name : named) {
    std::error_code ignored;
    if (!std::filesystem::is_directory(name, ignored)) {
      list.photos.push_back(name);
      continue;
    }
    list.has_folder = true;
    const auto photos = photos_of_folder(name);
    if (!photos) return fail(photos.error());
    if (photos->empty())
      return fail(ErrorCode::unreadable_photo, fmt::format("The folder '{}' holds no photos.", name),
                  "Name a folder with photos in it, or the photos themselves.");
    for (const auto& photo : *photos) list.photos.push_back(photo.string());
  }
  return list;
}

}  // namespace tintfall
