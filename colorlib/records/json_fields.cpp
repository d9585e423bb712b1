#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/base/json_nesting.hpp>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/image/photo_kind.hpp>
#include <colorlib/records/json_fields_internal.hpp>

namespace colorlib {
namespace {

constexpr double largest_number = 1e9;
constexpr std::int64_t largest_count = std::int64_t{1} << 53;

/// Lines and columns of byte `position` (1-based, as the parser counts), for the sentence.
std::string place_of(std::string_view text, std::size_t position) {
  const auto before = text.substr(0, position > 0 ? position - 1 : 0);
  const auto line = 1 + std::count(before.begin(), before.end(), '\n');
  const auto line_start = before.rfind('\n');
  const auto column = before.size() - (line_start == std::string_view::npos ? 0 : line_start + 1) + 1;
  return fmt::format("line {}, column {}", line, column);
}

}  // namespace

Result<nlohmann::json> parse_json(std::string_view text, std::string_view name, std::string_view what,
                                  ErrorCode code, int most_nesting) {
  text = without_byte_order_mark(text);
  if (begins_like_a_photo(text))
    return fail(code,
                fmt::format("Reading {} '{}': it is a photo, not a {}.", what, name,
                            what.substr(what.starts_with("the ") ? 4 : 0)),
                "'tintfall read PHOTO --json OUT' writes a photo's record; name that file.");
  if (json_nesting(text) > most_nesting)
    return fail(code,
                fmt::format("Reading {} '{}': lists or objects are nested more than {} deep.", what, name,
                            most_nesting),
                "Make sure that it is the right file.");
  try {
    return nlohmann::json::parse(text);
  } catch (const nlohmann::json::parse_error& problem) {
    return fail(code,
                fmt::format("Reading {} '{}': the text is not JSON from {} on.", what, name,
                            place_of(text, problem.byte)),
                "Look there for a missing comma, quote or bracket, or write the file again.");
  } catch (const nlohmann::json::exception&) {
    return fail(code, fmt::format("Reading {} '{}': a number in it is too large to be held.", what, name),
                "Write the file again.");
  }
}

JsonFields::JsonFields(std::string what, std::string name, ErrorCode code, std::string advice)
    : what_(std::move(what)), name_(std::move(name)), advice_(std::move(advice)), code_(code) {}

void JsonFields::wrong(const std::string& where, std::string_view what) {
  if (problem_) return;
  problem_ = Error{
      code_, fmt::format("Reading {} '{}': {} {}.", what_, name_, where.empty() ? "the whole" : where, what),
      advice_};
}

const JsonFields::Json* JsonFields::member(const Json& object, const char* key) const {
  if (!object.is_object()) return nullptr;
  const auto found = object.find(key);
  return found == object.end() || found->is_null() ? nullptr : &*found;
}

const JsonFields::Json* JsonFields::object(const Json& object, const char* key, const std::string& where) {
  const Json* found = member(object, key);
  if (found == nullptr || found->is_object()) return found;
  wrong(path(where, key), "must be an object in { }");
  return nullptr;
}

const JsonFields::Json* JsonFields::list(const Json& object, const char* key, const std::string& where) {
  const Json* found = member(object, key);
  if (found == nullptr || found->is_array()) return found;
  wrong(path(where, key), "must be a list in [ ]");
  return nullptr;
}

std::string JsonFields::text_of(const Json& value, const std::string& where, std::string_view otherwise) {
  if (!value.is_string()) {
    wrong(where, otherwise);
    return {};
  }
  auto text = value.get<std::string>();
  if (holds_control_character(text)) wrong(where, "holds a control character");
  return text;
}

std::string JsonFields::text(const Json& object, const char* key, const std::string& where, bool needed) {
  const Json* found = member(object, key);
  if (found == nullptr) {
    if (needed) missing(where, key);
    return {};
  }
  return text_of(*found, path(where, key), "must be text");
}

std::vector<std::string> JsonFields::texts(const Json& object, const char* key, const std::string& where) {
  std::vector<std::string> result;
  if (const Json* found = list(object, key, where)) {
    for (const Json& item : *found) {
      result.push_back(text_of(item, path(where, key), "must hold only texts"));
    }
  }
  return result;
}

std::optional<Error> JsonFields::error(const Json& object, const char* key, const std::string& where) {
  const Json* found = this->object(object, key, where);
  if (found == nullptr) return std::nullopt;
  const std::string place = path(where, key);
  return Error{code_from_name(text(*found, "code", place, true)).value_or(ErrorCode::untrustworthy),
               text(*found, "message", place, true), text(*found, "advice", place)};
}

bool JsonFields::truth(const Json& object, const char* key, const std::string& where) {
  const Json* found = member(object, key);
  if (found == nullptr) return false;
  if (found->is_boolean()) return found->get<bool>();
  wrong(path(where, key), "must be true or false");
  return false;
}

std::optional<double> JsonFields::number_of(const Json& value, const std::string& where) {
  const double number = value.is_number() ? value.get<double>() : NAN;
  if (std::isfinite(number) && std::abs(number) <= largest_number) return number;
  wrong(where, value.is_number() ? "is beyond any meaningful number" : "must be a number");
  return std::nullopt;
}

std::optional<double> JsonFields::number(const Json& object, const char* key, const std::string& where) {
  const Json* found = member(object, key);
  if (found == nullptr) return std::nullopt;
  return number_of(*found, path(where, key));
}

std::optional<std::int64_t> JsonFields::count(const Json& object, const char* key, const std::string& where) {
  const Json* found = member(object, key);
  if (found == nullptr) return std::nullopt;
  if (found->is_number_integer() && found->get<double>() >= 0 &&
      found->get<double>() <= static_cast<double>(largest_count))
    return found->get<std::int64_t>();
  wrong(path(where, key), "must be a whole number from 0 up");
  return std::nullopt;
}

}  // namespace colorlib
