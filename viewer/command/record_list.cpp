#include <fmt/format.h>

#include <algorithm>
#include <colorlib/base/file_access.hpp>
#include <colorlib/records/record_json.hpp>
#include <colorlib/records/record_lines.hpp>
#include <filesystem>
#include <viewer/command/record_list.hpp>

namespace tintfall {
namespace {

using namespace colorlib;

constexpr std::size_t most_records_of_folders = 10'000;

/// What calls itself a record and is not one of a series, which compares as no reading does.
bool claims_to_be_a_record(const std::filesystem::path& file) {
  const auto text = read_file(file, "the record", ErrorCode::unreadable_record, RecordLimits::bytes);
  return text && text->find("\"tintfall-record\"") != std::string::npos &&
         text->find("\"frames\"") == std::string::npos;
}

Result<std::monostate> add_folder(const std::string& folder, const std::vector<std::string>& elsewhere,
                                  RecordList& list) {
  const auto wrong = [&](std::string_view what) {
    return fail(ErrorCode::unreadable_record, fmt::format("Reading the folder '{}': {}.", folder, what),
                "Name a folder of records that 'tintfall read --json' or '--save' wrote, or the records "
                "themselves.");
  };
  std::vector<std::string> files;
  std::error_code problem;
  for (std::filesystem::directory_iterator file(folder, problem), end; !problem && file != end;
       file.increment(problem)) {
    std::error_code ignored;
    const auto& path = file->path();
    if (!file->is_regular_file(ignored) || path.extension() != ".json" ||
        path.filename().string().starts_with('.'))
      continue;
    const bool named_elsewhere =
        std::any_of(elsewhere.begin(), elsewhere.end(), [&](const std::string& other) {
          std::error_code missing;
          return std::filesystem::equivalent(path, other, missing);
        });
    if (named_elsewhere) continue;
    if (files.size() == most_records_of_folders)
      return wrong(fmt::format("it holds more than {} .json files", most_records_of_folders));
    files.push_back(path.string());
  }
  if (problem) return wrong(problem.message());
  std::sort(files.begin(), files.end());
  std::size_t found = 0;
  for (std::string& file : files) {
    if (!claims_to_be_a_record(file)) {
      list.passed_over.push_back(std::move(file));
      continue;
    }
    if (const auto records = read_records(file); !records) return fail(records.error());
    list.records.push_back(std::move(file));
    ++found;
  }
  if (found == 0) return wrong("it holds no record");
  return std::monostate{};
}

}  // namespace

Result<RecordList> record_list_from(const std::vector<std::string>& named,
                                    const std::vector<std::string>& elsewhere) {
  RecordList list;
  for (const std::string& name : named) {
    std::error_code ignored;
    if (!std::filesystem::is_directory(name, ignored)) {
      list.records.push_back(name);
    } else if (const auto added = add_folder(name, elsewhere, list); !added) {
      return fail(added.error());
    }
  }
  return list;
}

}  // namespace tintfall
