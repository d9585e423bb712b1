#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <colorlib/image/photo_files.hpp>
#include <set>
#include <string>

namespace colorlib {
namespace {

constexpr std::size_t most_files = 100'000;

}  // namespace

bool has_photo_ending(const std::filesystem::path& file) {
  static const std::set<std::string> endings{".jpg",  ".jpeg", ".png", ".tif", ".tiff", ".heic",
                                             ".heif", ".avif", ".dng", ".arw", ".cr2",  ".cr3",
                                             ".nef",  ".orf",  ".pef", ".raf", ".rw2"};
  std::string ending = file.extension().string();
  std::transform(ending.begin(), ending.end(), ending.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return endings.contains(ending);
}

bool is_named_like_a_photo(const std::filesystem::path& file) {
  const std::string name = file.filename().string();
  return has_photo_ending(file) && !name.ends_with(".overlay.png") && !name.starts_with('.');
}

Result<std::vector<std::filesystem::path>> photos_of_folder(const std::filesystem::path& folder) {
  namespace fs = std::filesystem;
  std::error_code problem;
  std::vector<fs::path> photos;
  std::size_t seen = 0;
  for (fs::directory_iterator entry(folder, problem), end; !problem && entry != end;
       entry.increment(problem)) {
    if (++seen > most_files)
      return fail(ErrorCode::unreadable_photo,
                  fmt::format("The folder '{}' holds more than {} files.", folder.string(), most_files),
                  "Put the photos into a folder of their own.");
    std::error_code ignored;
    if (entry->is_regular_file(ignored) && is_named_like_a_photo(entry->path()))
      photos.push_back(entry->path());
  }
  if (problem)
    return fail(ErrorCode::unreadable_photo,
                fmt::format("Looking into the folder '{}': {}.", folder.string(), problem.message()),
                "Check its name and who may read it.");
  std::sort(photos.begin(), photos.end(), [](const fs::path& a, const fs::path& b) {
    return counts_before(a.filename().string(), b.filename().string());
  });
  return photos;
}

bool counts_before(std::string_view a, std::string_view b) {
  std::size_t i = 0, k = 0;
  const auto digit = [](char c) { return c >= '0' && c <= '9'; };
  while (i < a.size() && k < b.size()) {
    if (digit(a[i]) && digit(b[k])) {
      std::size_t a_end = i, b_end = k;
      while (a_end < a.size() && digit(a[a_end])) ++a_end;
      while (b_end < b.size() && digit(b[b_end])) ++b_end;
      std::string_view left = a.substr(i, a_end - i), right = b.substr(k, b_end - k);
      left.remove_prefix(std::min(left.find_first_not_of('0'), left.size()));
      right.remove_prefix(std::min(right.find_first_not_of('0'), right.size()));
      if (left.size() != right.size()) return left.size() < right.size();
      if (left != right) return left < right;
      i = a_end, k = b_end;
    } else {
      if (a[i] != b[k]) return a[i] < b[k];
      ++i, ++k;
    }
  }
  if ((i < a.size()) != (k < b.size())) return k < b.size();
  return a < b;  // differ in leading zeros at most
}

}  // namespace colorlib
