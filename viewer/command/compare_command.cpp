#include <fmt/format.h>

#include <CLI/App.hpp>
#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>
#include <CLI/Validators.hpp>
#include <algorithm>
#include <colorlib/comparison/comparison_json.hpp>
#include <colorlib/records/record_lines.hpp>
#include <set>
#include <viewer/command/compare_command.hpp>
#include <viewer/command/comparison_summary.hpp>
#include <viewer/command/exit_status.hpp>
#include <viewer/command/interruption.hpp>
#include <viewer/command/output_check.hpp>
#include <viewer/command/reading_summary.hpp>
#include <viewer/command/record_list.hpp>
#include <viewer/command/timed_progress.hpp>

namespace tintfall {

using namespace colorlib;

namespace {

/// One file named twice is a slip of the hand that would count a reading twice.
std::optional<Error> named_twice(const std::vector<std::string>& files) {
  std::set<std::filesystem::path> seen;
  for (const std::string& file : files) {
    std::error_code unknown;
    auto path = std::filesystem::weakly_canonical(file, unknown);
    if (unknown) path = file;
    if (!seen.insert(path).second)
      return Error{ErrorCode::bad_call, fmt::format("The record '{}' is named twice.", file),
                   "Name each record once: a reading counts once."};
  }
  return std::nullopt;
}

std::string file_label(const std::string& file, std::size_t record, std::size_t records) {
  const std::string name = std::filesystem::path(file).filename().string();
  return records == 1 ? name : fmt::format("{}:{}", name, record + 1);
}

Result<ChosenReadings> readings_of(const std::vector<std::string>& files, const ReadingSelection& selection) {
  ChosenReadings chosen;
  std::set<std::string> names;
  for (const std::string& file : files) {
    const auto records = read_records(file);
    if (!records) return fail(records.error());
    // Files of one name in several folders are told apart by their folder.
    const bool known = !names.insert(std::filesystem::path(file).filename().string()).second;
    for (std::size_t i = 0; i < records->size(); ++i) {
      const std::string label = known ? file : file_label(file, i, records->size());
      auto of_record = compared_readings_from((*records)[i], label, selection);
      for (auto& reading : of_record.readings) chosen.readings.push_back(std::move(reading));
      for (auto& left : of_record.left_out) chosen.left_out.push_back(std::move(left));
    }
  }
  return chosen;
}

/// "a.json, b.json, c.json, ...".
std::string names_of(const std::vector<std::string>& files) {
  constexpr std::size_t most = 3;
  std::string names;
  for (std::size_t i = 0; i < std::min(files.size(), most); ++i)
    names += fmt::format("{}'{}'", i > 0 ? ", " : "", std::filesystem::path(files[i]).filename().string());
  return names + (files.size() > most ? ", ..." : "");
}

Result<std::vector<ReferenceColor>> references_of(const std::vector<std::string>& files,
                                                  const ReadingSelection& selection) {
  std::vector<ReferenceColor> references;
  for (const std::string& file : files) {
    const auto chosen = readings_of({file}, selection);
    if (!chosen) return fail(chosen.error());
    if (chosen->readings.empty())
      return fail(ErrorCode::unreadable_record,
                  fmt::format("Reading the reference '{}': no reading in it can be used. {}", file,
                              chosen->left_out.front().why),
                  "Name another record as reference.");
    for (const ComparedReading& reading : chosen->readings)
      references.push_back({reading.item, reading.color, reading.label});
  }
  return references;
}

}  // namespace

void CompareCommand::declare(CLI::App& app) {
  app.add_option(
         "RECORD", records_,
         "Records that 'tintfall read --json' or '--save' wrote; a folder stands for the records in it")
      ->required();
  app.add_option("--reference", references_,
                 "A record whose reading is the item's known colour; repeatable, one an item")
      ->type_name("RECORD");
  app.add_option(
         "--tolerance", tolerance_de00_,
         "How far apart colours may be and still be the same, ΔE00; without it any difference that can be "
         "shown makes them different")
      ->type_name("DE00")
      ->check(CLI::Range(1e-3, 50.0));
  app.add_option("--kind", kind_, "Compare readings of this kind only (deposit, spot, bruise, ...)")
      ->type_name("KIND");
  app.add_option("--reading", reading_, "Compare the reading of this id in every record")->type_name("ID");
  app.add_option("--risk", risk_, "Grouping: probability that two readings of one colour are told apart")
      ->type_name("P")
      ->check(CLI::Range(1e-9, 0.999))
      ->capture_default_str();
  app.add_flag("--all-pairs", all_pairs_, "Pairs across items too, not only within each");
  declare_json(app, json_);
  auto* quiet = app.add_flag("--quiet", quiet_, "No summary");
  app.add_flag("--verbose", verbose_, "Every pair, and small ellipsoids too")->excludes(quiet);
  app.footer(
      "\nExamples: tintfall compare V.json Q.json H.json\n"
      "          tintfall compare records --reference lab.json --tolerance 2 --json -");
}

int CompareCommand::run(Streams& streams) {
  const auto refuse = [&](const Error& error) { return report_error(error, json_, streams); };
  ReadingSelection selection;
  selection.id = reading_;
  if (!kind_.empty()) {
    const auto kind = region_kind_from(kind_);
    if (!kind) return refuse({ErrorCode::bad_call, kind.error().message, kind.error().advice});
    selection.kind = *kind;
  }
  auto elsewhere = references_;
  elsewhere.push_back(json_.path);
  const auto list = record_list_from(records_, elsewhere);
  if (!list) return refuse(list.error());
  if (!list->passed_over.empty())
    streams.err << fmt::format(
        "{} without a record of photographs passed over: {}\n",
        list->passed_over.size() == 1 ? "One file" : fmt::format("{} files", list->passed_over.size()),
        names_of(list->passed_over));
  auto all = list->records;
  all.insert(all.end(), references_.begin(), references_.end());
  if (const auto twice = named_twice(all)) return refuse(*twice);
  if (const auto sound = check_files({all, {json_.output()}}); !sound) return refuse(sound.error());
  auto chosen = readings_of(list->records, selection);
  if (!chosen) return refuse(chosen.error());
  const auto references = references_of(references_, selection);
  if (!references) return refuse(references.error());

  ComparisonOptions options;
  options.rule.tolerance_de00 = tolerance_de00_;
  options.all_pairs = all_pairs_;
  options.group_risk = risk_;
  const Interruption interruption;
  TimedProgress progress(streams, "comparing");
  const auto comparison = compare(std::move(*chosen), *references, options, progress);
  progress.clear();
  if (!comparison) return refuse(comparison.error());
  if (json_.wanted())
    if (const auto written = write_json(comparison_json(*comparison), json_, streams); !written)
      return refuse(written.error());
  if (quiet_ || json_.to_standard_output()) return status_done;
  ComparisonWords words;
  words.verbose = verbose_;
  print_comparison(*comparison, words, streams.out);
  print_caution(streams.out);
  return status_done;
}

}  // namespace tintfall
