#pragma once
/// The photographs of a call: files as they were named, folders as what lies in them.

#include <colorlib/base/result.hpp>
#include <string>
#include <vector>

namespace tintfall {

struct PhotoList {
  std::vector<std::string> photos;
  bool has_folder = false;
};

/// A folder stands for its files with a photograph's ending, by name; overlays and folders in it are left
/// out. At most 100 000. Errors: unreadable_photo, when a folder holds none or cannot be read.
colorlib::Result<PhotoList> photo_list_from(const std::vector<std::string>& named);

}  // namespace tintfall
