#pragma once
/// Where a command's JSON goes, and how failures are told beside it.

#include <colorlib/base/result.hpp>
#include <string>
#include <string_view>
#include <variant>
#include <viewer/command/output_check.hpp>
#include <viewer/command/streams.hpp>

namespace CLI {
class App;
}

namespace tintfall {

/// The value of `--json`: empty (not asked for), "-" (standard output, and then nothing but JSON there) or a
/// file.
struct JsonTarget {
  std::string path;
  bool wanted() const { return !path.empty(); }
  bool to_standard_output() const { return path == "-"; }
  Output output() const { return {"--json", path, OutputKind::text}; }
};

/// Adds `--json OUT` to a command.
void declare_json(CLI::App& app, JsonTarget& target);

/// {"error": {"code": ..., "message": ..., "advice": ...}} on one line, without line end. `subject` (a
/// photo's name), when not empty, is added as "photo".
std::string error_json(const colorlib::Error& error, std::string_view subject = {});

/// Tells a failure and returns its exit status. Without JSON: the sentence and the advice on `err`. With
/// `--json -`: the object on `out` and the sentence on `err`. With `--json OUT`: the object on `err`.
int report_error(const colorlib::Error& error, const JsonTarget& target, Streams& streams,
                 std::string_view subject = {});

/// Why the work is not done when what was said on `out` did not get through: cannot_write.
colorlib::Error standard_output_failed();

/// Writes `json` (a line end is added when missing) to the target: standard output, or the file as a whole or
/// not at all. Does nothing when no JSON is wanted. Errors: cannot_write.
colorlib::Result<std::monostate> write_json(std::string json, const JsonTarget& target, Streams& streams);

}  // namespace tintfall
