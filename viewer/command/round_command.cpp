#include <CLI/App.hpp>
#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>
#include <CLI/Validators.hpp>
#include <colorlib/base/file_access.hpp>
#include <colorlib/comparison/comparison_json.hpp>
#include <colorlib/comparison/round_readings.hpp>
#include <colorlib/exports/round_page.hpp>
#include <filesystem>
#include <viewer/command/comparison_page.hpp>
#include <viewer/command/comparison_summary.hpp>
#include <viewer/command/exit_status.hpp>
#include <viewer/command/interruption.hpp>
#include <viewer/command/reading_summary.hpp>
#include <viewer/command/round_command.hpp>
#include <viewer/command/timed_progress.hpp>

namespace tintfall {

using namespace colorlib;

void RoundCommand::declare(CLI::App& app) {
  app.require_subcommand(1);
  auto* report = app.add_subcommand("report", "Verdicts, consensus, precision and bias of a round");
  report->add_option("ROUND", round_, "The round file (JSON): items, collectors, and which record is whose")
      ->required();
  report
      ->add_option("--tolerance", tolerance_de00_,
                   "How far apart colours may be and still be the same, ΔE00 (else as the round file says)")
      ->type_name("DE00")
      ->check(CLI::Range(1e-3, 50.0));
  report->add_option("--page", page_, "Draw the round on a page: biases, colours, verdicts")
      ->type_name("OUT.pdf");
  declare_json(*report, json_);
  auto* quiet = report->add_flag("--quiet", quiet_, "No summary");
  report->add_flag("--verbose", verbose_, "Every pair, and small ellipsoids too")->excludes(quiet);
  app.footer("\nExample: tintfall round report autumn/round.json --json report.json");
}

CallFiles RoundCommand::files_of(const Round& round) const {
  const auto folder = std::filesystem::path(round_).parent_path();
  CallFiles files{{round_}, {json_.output(), {"--page", page_}}};
  for (const RoundItem& item : round.items)
    if (item.reference && !item.reference->record.empty())
      files.inputs.push_back((folder / item.reference->record).string());
  for (const RoundEntry& entry : round.entries) files.inputs.push_back((folder / entry.record).string());
  return files;
}

int RoundCommand::run(Streams& streams) {
  const auto refuse = [&](const Error& error) { return report_error(error, json_, streams); };
  const auto round = read_round(round_);
  if (!round) return refuse(round.error());
  const CallFiles files = files_of(*round);
  if (const auto apart = check_kept_apart(files); !apart) return refuse(apart.error());
  if (const auto sound = check_ending("--page", page_, ".pdf"); !sound) return refuse(sound.error());
  if (const auto sound = check_files(files); !sound) return refuse(sound.error());
  const Interruption interruption;
  TimedProgress progress(streams, "round");
  auto readings = readings_of_round(*round, std::filesystem::path(round_).parent_path(), progress);
  if (!readings) return refuse(readings.error());

  ComparisonOptions options;
  options.unit = ComparedUnit::collector_mean;
  options.rule.tolerance_de00 = tolerance_de00_ ? tolerance_de00_ : round->tolerance_de00;
  const auto comparison = compare(std::move(readings->chosen), readings->references, options, progress);
  progress.clear();
  if (!comparison) return refuse(comparison.error());
  ComparisonWords words;
  words.title = {round->title, round->remark};
  words.verbose = verbose_;
  for (const RoundItem& item : round->items) words.item_titles[item.id] = item.title;
  for (const RoundCollector& collector : round->collectors)
    words.collector_names[collector.id] = collector.name;
  if (!page_.empty()) {
    const auto pdf = round_page_pdf(page_from(*comparison, words));
    if (!pdf) return refuse(pdf.error());
    if (const auto written = write_file_atomically(page_, *pdf); !written) return refuse(written.error());
  }
  if (json_.wanted())
    if (const auto written = write_json(comparison_json(*comparison, words.title), json_, streams); !written)
      return refuse(written.error());
  if (quiet_ || json_.to_standard_output()) return status_done;
  print_comparison(*comparison, words, streams.out);
  print_caution(streams.out);
  return status_done;
}

}  // namespace tintfall
