#pragma once
/// How JSON is laid out and its numbers rounded.

#include <colorlib/base/result.hpp>
#include <nlohmann/json_fwd.hpp>
#include <string>

namespace colorlib {

/// `value` with `decimals` digits after the point, as the shortest double that prints so; null when not
/// finite.
nlohmann::ordered_json rounded(double value, int decimals);
/// `value` with `digits` significant digits; null when not finite.
nlohmann::ordered_json rounded_significant(double value, int digits);

/// {"code", "message", "advice"}.
nlohmann::ordered_json error_object(const Error& error);

/// Pretty text with `indent` spaces a level, or one line when negative. Objects of at most three plain
/// values, lists of plain values, and lists of such lists stay on one line. Text that is no UTF-8 is
/// replaced, never thrown at.
std::string json_text(const nlohmann::ordered_json& value, int indent);

}  // namespace colorlib
