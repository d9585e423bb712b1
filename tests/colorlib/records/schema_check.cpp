#include <algorithm>
#include <regex>
#include <set>
#include <tests/colorlib/records/schema_check.hpp>

namespace colorlib {
namespace {

using nlohmann::json;

bool has_type(const json& value, const std::string& type) {
  if (type == "object") return value.is_object();
  if (type == "array") return value.is_array();
  if (type == "string") return value.is_string();
  if (type == "boolean") return value.is_boolean();
  if (type == "null") return value.is_null();
  if (type == "number") return value.is_number();
  if (type == "integer") return value.is_number_integer();
  return false;
}

class Check {
 public:
  explicit Check(const json& root) : root_(root) {}

  std::vector<std::string> broken, undescribed;

  void value(const json& value, const json& schema, const std::string& where) {
    for (const auto& [keyword, rule] : schema.items()) {
      if (!known_keyword(keyword)) broken.push_back(where + ": the checker does not know '" + keyword + "'");
    }
    if (schema.contains("$ref")) this->value(value, target(schema["$ref"]), where);
    check_type(value, schema, where);
    check_scalar(value, schema, where);
    check_array(value, schema, where);
    check_object(value, schema, where);
    check_one_of(value, schema, where);
  }

 private:
  static bool known_keyword(const std::string& keyword) {
    static const std::set<std::string> known{
        "$schema",  "$defs",    "$ref",  "title", "description", "type",    "required", "properties", "items",
        "minItems", "maxItems", "const", "enum",  "minimum",     "maximum", "pattern",  "oneOf"};
    return known.contains(keyword);
  }
  const json& target(const std::string& reference) const {
    return root_.at(json::json_pointer(reference.substr(1)));
  }

  void check_type(const json& value, const json& schema, const std::string& where) {
    if (!schema.contains("type")) return;
    const json types = schema["type"].is_array() ? schema["type"] : json::array({schema["type"]});
    if (std::none_of(types.begin(), types.end(), [&](const json& type) { return has_type(value, type); }))
      broken.push_back(where + ": is no " + types.dump());
  }
  void check_scalar(const json& value, const json& schema, const std::string& where) {
    if (schema.contains("const") && value != schema["const"])
      broken.push_back(where + ": is not " + schema["const"].dump());
    if (schema.contains("enum") &&
        std::find(schema["enum"].begin(), schema["enum"].end(), value) == schema["enum"].end())
      broken.push_back(where + ": is none of " + schema["enum"].dump());
    if (value.is_number()) {
      const double number = value.get<double>();
      if (schema.contains("minimum") && number < schema["minimum"].get<double>())
        broken.push_back(where + ": is too small");
      if (schema.contains("maximum") && number > schema["maximum"].get<double>())
        broken.push_back(where + ": is too large");
    }
    if (value.is_string() && schema.contains("pattern") &&
        !std::regex_search(value.get<std::string>(), std::regex(schema["pattern"].get<std::string>())))
      broken.push_back(where + ": does not match " + schema["pattern"].dump());
  }
  void check_array(const json& value, const json& schema, const std::string& where) {
    if (!value.is_array()) return;
    if (schema.contains("minItems") && value.size() < schema["minItems"])
      broken.push_back(where + ": has too few items");
    if (schema.contains("maxItems") && value.size() > schema["maxItems"])
      broken.push_back(where + ": has too many items");
    if (!schema.contains("items")) return;
    for (std::size_t i = 0; i < value.size(); ++i)
      this->value(value[i], schema["items"], where + "[" + std::to_string(i) + "]");
  }
  void check_object(const json& value, const json& schema, const std::string& where) {
    if (!value.is_object()) return;
    if (schema.contains("required"))
      for (const auto& name : schema["required"])
        if (!value.contains(name.get<std::string>()))
          broken.push_back(where + ": lacks '" + name.get<std::string>() + "'");
    if (!schema.contains("properties")) return;
    for (const auto& [name, member] : value.items()) {
      const auto rule = schema["properties"].find(name);
      if (rule == schema["properties"].end())
        undescribed.push_back(where + "." + name);
      else
        this->value(member, *rule, where + "." + name);
    }
  }
  void check_one_of(const json& value, const json& schema, const std::string& where) {
    if (!schema.contains("oneOf")) return;
    std::vector<Check> fitting;
    std::string reasons;
    for (const auto& option : schema["oneOf"]) {
      Check check(root_);
      check.value(value, option, where);
      if (check.broken.empty())
        fitting.push_back(check);
      else
        reasons += " [" + check.broken.front() + "]";
    }
    if (fitting.size() != 1)
      broken.push_back(where + ": fits " + std::to_string(fitting.size()) +
                       " of the forms instead of one:" + reasons);
    else
      undescribed.insert(undescribed.end(), fitting[0].undescribed.begin(), fitting[0].undescribed.end());
  }

  const json& root_;
};

}  // namespace

std::vector<std::string> schema_violations(const json& value, const json& schema) {
  Check check(schema);
  check.value(value, schema, "record");
  return check.broken;
}

std::vector<std::string> undescribed_members(const json& value, const json& schema) {
  Check check(schema);
  check.value(value, schema, "record");
  return check.undescribed;
}

}  // namespace colorlib
