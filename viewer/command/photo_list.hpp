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

/// A folder stands for its photos (colorlib::photos_of_folder). Errors: unreadable_photo, when a folder holds
/// none or cannot be looked into.
colorlib::Result<PhotoList> photo_list_from(const std::vector<std::string>& named);

}  // namespace tintfall
