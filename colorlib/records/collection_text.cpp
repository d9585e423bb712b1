#include <fmt/format.h>

#include <cmath>
#include <colorlib/base/file_access.hpp>
#include <colorlib/base/json_nesting.hpp>
#include <colorlib/base/reference_table.hpp>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/records/collection_text.hpp>
#include <nlohmann/json.hpp>
#include <set>

namespace colorlib {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::size_t limit_bytes = 16u << 20;

tl::unexpected<Error> wrong(std::string_view where, std::string_view what, std::string advice) {
  return fail(ErrorCode::unreadable_table, fmt::format("{}: {}.", where, what), std::move(advice));
}

std::string known_fields() {
  std::string names;
  for (const CollectionField& field : collection_fields())
    names.append(names.empty() ? "" : ", ").append(field.name);
  return fmt::format("The fields are {}.", names);
}

Result<std::monostate> set_named(Collection& collection, std::string_view key, std::string_view value,
                                 std::string_view where) {
  if (key == "uid") {
    const std::string_view uid = trimmed(value);
    if (!uid.empty() && !is_uid(uid))
      return wrong(where, fmt::format("uid '{}' is no urn:uuid", quotable(uid)),
                   "Leave it out to get a new one.");
    collection.uid = uid;
    return std::monostate{};
  }
  const CollectionField* field = find_collection_field(key);
  if (field == nullptr)
    return wrong(where, fmt::format("'{}' is no known field", quotable(key)), known_fields());
  if (const auto set = set_field(collection, *field, value); !set)
    return wrong(where, fmt::format("field {}: {}", key, set.error().message), set.error().advice);
  return std::monostate{};
}

Result<std::vector<Collection>> from_json(std::string_view text, const std::string& head) {
  constexpr int deepest = 3;
  const Json tree =
      json_nesting(text) > deepest ? Json(Json::value_t::discarded) : Json::parse(text, nullptr, false);
  if (tree.is_discarded())
    return wrong(head, "the text is no sound JSON of the expected form",
                 "Write one object of fields, or a list of such objects.");
  std::vector<Collection> collections;
  const Json list = tree.is_array() ? tree : Json::array({tree});
  for (std::size_t i = 0; i < list.size(); ++i) {
    auto collection = collection_from_json(list[i], fmt::format("{}, entry {}", head, i + 1));
    if (!collection) return fail(collection.error());
    collections.push_back(std::move(*collection));
  }
  return collections;
}

Result<std::vector<Collection>> from_table(std::string_view text, const std::string& name,
                                           const std::string& head) {
  const auto table = ReferenceTable::parse(text, name, "the collections", ErrorCode::unreadable_table);
  if (!table) return fail(table.error());
  std::vector<Collection> collections;
  for (std::size_t row = 0; row < table->rows(); ++row) {
    Collection collection;
    const std::string where = fmt::format("{}, line {}", head, table->line(row));
    for (std::size_t column = 0; column < table->columns().size(); ++column) {
      const std::string& key = table->columns()[column];
      std::string text = table->text(row, column);
      // The table knows whether its numbers may have decimal commas.
      if (const CollectionField* field = find_collection_field(key);
          field != nullptr && field->kind == FieldKind::number)
        if (const auto number = table->number(row, column)) text = fmt::format("{}", *number);
      if (const auto set = set_named(collection, key, text, where); !set) return fail(set.error());
    }
    collections.push_back(std::move(collection));
  }
  return collections;
}

}  // namespace

Json collection_json(const Collection& collection) {
  Json json = Json::object();
  if (!collection.uid.empty()) json["uid"] = collection.uid;
  for (const CollectionField& field : collection_fields()) {
    const std::string text = field_text(collection, field);
    if (text.empty()) continue;
    if (field.kind == FieldKind::number)
      json[std::string(field.name)] =
          *(collection.*(std::get<std::optional<double> Collection::*>(field.place)));
    else
      json[std::string(field.name)] = text;
  }
  return json;
}

Result<Collection> collection_from_json(const Json& json, std::string_view where) {
  if (!json.is_object()) return wrong(where, "it is no object in { }", known_fields());
  Collection collection;
  for (const auto& [key, value] : json.items()) {
    std::string text;
    if (value.is_string())
      text = value.get<std::string>();
    else if (value.is_number())
      text = fmt::format("{}", value.get<double>());
    else if (value.is_boolean())
      text = value.get<bool>() ? "yes" : "no";
    else if (!value.is_null())
      return wrong(where, fmt::format("'{}' is neither text nor a number", quotable(key)), known_fields());
    if (const auto set = set_named(collection, key, text, where); !set) return fail(set.error());
  }
  return collection;
}

Result<std::vector<Collection>> parse_collections(std::string_view text, std::string name) {
  const std::string head = fmt::format("Reading the collections '{}'", name);
  text = without_byte_order_mark(text);
  const std::string_view start = trimmed(text);
  const bool is_json = !start.empty() && (start.front() == '{' || start.front() == '[');
  auto collections = is_json ? from_json(text, head) : from_table(text, name, head);
  if (!collections) return collections;
  std::set<std::string_view> seen;
  for (const Collection& collection : *collections) {
    if (const auto sound = check_collection(collection); !sound)
      return fail(ErrorCode::unreadable_table, fmt::format("{}: {}", head, sound.error().message),
                  sound.error().advice);
    if (!seen.insert(collection.number).second)
      return wrong(head, fmt::format("the number '{}' stands twice", quotable(collection.number)),
                   "Give each collection a number of its own.");
  }
  return collections;
}

Result<std::vector<Collection>> read_collections(const std::filesystem::path& path) {
  const auto bytes = read_file(path, "the collections", ErrorCode::unreadable_table, limit_bytes);
  if (!bytes) return fail(bytes.error());
  return parse_collections(*bytes, path.filename().string());
}

}  // namespace colorlib
