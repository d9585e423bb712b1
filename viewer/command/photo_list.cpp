#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <filesystem>
#include <set>
#include <viewer/command/photo_list.hpp>

namespace tintfall {
namespace {

using namespace colorlib;

constexpr std::size_t most_photos = 100'000;

bool looks_like_a_photo(const std::filesystem::path& file) {
  static const std::set<std::string> endings{".jpg",  ".jpeg", ".png", ".tif", ".tiff", ".heic",
                                             ".heif", ".avif", ".dng", ".cr2", ".cr3",  ".nef",
                                             ".arw",  ".orf",  ".raf", ".rw2", ".pef"};
  std::string name = file.filename().string(), ending = file.extension().string();
  std::transform(ending.begin(), ending.end(), ending.begin(),
                 [](unsigned char c) { return std::tolower(c); });
  return endings.contains(ending) && !name.ends_with(".overlay.png") && !name.starts_with('.');
}

Result<std::vector<std::string>> photos_in(const std::string& folder) {
  const auto wrong = [&](std::string_view what) {
    return fail(ErrorCode::unreadable_photo, fmt::format("Reading the folder '{}': {}.", folder, what),
                "Name a folder that holds photographs, or the photographs themselves.");
  };
  std::vector<std::string> photos;
  std::error_code problem;
  for (std::filesystem::directory_iterator file(folder, problem), end; !problem && file != end;
       file.increment(problem)) {
    std::error_code ignored;
    if (!file->is_regular_file(ignored) || !looks_like_a_photo(file->path())) continue;
    if (photos.size() == most_photos)
      return wrong(fmt::format("it holds more than {} photographs", most_photos));
    photos.push_back(file->path().string());
  }
  if (problem) return wrong(problem.message());
  if (photos.empty()) return wrong("it holds no photographs");
  std::sort(photos.begin(), photos.end());
  return photos;
}

}  // namespace

Result<PhotoList> photo_list_from(const std::vector<std::string>& named) {
  PhotoList list;
  for (const std::string& name : named) {
    std::error_code ignored;
    if (!std::filesystem::is_directory(name, ignored)) {
      list.photos.push_back(name);
      continue;
    }
    list.has_folder = true;
    auto photos = photos_in(name);
    if (!photos) return fail(photos.error());
    list.photos.insert(list.photos.end(), photos->begin(), photos->end());
  }
  return list;
}

}  // namespace tintfall
