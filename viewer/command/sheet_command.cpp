#include <fmt/format.h>

#include <CLI/App.hpp>
#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>
#include <algorithm>
#include <nlohmann/json.hpp>
#include <viewer/command/exit_status.hpp>
#include <viewer/command/json_text.hpp>
#include <viewer/command/output_check.hpp>
#include <viewer/command/sheet_adding.hpp>
#include <viewer/command/sheet_command.hpp>

namespace tintfall {
namespace {

using namespace colorlib;

std::vector<PrintedSheet>::const_iterator place_of(const std::vector<PrintedSheet>& sheets,
                                                   const std::string& label) {
  return std::find_if(sheets.begin(), sheets.end(), [&](const auto& sheet) { return sheet.label == label; });
}

}  // namespace

void SheetCommand::declare(CLI::App& app) {
  app.require_subcommand(1);
  add_ = app.add_subcommand("add",
                            "Add a printed sheet under its label, after checking that its files can be used");
  add_->add_option("LABEL", sheet_.label, "What is written on the print")->required();
  add_->add_option("--chart", sheet_.chart, "A shipped chart's name, or a definition file")
      ->type_name("NAME|DEF.json")
      ->required();
  add_->add_option("--reference", sheet_.reference,
                   "The measured colours of this very print (CGATS text or CSV)")
      ->type_name("FILE");
  add_->add_option("--printed", sheet_.printed, "The day it was printed, YYYY-MM-DD")->type_name("DATE");
  add_->add_flag("--replace", replace_, "Replace a sheet that already has this label");
  list_ = app.add_subcommand("list", "Show the sheets");
  declare_json(*list_, json_);
  remove_ = app.add_subcommand("remove", "Forget a sheet; its files stay");
  remove_->add_option("LABEL", sheet_.label, "The sheet's label")->required();
  app.footer(
      "\nExample: tintfall sheet add A5-03 --chart frame-a5 --reference a5-03.txt --printed 2031-03-01\n"
      "then:    tintfall read photo.jpg --sheet A5-03");
}

int SheetCommand::run(Streams& streams) {
  const auto file = sheet_settings_file();
  if (!file) return report_error(file.error(), json_, streams);
  if (add_->parsed()) return add(*file, streams);
  return list_->parsed() ? list(*file, streams) : remove(*file, streams);
}

int SheetCommand::add(const std::filesystem::path& file, Streams& streams) {
  const auto added = add_sheet(file, sheet_, replace_);
  if (!added) return report_error(added.error(), json_, streams);
  const PrintedSheet& sheet = added->sheet;
  streams.out << fmt::format("Sheet '{}' added: chart {}, {}.\n", sheet.label, added->chart,
                             sheet.reference.empty() ? "nominal colours" : "reference " + sheet.reference);
  return status_done;
}

int SheetCommand::list(const std::filesystem::path& file, Streams& streams) const {
  if (const auto sound = check_files({{file.string()}, {json_.output()}}); !sound)
    return report_error(sound.error(), json_, streams);
  const auto sheets = read_sheets(file);
  if (!sheets) return report_error(sheets.error(), json_, streams);
  auto all = nlohmann::ordered_json::array();
  for (const PrintedSheet& sheet : *sheets)
    all.push_back({{"label", sheet.label},
                   {"chart", sheet.chart},
                   {"reference", sheet.reference},
                   {"printed", sheet.printed},
                   {"missing", missing_files(sheet)}});
  if (const auto written = write_json(json_text({{"sheets", all}}), json_, streams); !written)
    return report_error(written.error(), json_, streams);
  if (json_.to_standard_output()) return status_done;
  if (sheets->empty()) streams.out << "No sheet has been added yet.\n";
  for (const PrintedSheet& sheet : *sheets) {
    streams.out << fmt::format("{}: chart {}, {}{}\n", sheet.label, sheet.chart,
                               sheet.reference.empty() ? "nominal colours" : "reference " + sheet.reference,
                               sheet.printed.empty() ? "" : ", printed " + sheet.printed);
    for (const std::string& file : missing_files(sheet)) streams.out << fmt::format("  missing: {}\n", file);
  }
  return status_done;
}

int SheetCommand::remove(const std::filesystem::path& file, Streams& streams) const {
  auto sheets = read_sheets(file);
  if (!sheets) return report_error(sheets.error(), json_, streams);
  if (const auto known = find_sheet(*sheets, sheet_.label); !known)
    return report_error({known.error().code, known.error().message,
                         sheets->empty() ? "There is none to remove." : "Name one of the known ones."},
                        json_, streams);
  sheets->erase(place_of(*sheets, sheet_.label));
  if (const auto written = write_sheets(file, std::move(*sheets)); !written)
    return report_error(written.error(), json_, streams);
  streams.out << fmt::format("Sheet '{}' removed.\n", sheet_.label);
  return status_done;
}

}  // namespace tintfall
