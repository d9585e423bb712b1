#pragma once
/// Values of an answer as JSON, and the answer as text.

#include <nlohmann/json_fwd.hpp>
#include <string>

namespace tintfall {

/// `number` to so many decimals, without digits that mean nothing; null for NaN and infinity, which JSON does
/// not know.
nlohmann::ordered_json rounded(double number, int decimals);

/// Steps of `indent` spaces; one line when it is negative. Bytes that are no UTF-8 are replaced.
std::string json_text(const nlohmann::ordered_json& answer, int indent = 2);

}  // namespace tintfall
