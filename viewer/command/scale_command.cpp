#include <fmt/format.h>

#include <CLI/App.hpp>
#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>
#include <CLI/Validators.hpp>
#include <colorlib/base/data_folder.hpp>
#include <colorlib/naming/munsell_renotation.hpp>
#include <colorlib/naming/scale_check.hpp>
#include <nlohmann/json.hpp>
#include <viewer/command/exit_status.hpp>
#include <viewer/command/json_text.hpp>
#include <viewer/command/output_check.hpp>
#include <viewer/command/scale_command.hpp>

namespace tintfall {
namespace {

using namespace colorlib;
using nlohmann::ordered_json;

ordered_json json_of(const ColorScale& scale, const std::vector<ScaleFinding>& findings) {
  ordered_json object;
  object["scale"] = scale.name();
  object["entries"] = scale.entries().size();
  object["white"] = "D50";
  object["observer"] = "CIE 1931 2 degree";
  if (!scale.remark().empty()) object["remark"] = scale.remark();
  object["findings"] = ordered_json::array();
  for (const auto& found : findings)
    object["findings"].push_back({{"kind", finding_word(found.kind)},
                                  {"first", found.first},
                                  {"first_line", found.first_line},
                                  {"second", found.second},
                                  {"second_line", found.second_line},
                                  {"de00", rounded(found.de00, 3)},
                                  {"sentence", found.sentence}});
  return object;
}

void print(const ColorScale& scale, const std::vector<ScaleFinding>& findings, std::ostream& out) {
  out << fmt::format("{}: {} colours (CIELAB, D50, CIE 1931 2 degree observer{}{})\n", scale.name(),
                     scale.entries().size(), scale.remark().empty() ? "" : "; ", scale.remark());
  for (const auto& found : findings) out << "  " << found.sentence << '\n';
  if (findings.empty()) out << "  no duplicates, nothing closer than the tolerance, no gaps\n";
}

}  // namespace

void ScaleCommand::declare(CLI::App& app) {
  app.require_subcommand(1);
  auto* check = app.add_subcommand("check", "Report duplicates, entries nearer than the tolerance, and gaps");
  check->add_option("FILE", files_, "CSV with name,L,a,b (or name,munsell), or CGATS text")->required();
  check
      ->add_option("--tolerance", tolerance_de00_,
                   "What counts as the same colour, in CIEDE2000, for entries that state none of their own")
      ->check(CLI::Range(0.0, 50.0))
      ->capture_default_str();
  declare_json(*check, json_);
}

int ScaleCommand::run(Streams& streams) {
  if (const auto sound = check_files({files_, {json_.output()}}); !sound)
    return report_error(sound.error(), json_, streams);
  const auto renotation = MunsellRenotation::load(data_folder() / "reference" / "munsell_renotation.csv");
  if (!renotation) return report_error(renotation.error(), json_, streams);
  auto all = ordered_json::array();
  for (const auto& file : files_) {
    const auto scale = ColorScale::load(file, *renotation, tolerance_de00_);
    if (!scale) return report_error(scale.error(), json_, streams);
    const auto findings = check_scale(*scale);
    all.push_back(json_of(*scale, findings));
    if (!json_.to_standard_output()) print(*scale, findings, streams.out);
  }
  ordered_json answer;
  answer["tolerance_de00"] = tolerance_de00_;
  answer["scales"] = std::move(all);
  if (const auto written = write_json(json_text(answer), json_, streams); !written)
    return report_error(written.error(), json_, streams);
  return status_done;
}

}  // namespace tintfall
