#include <fmt/format.h>

#include <colorlib/base/file_access.hpp>
#include <colorlib/base/json_nesting.hpp>
#include <colorlib/base/reference_table.hpp>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/calibration/light_kind.hpp>
#include <nlohmann/json.hpp>
#include <set>
#include <viewer/command/subject_fields.hpp>

namespace tintfall {
namespace {

using namespace colorlib;
using nlohmann::json;

constexpr std::string_view advice =
    "The fields are item, collector, tissue, state, surface, light (daylight, lamp, tube or mixed), and "
    "photo (a file name).";

const SubjectField* find_field(std::string_view name) {
  for (const SubjectField& field : subject_fields)
    if (field.name == name) return &field;
  return nullptr;
}

tl::unexpected<Error> wrong(std::string_view name, std::string_view what) {
  return fail(ErrorCode::unreadable_table, fmt::format("Reading the fields '{}': {}.", name, what),
              std::string(advice));
}

/// One row as it was found; `photo` empty when the row is for all.
struct Row {
  std::string photo, place;
  Subject subject;
};

Result<SubjectFields> fields_of_rows(const std::vector<Row>& rows, std::string_view name) {
  SubjectFields result;
  for (const Row& row : rows) {
    if (!light_kind_from(row.subject.light))
      return wrong(
          name, fmt::format("the light '{}' of {} is no known one", quotable(row.subject.light), row.place));
    if (row.photo.empty()) {
      if (rows.size() > 1)
        return wrong(name, fmt::format("{} does not say which photo it is for", row.place));
      result.of_all = row.subject;
    } else if (!result.of_photo.emplace(std::filesystem::path(row.photo).filename().string(), row.subject)
                    .second) {
      return wrong(name, fmt::format("{} is the second one for photo '{}'", row.place, quotable(row.photo)));
    }
  }
  return result;
}

Result<SubjectFields> from_json(std::string_view text, std::string_view name) {
  constexpr int deepest = 3;
  const json tree =
      json_nesting(text) > deepest ? json(json::value_t::discarded) : json::parse(text, nullptr, false);
  if (tree.is_discarded()) return wrong(name, "the text is no sound JSON of the expected form");
  const json list = tree.is_array() ? tree : json::array({tree});
  std::vector<Row> rows;
  for (std::size_t i = 0; i < list.size(); ++i) {
    Row row;
    row.place = fmt::format("entry {}", i + 1);
    if (!list[i].is_object()) return wrong(name, fmt::format("{} is no object in {{ }}", row.place));
    for (const auto& [key, value] : list[i].items()) {
      if (!value.is_string())
        return wrong(name, fmt::format("'{}' of {} is no text", quotable(key), row.place));
      const SubjectField* field = find_field(key);
      if (field != nullptr)
        row.subject.*(field->place) = value.get<std::string>();
      else if (key == "photo")
        row.photo = value.get<std::string>();
      else
        return wrong(name, fmt::format("'{}' of {} is no known field", quotable(key), row.place));
    }
    rows.push_back(std::move(row));
  }
  return fields_of_rows(rows, name);
}

Result<SubjectFields> from_table(std::string_view text, std::string name) {
  const auto table = ReferenceTable::parse(text, name, "the fields", ErrorCode::unreadable_table);
  if (!table) return fail(table.error());
  for (const std::string& column : table->columns())
    if (find_field(column) == nullptr && column != "photo")
      return wrong(name, fmt::format("the column '{}' is no known field", quotable(column)));
  std::vector<Row> rows;
  for (std::size_t r = 0; r < table->rows(); ++r) {
    Row row;
    row.place = fmt::format("line {}", table->line(r));
    for (std::size_t c = 0; c < table->columns().size(); ++c) {
      if (const SubjectField* field = find_field(table->columns()[c]))
        row.subject.*(field->place) = table->text(r, c);
      else
        row.photo = table->text(r, c);
    }
    rows.push_back(std::move(row));
  }
  return fields_of_rows(rows, name);
}

/// "a.jpg, b.jpg and 7 more".
std::string listed(const std::set<std::string>& names) {
  constexpr std::size_t most = 10;
  std::string list;
  std::size_t told = 0;
  for (const std::string& name : names) {
    if (told == most) break;
    list += (told++ > 0 ? ", " : "") + quotable(name);
  }
  if (names.size() > most) list += fmt::format(" and {} more", names.size() - most);
  return list;
}

}  // namespace

Subject SubjectFields::subject_of(const std::string& photo_name) const {
  if (const auto found = of_photo.find(photo_name); found != of_photo.end()) return found->second;
  return of_all.value_or(Subject{});
}

std::vector<std::string> unmatched_rows(const SubjectFields& fields, const std::vector<std::string>& photos) {
  if (fields.of_photo.empty()) return {};
  std::set<std::string> names, without_row;
  for (const std::string& photo : photos) {
    const std::string name = std::filesystem::path(photo).filename().string();
    names.insert(name);
    if (!fields.of_photo.contains(name)) without_row.insert(name);
  }
  std::set<std::string> without_photo;
  for (const auto& [name, subject] : fields.of_photo)
    if (!names.contains(name)) without_photo.insert(name);
  std::vector<std::string> sentences;
  if (!without_photo.empty())
    sentences.push_back(fmt::format("Rows of --fields that are of none of these photos (capitals count): {}.",
                                    listed(without_photo)));
  if (!without_row.empty())
    sentences.push_back(fmt::format("Photos that have no row in --fields: {}.", listed(without_row)));
  return sentences;
}

Result<std::monostate> check_one_thing(const std::vector<SubjectOfPhoto>& photos) {
  for (const SubjectField& field : subject_fields) {
    if (field.place == &Subject::light) continue;
    const SubjectOfPhoto* first = nullptr;
    for (const SubjectOfPhoto& photo : photos) {
      const std::string& said = photo.subject.*(field.place);
      if (said.empty()) continue;
      if (first == nullptr) first = &photo;
      const std::string& before = first->subject.*(field.place);
      if (said != before)
        return fail(
            ErrorCode::bad_call,
            fmt::format("The photos are said to show one thing, but the {} of '{}' is '{}' and that of "
                        "'{}' is '{}'.",
                        field.name, quotable(first->photo), quotable(before), quotable(photo.photo),
                        quotable(said)),
            fmt::format("Read them apart, correct the rows of --fields, or say --{} for both.", field.name));
    }
  }
  return std::monostate{};
}

Result<SubjectFields> parse_subject_fields(std::string_view text, std::string name) {
  text = without_byte_order_mark(text);
  const std::string_view start = trimmed(text);
  if (!start.empty() && (start.front() == '{' || start.front() == '[')) return from_json(text, name);
  return from_table(text, std::move(name));
}

Result<SubjectFields> read_subject_fields(const std::filesystem::path& file) {
  const auto bytes = read_file(file, "the fields", ErrorCode::unreadable_table, fields_limit_bytes);
  if (!bytes) return fail(bytes.error());
  return parse_subject_fields(*bytes, file.filename().string());
}

Subject merged(const Subject& under, const Subject& over) {
  Subject result = under;
  for (const SubjectField& field : subject_fields)
    if (!(over.*(field.place)).empty()) result.*(field.place) = over.*(field.place);
  return result;
}

}  // namespace tintfall
