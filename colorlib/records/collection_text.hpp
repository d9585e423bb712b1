#pragma once
/// Collections as small files: JSON or CSV in, one JSON object out.

#include <colorlib/base/result.hpp>
#include <colorlib/records/collection.hpp>
#include <filesystem>
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <string_view>
#include <vector>

namespace colorlib {

/// JSON (by its first character): an object of fields (collection_fields()), or a list of such; numbers may
/// be numbers or text. Else CSV (also `;` or tab) with the fields' names as column names. Every entry needs a
/// number, none twice. At most 16 MiB. Errors: unreadable_table, naming line or entry, field and value.
Result<std::vector<Collection>> parse_collections(std::string_view text, std::string name);
Result<std::vector<Collection>> read_collections(const std::filesystem::path& path);

/// The fields that are said, in their order; numbers as numbers; "uid" first.
nlohmann::ordered_json collection_json(const Collection& collection);
/// The inverse; unknown keys are an error. `where` starts the sentence.
Result<Collection> collection_from_json(const nlohmann::ordered_json& json, std::string_view where);

}  // namespace colorlib
