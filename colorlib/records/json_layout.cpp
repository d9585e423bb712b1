#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/records/json_layout_internal.hpp>

namespace colorlib {
namespace {

using Json = nlohmann::ordered_json;

Json number_or_null(double value, const std::string& text) {
  if (!std::isfinite(value)) return nullptr;
  const double read_back = number_from(text).value_or(0);  // the C library reads by the desktop's rules
  return read_back == 0 ? 0.0 : read_back;                 // never "-0.0"
}

/// Small objects of plain values ({"id": ..., "reason": ...}), and lists that hold only plain values or lists
/// of such.
bool on_one_line(const Json& value, int depth = 0) {
  constexpr std::size_t small = 3;
  if (value.is_object())
    return value.size() <= small && depth == 0 &&
           std::none_of(value.begin(), value.end(),
                        [](const Json& member) { return member.is_structured(); });
  if (!value.is_array()) return true;
  return depth < 2 && std::all_of(value.begin(), value.end(),
                                  [&](const Json& item) { return on_one_line(item, depth + 1); });
}

std::string one_line(const Json& value) {
  if (value.is_object()) {
    std::string text = "{";
    for (auto member = value.begin(); member != value.end(); ++member)
      text.append(text.size() > 1 ? ", " : "")
          .append(one_line(Json(member.key())))
          .append(": ")
          .append(one_line(*member));
    return text + "}";
  }
  if (!value.is_array()) return value.dump(-1, ' ', false, Json::error_handler_t::replace);
  std::string text = "[";
  for (const Json& item : value) text.append(text.size() > 1 ? ", " : "").append(one_line(item));
  return text + "]";
}

void write(const Json& value, int indent, int level, std::string& text) {
  if (on_one_line(value)) {
    text += one_line(value);
    return;
  }
  const std::string inner(static_cast<std::size_t>(indent * (level + 1)), ' ');
  const bool object = value.is_object();
  text += object ? "{" : "[";
  bool first = true;
  for (auto item = value.begin(); item != value.end(); ++item) {
    text += first ? "\n" : ",\n";
    text += inner;
    if (object) text.append(one_line(Json(item.key()))).append(": ");
    write(*item, indent, level + 1, text);
    first = false;
  }
  text.append("\n").append(static_cast<std::size_t>(indent * level), ' ').append(object ? "}" : "]");
}

/// File names and profiles may hold control characters, and no reader of a record takes them.
Json with_plain_texts(const Json& value) {
  if (value.is_string()) return without_field_controls(value.get_ref<const std::string&>());
  if (!value.is_structured()) return value;
  Json plain = value;
  for (Json& item : plain) item = with_plain_texts(item);
  return plain;
}

}  // namespace

Json rounded(double value, int decimals) {
  return number_or_null(value, fmt::format("{:.{}f}", value, decimals));
}

Json rounded_significant(double value, int digits) {
  return number_or_null(value, fmt::format("{:.{}e}", value, digits - 1));
}

Json error_object(const Error& error) {
  return {{"code", code_name(error.code)}, {"message", error.message}, {"advice", error.advice}};
}

std::string json_text(const Json& value_as_given, int indent) {
  const Json value = with_plain_texts(value_as_given);
  if (indent < 0) return value.dump(-1, ' ', false, Json::error_handler_t::replace);
  std::string text;
  write(value, indent, 0, text);
  return text;
}

}  // namespace colorlib
