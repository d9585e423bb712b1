#include <CLI/App.hpp>
#include <colorlib/base/file_access.hpp>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/records/json_layout.hpp>
#include <nlohmann/json.hpp>
#include <viewer/command/exit_status.hpp>
#include <viewer/command/json_output.hpp>

namespace tintfall {
namespace {

void tell(const colorlib::Error& error, std::ostream& err) {
  err << "tintfall: " << error.message << '\n';
  if (!error.advice.empty()) err << "  " << error.advice << '\n';
}

}  // namespace

void declare_json(CLI::App& app, JsonTarget& target) {
  app.add_option(
         "--json", target.path,
         "Write JSON to the file OUT (replaced only when there is a result), or to standard output with -")
      ->type_name("OUT|-");
}

std::string error_json(const colorlib::Error& error, std::string_view subject) {
  nlohmann::ordered_json object;
  object["error"] = colorlib::error_object(error);
  if (!subject.empty()) object["error"]["photo"] = subject;
  // Names of files may hold any bytes: what is no UTF-8 is replaced, JSON stays JSON.
  return colorlib::json_without_controls(
      object.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace));
}

int report_error(const colorlib::Error& error, const JsonTarget& target, Streams& streams,
                 std::string_view subject) {
  if (target.to_standard_output()) streams.out << error_json(error, subject) << '\n' << std::flush;
  if (target.wanted() && !target.to_standard_output())
    streams.err << error_json(error, subject) << '\n';
  else
    tell(error, streams.err);
  return exit_status(error.code);
}

colorlib::Error standard_output_failed() {
  return {colorlib::ErrorCode::cannot_write, "Writing to standard output failed.",
          "Check where the output goes: the disk may be full or the reader may have stopped."};
}

colorlib::Result<std::monostate> write_json(std::string json, const JsonTarget& target, Streams& streams) {
  if (!target.wanted()) return std::monostate{};
  if (json.empty() || json.back() != '\n') json += '\n';
  if (!target.to_standard_output()) return colorlib::write_file_atomically(target.path, json);
  streams.out << colorlib::json_without_controls(json) << std::flush;
  if (!streams.out) return colorlib::fail(standard_output_failed());
  return std::monostate{};
}

}  // namespace tintfall
