#pragma once
/// What the user says about the things in the photographs: options, or a table with one row a photo.

#include <colorlib/base/result.hpp>
#include <colorlib/records/record.hpp>
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace tintfall {

/// The fields file: for one photo by its name, or for all photos.
struct SubjectFields {
  std::optional<colorlib::Subject> of_all;
  std::map<std::string, colorlib::Subject> of_photo;  ///< key: the photo's file name without folder

  /// What is known of this photo; empty where nothing was said.
  colorlib::Subject subject_of(const std::string& photo_name) const;
};

/// What does not meet: rows of photos that are not among `photos`, and, where rows are by photo, photos
/// without a row; a sentence each, none when all meet.
std::vector<std::string> unmatched_rows(const SubjectFields& fields, const std::vector<std::string>& photos);

/// A photo with what is said of it.
struct SubjectOfPhoto {
  std::string photo;  ///< file name
  colorlib::Subject subject;
};

/// Photos that are said to show one thing, and things are said of them that cannot all be true of one record:
/// item, collector, tissue, state or surface differ. Errors: bad_call, naming the first two photos. The light
/// may differ.
colorlib::Result<std::monostate> check_one_thing(const std::vector<SubjectOfPhoto>& photos);

/// The most a fields file may hold.
inline constexpr std::size_t fields_limit_bytes = 4u << 20;

/// JSON (by its first character): one object of item, collector, tissue, state, surface, light for all
/// photos, or a list of such objects, each with "photo". Else CSV (also `;` or tab) with these column names:
/// one row for all, or a column `photo`. Errors: unreadable_table, naming the line or entry: an unknown
/// field, a value that is no text, one photo twice.
colorlib::Result<SubjectFields> read_subject_fields(const std::filesystem::path& file);
colorlib::Result<SubjectFields> parse_subject_fields(std::string_view text, std::string name);

/// `over` where it says something, else `under`.
colorlib::Subject merged(const colorlib::Subject& under, const colorlib::Subject& over);

}  // namespace tintfall
