#pragma once
/// A small checker of JSON Schema (draft 2020-12), as much of it as docs/reference/record.schema.json uses. A
/// keyword that it does not know is reported, so that no rule is passed over silently.

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

namespace colorlib {

/// Every rule that `value` breaks, as "where: what"; empty when it is valid.
std::vector<std::string> schema_violations(const nlohmann::json& value, const nlohmann::json& schema);

/// Every member of `value` for which the schema has no description.
std::vector<std::string> undescribed_members(const nlohmann::json& value, const nlohmann::json& schema);

}  // namespace colorlib
