#pragma once
/// Records as JSON text (format "tintfall-record", version 1).

#include <colorlib/base/result.hpp>
#include <colorlib/records/record.hpp>
#include <string>
#include <string_view>

namespace colorlib {

/// Pretty JSON when `indent` >= 0, one line otherwise. Numbers are rounded to stated digits; never NaN.
std::string record_json(const Record& record, int indent = 2);
/// Errors: unreadable_record, naming the key.
Result<Record> parse_record(std::string_view json, std::string_view name);

}  // namespace colorlib
