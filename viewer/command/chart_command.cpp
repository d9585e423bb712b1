#include <fmt/format.h>

#include <CLI/App.hpp>
#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>
#include <CLI/Validators.hpp>
#include <algorithm>
#include <colorlib/base/file_access.hpp>
#include <colorlib/chart/chart_definition.hpp>
#include <colorlib/chart/chart_drawing.hpp>
#include <colorlib/chart/chart_file_name.hpp>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <viewer/command/chart_command.hpp>
#include <viewer/command/exit_status.hpp>
#include <viewer/command/json_text.hpp>
#include <viewer/command/output_check.hpp>
#include <viewer/command/today.hpp>

namespace tintfall {
namespace {

using namespace colorlib;
using nlohmann::ordered_json;

std::string size_text(double width_mm, double height_mm) {
  return fmt::format("{:g} x {:g} mm", width_mm, height_mm);
}

std::string opening_text(const ChartDefinition& chart) {
  if (chart.windows.empty()) return "no opening, lies beside the specimen";
  const RectangleMm& window = chart.windows.front().place;
  return fmt::format("opening {}{}", size_text(window.width, window.height),
                     chart.backings.empty() ? "" : ", black and white ground");
}

ordered_json json_of(const ChartDefinition& chart) {
  ordered_json object;
  object["name"] = chart.name;
  object["title"] = chart.title;
  object["sheet_mm"] = {{"width", chart.width_mm}, {"height", chart.height_mm}};
  object["windows"] = ordered_json::array();
  for (const auto& window : chart.windows)
    object["windows"].push_back(
        {{"id", window.id}, {"width_mm", window.place.width}, {"height_mm", window.place.height}});
  object["patches"] = chart.patches.size();
  object["marker_ids"] = ordered_json::array();
  for (const auto& marker : chart.markers) object["marker_ids"].push_back(marker.id);
  return object;
}

/// PDF, SVG or PNG by the ending of the file's name.
Result<SheetFormat> format_of(const std::string& file) {
  std::string ending = std::filesystem::path(file).extension().string();
  std::transform(ending.begin(), ending.end(), ending.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  if (ending == ".pdf") return SheetFormat::pdf;
  if (ending == ".svg") return SheetFormat::svg;
  if (ending == ".png") return SheetFormat::png;
  return fail(
      ErrorCode::bad_call,
      fmt::format(
          "The sheet is to go to '{}', whose ending names none of the formats: .pdf, .svg or .png is needed.",
          file),
      "Name a file such as sheet.pdf.");
}

bool has_fields(const ChartDefinition& chart) {
  return std::any_of(chart.texts.begin(), chart.texts.end(),
                     [](const PrintedText& text) { return text.kind == PrintedTextKind::fields; });
}

}  // namespace

void ChartCommand::declare(CLI::App& app) {
  app.require_subcommand(1);
  list_ = app.add_subcommand("list", "The charts that this program draws and knows by their markers");
  declare_json(*list_, json_);
  auto* print = app.add_subcommand("print", "Draw a sheet true to size");
  print->add_option("NAME", chart_, "A chart of the list, or a definition file (.json)")->required();
  print->add_option("--out", out_, "The file to write; its ending says what it becomes: .pdf, .svg or .png")
      ->type_name("FILE")
      ->required();
  print
      ->add_option("--label", label_,
                   "The name of this one sheet, printed on it; without it a line to write on")
      ->type_name("LABEL");
  print->add_option("--date", date_, "The print date, YYYY-MM-DD or 'today'; without it a line to write on")
      ->type_name("DATE");
  print->add_option("--dpi", dots_per_inch_, "Dots per inch of a PNG")->capture_default_str();
  declare_json(*print, json_);
  transfer_ = declare_transfer(app, transfer_choices_);
  fading_ = declare_fading(app, fading_choices_);
  app.footer(
      "\nPrint at 100 %, without 'fit to page', on matt paper, and lay a ruler along the printed one.\n"
      "Examples: tintfall chart print frame-a5 --out sheet.pdf --label A5-03 --date today\n"
      "          tintfall chart transfer 1.jpg 2.jpg 3.jpg --from frame-a5 --from-reference known.txt --to "
      "strip --out "
      "strip-02.txt\n"
      "          tintfall chart fading spring.txt autumn.txt --chart strip");
}

int ChartCommand::run(Streams& streams) {
  if (list_->parsed()) return list(streams);
  if (transfer_->parsed()) return run_transfer(transfer_choices_, streams);
  if (fading_->parsed()) return run_fading(fading_choices_, streams);
  return print(streams);
}

int ChartCommand::list(Streams& streams) const {
  if (const auto sound = check_files({{}, {json_.output()}}); !sound)
    return report_error(sound.error(), json_, streams);
  const auto charts = shipped_charts();
  if (!charts) return report_error(charts.error(), json_, streams);
  auto all = ordered_json::array();
  for (const auto& chart : *charts) all.push_back(json_of(chart));
  if (const auto written = write_json(json_text({{"charts", all}}), json_, streams); !written)
    return report_error(written.error(), json_, streams);
  if (json_.to_standard_output()) return status_done;
  for (const auto& chart : *charts)
    streams.out << fmt::format("{:<16} {:<18} {:>3} patches, {}\n", chart.name,
                               size_text(chart.width_mm, chart.height_mm), chart.patches.size(),
                               opening_text(chart));
  return status_done;
}

int ChartCommand::print(Streams& streams) const {
  const auto format = format_of(out_);
  if (!format) return report_error(format.error(), json_, streams);
  CallFiles files{{}, {{"--out", out_, OutputKind::picture}, json_.output()}};
  if (names_chart_file(chart_)) files.inputs.push_back(chart_);
  if (const auto sound = check_files(files); !sound) return report_error(sound.error(), json_, streams);
  const auto chart = find_chart(chart_);
  if (!chart) return report_error(chart.error(), json_, streams);
  const SheetPrint sheet{*format, label_, date_ == "today" ? today() : date_, dots_per_inch_};
  const auto bytes = draw_sheet(*chart, sheet);
  if (!bytes) return report_error(bytes.error(), json_, streams);
  if (const auto written = write_file_atomically(out_, *bytes); !written)
    return report_error(written.error(), json_, streams);
  if (!has_fields(*chart) && !(label_.empty() && date_.empty()))
    streams.err << fmt::format(
        "tintfall: '{}' has no place for label and date, so they are not on the sheet\n", chart->name);
  if (label_is_shortened(*chart, label_))
    streams.err << fmt::format(
        "tintfall: the label '{}' is too long for its field, so the sheet shows only its beginning; a short "
        "one "
        "such as 'A5-03' fits\n",
        label_);

  ordered_json answer = json_of(*chart);
  answer["file"] = out_;
  answer["label"] = label_;
  answer["print_date"] = sheet.print_date;
  if (const auto written = write_json(json_text(answer), json_, streams); !written)
    return report_error(written.error(), json_, streams);
  if (json_.to_standard_output()) return status_done;
  streams.out << fmt::format(
      "{}: {}, {}, {}\n"
      "Print it at 100 % on matt paper with the printer's colour enhancement off, check the ruler on the "
      "print,\n"
      "and let it dry for a day.\n",
      out_, chart->title, size_text(chart->width_mm, chart->height_mm), opening_text(*chart));
  return status_done;
}

}  // namespace tintfall
