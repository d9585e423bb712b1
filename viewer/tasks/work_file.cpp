#include <fmt/format.h>

#include <colorlib/base/file_access.hpp>
#include <colorlib/base/json_nesting.hpp>
#include <nlohmann/json.hpp>
#include <viewer/tasks/work_file.hpp>

namespace tintfall::viewer {

using namespace colorlib;
using nlohmann::json;
using nlohmann::ordered_json;

namespace {

constexpr std::size_t limit_bytes = 40u << 20;
constexpr int deepest = 16;

struct SetupField {
  const char* key;
  QString PhotoSetup::*place;
};
constexpr SetupField setup_fields[] = {
    {"chart", &PhotoSetup::chart}, {"reference", &PhotoSetup::reference}, {"sheet", &PhotoSetup::sheet}};

tl::unexpected<Error> wrong(const QString& file, std::string_view what) {
  return fail(ErrorCode::unreadable_table,
              fmt::format("Reading the saved work '{}': {}.", file.toStdString(), what),
              "Open the photo itself; the regions can also be loaded from a regions file.");
}

}  // namespace

Result<Work> read_work(const QString& file) {
  const auto bytes =
      read_file(file.toStdString(), "the saved work", ErrorCode::unreadable_table, limit_bytes);
  if (!bytes) return fail(bytes.error());
  const json tree =
      json_nesting(*bytes) > deepest ? json(json::value_t::discarded) : json::parse(*bytes, nullptr, false);
  if (!tree.is_object() || tree.value("format", json()) != "tintfall-work" ||
      tree.value("version", json()) != 1)
    return wrong(file, "it is no sound JSON that says \"format\": \"tintfall-work\", \"version\": 1");
  const auto text = [](const json& object, const char* key) {
    const auto value = object.is_object() ? object.find(key) : object.end();
    return object.is_object() && value != object.end() && value->is_string() ? value->get<std::string>()
                                                                             : std::string();
  };
  Work work;
  work.photo = QString::fromStdString(text(tree, "photo"));
  if (work.photo.isEmpty()) return wrong(file, "'photo' is missing or no text");
  work.file = QString::fromStdString(text(tree, "file"));
  for (const auto& field : setup_fields)
    work.setup.*(field.place) = QString::fromStdString(text(tree, field.key));
  for (const auto& field : subject_fields)
    work.setup.subject.*(field.place) = text(tree.value("subject", json::object()), field.name);
  if (const auto height = tree.find("height_mm"); height != tree.end() && height->is_number())
    work.setup.height_mm = height->get<double>();
  if (const auto masstone = tree.find("masstone"); masstone != tree.end() && masstone->is_boolean())
    work.setup.masstone = masstone->get<bool>();
  if (const auto corners = tree.find("corners_px"); corners != tree.end()) {
    std::array<PointPx, 4> points;
    bool sound = corners->is_array() && corners->size() == points.size();
    for (std::size_t i = 0; sound && i < points.size(); ++i) {
      const json& point = (*corners)[i];
      sound = point.is_array() && point.size() == 2 && point[0].is_number() && point[1].is_number();
      if (sound) points[i] = {point[0].get<double>(), point[1].get<double>()};
    }
    if (!sound) return wrong(file, "'corners_px' is no list of four points");
    work.setup.corners = points;
  }
  if (const auto regions = tree.find("regions"); regions != tree.end() && !regions->is_null()) {
    work.regions_drawn = true;
    const auto list = regions->is_object() ? regions->find("regions") : regions->end();
    if (regions->is_object() && list != regions->end() && list->is_array() && list->empty()) return work;
    auto parsed = parse_regions(regions->dump(), file.toStdString());
    if (!parsed) return fail(parsed.error());
    work.regions = std::move(*parsed);
  }
  return work;
}

Result<std::monostate> write_work(const Work& work, const QString& file) {
  ordered_json tree{{"format", "tintfall-work"}, {"version", 1}, {"photo", work.photo.toStdString()}};
  if (!work.file.isEmpty()) tree["file"] = work.file.toStdString();
  for (const auto& field : setup_fields)
    if (!(work.setup.*(field.place)).isEmpty()) tree[field.key] = (work.setup.*(field.place)).toStdString();
  for (const auto& field : subject_fields)
    if (!(work.setup.subject.*(field.place)).empty())
      tree["subject"][field.name] = work.setup.subject.*(field.place);
  if (work.setup.height_mm) tree["height_mm"] = *work.setup.height_mm;
  if (work.setup.masstone) tree["masstone"] = true;
  if (work.setup.corners)
    for (const PointPx& corner : *work.setup.corners) tree["corners_px"].push_back({corner.x, corner.y});
  if (work.regions_drawn) tree["regions"] = ordered_json::parse(regions_json(work.regions));
  return write_file_atomically(file.toStdString(),
                               tree.dump(2, ' ', false, json::error_handler_t::replace) + "\n");
}

}  // namespace tintfall::viewer
