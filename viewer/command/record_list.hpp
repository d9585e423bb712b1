#pragma once
/// The records of a call: files as they were named, folders as the records that lie in them.

#include <colorlib/base/result.hpp>
#include <string>
#include <vector>

namespace tintfall {

struct RecordList {
  std::vector<std::string> records;
  std::vector<std::string> passed_over;  ///< .json files of folders that hold no record of photographs
};

/// A folder stands for the records in its files that end in .json, by name; folders in it, hidden files and
/// `elsewhere` (files that the call names for something else) are left out. At most 10 000. Errors:
/// unreadable_record: a folder that cannot be looked into or holds no record, a damaged record in it.
colorlib::Result<RecordList> record_list_from(const std::vector<std::string>& named,
                                              const std::vector<std::string>& elsewhere);

}  // namespace tintfall
