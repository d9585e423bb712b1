#include <fmt/format.h>

#include <colorlib/records/photo_names.hpp>
#include <nlohmann/json.hpp>

namespace colorlib {

std::vector<std::string> photo_names(const CatalogueRecord& record) {
  std::vector<std::string> names{record.photo_name};
  const auto json = nlohmann::json::parse(record.json, nullptr, false);
  const auto photos = json.is_object() ? json.find("photos") : json.end();
  if (!json.is_object() || json.value("format", nlohmann::json()) != "tintfall-record" ||
      photos == json.end() || !photos->is_array())
    return names;
  bool told = false;  // the one that stands first
  for (const auto& photo : *photos) {
    const auto name = photo.is_object() ? photo.value("name", nlohmann::json()) : nlohmann::json();
    if (!name.is_string()) continue;
    if (!told && name == record.photo_name)
      told = true;
    else
      names.push_back(name.get<std::string>());
  }
  return names;
}

std::string photo_words(const CatalogueRecord& record) {
  return fmt::format("{}", fmt::join(photo_names(record), ", "));
}

}  // namespace colorlib
