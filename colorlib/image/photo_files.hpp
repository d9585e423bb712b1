#pragma once
/// Which files are photographs, told by their names alone: what a folder stands for, and what no output may
/// replace.

#include <colorlib/base/result.hpp>
#include <filesystem>
#include <string_view>
#include <vector>

namespace colorlib {

/// Whether the name ends, in any case, as photographs do: .jpg, .jpeg, .png, .tif, .tiff, .heic, .heif,
/// .avif, .dng, or as the makers' camera raw: .arw, .cr2, .cr3, .nef, .orf, .pef, .raf, .rw2.
bool has_photo_ending(const std::filesystem::path& file);

/// The same, but for what programs put beside photographs: overlays (PHOTO.overlay.png) and hidden files.
bool is_named_like_a_photo(const std::filesystem::path& file);

/// The files of a folder that are named like a photo, in the order a person counts their names; subfolders
/// are left out. Empty when there is none. Errors: unreadable_photo: no such folder, more than 100 000 files.
Result<std::vector<std::filesystem::path>> photos_of_folder(const std::filesystem::path& folder);

/// File names in the order a person counts: "img-2" before "img-10".
bool counts_before(std::string_view a, std::string_view b);

}  // namespace colorlib
