#include <fmt/format.h>

#include <CLI/App.hpp>
#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>
#include <CLI/Validators.hpp>
#include <colorlib/base/file_access.hpp>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/chart/chart_file_name.hpp>
#include <colorlib/chart/reference_text.hpp>
#include <colorlib/comparison/sheet_fading.hpp>
#include <colorlib/image/decode.hpp>
#include <colorlib/records/content_hash.hpp>
#include <colorlib/specimen/sheet_transfer.hpp>
#include <nlohmann/json.hpp>
#include <set>
#include <viewer/command/chart_transfer.hpp>
#include <viewer/command/corner_options.hpp>
#include <viewer/command/exit_status.hpp>
#include <viewer/command/interruption.hpp>
#include <viewer/command/json_text.hpp>
#include <viewer/command/output_check.hpp>
#include <viewer/command/sheet_settings.hpp>
#include <viewer/command/text_wrap.hpp>
#include <viewer/command/timed_progress.hpp>
#include <viewer/command/today.hpp>

namespace tintfall {
namespace {

using namespace colorlib;
using nlohmann::ordered_json;

constexpr std::size_t most_photos = 200;

/// One photo's worth of provenance.
struct UsedPhoto {
  std::string name, sha256;
};

using Corners = std::array<PointPx, 4>;

/// None, or four for each photo.
Result<std::vector<Corners>> corners_of_all(const std::string& option, const std::vector<std::string>& texts,
                                            std::size_t photos) {
  std::vector<Corners> corners;
  if (texts.empty()) return corners;
  if (texts.size() != 4 * photos)
    return fail(
        ErrorCode::bad_call,
        fmt::format(
            "{} was given {} corners for {} photos; four for each photo are needed, in the photos' order.",
            option, texts.size(), photos),
        "Write the four corners of the first photo, then those of the second, and so on.");
  for (std::size_t i = 0; i < photos; ++i) {
    const auto four =
        corners_from(std::vector<std::string>(texts.begin() + static_cast<std::ptrdiff_t>(4 * i),
                                              texts.begin() + static_cast<std::ptrdiff_t>(4 * i + 4)));
    if (!four) return fail(four.error());
    corners.push_back(*four);
  }
  return corners;
}

/// None, one for all photos, or one each.
Result<std::vector<SheetSide>> sides_of(const std::string& text, std::size_t photos) {
  std::vector<SheetSide> sides;
  if (text.empty()) return sides;
  const auto words = fields_of(text, ',');
  for (const std::string& word : words ? *words : std::vector<std::string>{text}) {
    const auto side = sheet_side_from(word);
    if (!side)
      return fail(
          ErrorCode::bad_call,
          fmt::format("--known was given '{}'; left, right, above or below is needed.", quotable(word)),
          "Say where in the photos the known sheet lies.");
    sides.push_back(*side);
  }
  if (sides.size() == 1) sides.resize(photos, sides.front());
  if (sides.size() != photos)
    return fail(ErrorCode::bad_call,
                fmt::format("--known names {} sides for {} photos; one for all or one for each is needed.",
                            sides.size(), photos),
                "Name the sides in the photos' order.");
  return sides;
}

Result<std::monostate> check_call(const TransferChoices& choices) {
  std::set<std::string> seen;
  for (const std::string& photo : choices.photos) {
    std::error_code ignored;
    const auto whole = std::filesystem::weakly_canonical(photo, ignored);
    if (!seen.insert(ignored ? photo : whole.string()).second)
      return fail(ErrorCode::bad_call, fmt::format("The photo '{}' is named twice; each counts once.", photo),
                  "Name each photo once.");
  }
  const std::size_t least = TransferOptions{}.least_photos;
  if (choices.photos.size() < least || choices.photos.size() > most_photos)
    return fail(ErrorCode::bad_call,
                fmt::format("{} photo{} given; {} to {} are needed.", choices.photos.size(),
                            choices.photos.size() == 1 ? " was" : "s were", least, most_photos),
                "Take at least three, and change the sheets' places between them.");
  CallFiles files{choices.photos, {{"--out", choices.out}, choices.json.output()}};
  files.inputs.push_back(choices.known_reference);
  for (const std::string& chart : {choices.known, choices.printed})
    if (names_chart_file(chart)) files.inputs.push_back(chart);
  if (const auto sound = check_files(files); !sound) return sound;
  if (!choices.label.empty() && !is_label(choices.label))
    return fail(ErrorCode::bad_call, "The label has more than 64 characters, or control characters.",
                "Shorten the label.");
  if (choices.date != "today" && !is_date(choices.date))
    return fail(ErrorCode::bad_call, fmt::format("'{}' is no date of the form YYYY-MM-DD.", choices.date),
                "Say when the photos were taken, for example 2031-04-09.");
  return std::monostate{};
}

Result<SheetTransfer> carried_over(const TransferChoices& choices, const TransferSheets& sheets,
                                   std::vector<UsedPhoto>& used, std::vector<SheetBeside>& beside,
                                   Streams& streams) {
  const auto known_corners = corners_of_all("--from-corners", choices.known_corners, choices.photos.size());
  if (!known_corners) return fail(known_corners.error());
  const auto printed_corners = corners_of_all("--to-corners", choices.printed_corners, choices.photos.size());
  if (!printed_corners) return fail(printed_corners.error());
  const auto known_sides = sides_of(choices.side, choices.photos.size());
  if (!known_sides) return fail(known_sides.error());
  const Interruption interruption;
  for (std::size_t i = 0; i < choices.photos.size(); ++i) {
    const std::filesystem::path file = choices.photos[i];
    TimedProgress progress(streams, file.filename().string());
    progress.report(0, "decoding");
    const auto photo = decode_photo(file);
    if (!photo) return fail(photo.error());
    TwoSheetsHints hints;
    if (!known_sides->empty()) hints.known_side = (*known_sides)[i];
    if (!known_corners->empty()) hints.known_corners = (*known_corners)[i];
    if (!printed_corners->empty()) hints.other_corners = (*printed_corners)[i];
    auto one = read_sheet_beside(*photo, sheets, hints, {}, progress);
    progress.clear();
    if (!one) return fail(one.error());
    const auto hash = sha256_of_file(file);
    used.push_back({photo->name(), hash ? *hash : std::string()});
    beside.push_back(std::move(*one));
  }
  return transferred_reference(beside, sheets, {});
}

std::string file_text(const TransferChoices& choices, const TransferSheets& sheets,
                      const SheetTransfer& transfer, const std::vector<UsedPhoto>& used,
                      const std::string& known_hash) {
  std::string descriptor = fmt::format("reference values of a printed {}", sheets.printed.name);
  if (!choices.label.empty()) descriptor += fmt::format(", sheet {}", choices.label);
  std::string text =
      reference_text(transfer.values,
                     {{"ORIGINATOR", "tintfall " TINTFALL_VERSION},
                      {"DESCRIPTOR", descriptor},
                      {"CREATED", choices.date == "today" ? today() : choices.date},
                      {"MEASUREMENT_SOURCE",
                       fmt::format("{} from {}, values {} (sha256 {})", transferred_source, sheets.known.name,
                                   std::filesystem::path(choices.known_reference).filename().string(),
                                   known_hash.substr(0, 16))}});
  std::string notes;
  for (const UsedPhoto& photo : used) {
    std::string name = photo.name;
    for (char& c : name)
      if (static_cast<unsigned char>(c) < 0x20) c = ' ';
    notes += fmt::format("# photo {} sha256 {}\n", name, photo.sha256);
  }
  const std::size_t at = text.find("\nNUMBER_OF_FIELDS");
  return text.insert(at, notes);
}

ordered_json json_of(const TransferChoices& choices, const TransferSheets& sheets,
                     const SheetTransfer& transfer, const std::vector<SheetBeside>& beside,
                     const std::vector<UsedPhoto>& used) {
  ordered_json json;
  json["format"] = "tintfall-transfer";
  json["version"] = 1;
  json["software"] = "tintfall " TINTFALL_VERSION;
  json["from"] = {{"chart", sheets.known.name}, {"reference_source", sheets.known_values.source}};
  json["to"] = {{"chart", sheets.printed.name}, {"label", choices.label}, {"reference_file", choices.out}};
  json["photos"] = ordered_json::array();
  for (std::size_t i = 0; i < beside.size(); ++i)
    json["photos"].push_back({{"name", used[i].name},
                              {"sha256", used[i].sha256},
                              {"printed_sheet", sheet_side_name(beside[i].side)},
                              {"gap_mm", rounded(beside[i].gap_mm, 1)},
                              {"check_de00_mean", rounded(beside[i].check_de00_mean, 3)}});
  json["sides"] = transfer.sides;
  json["median_de00_expanded"] = rounded(transfer.median_expanded_de00, 3);
  json["median_repeatability_de00"] = rounded(transfer.median_repeatability_de00, 3);
  json["patches"] = ordered_json::array();
  for (std::size_t p = 0; p < transfer.values.patches.size(); ++p) {
    const PatchReference& patch = transfer.values.patches[p];
    const auto& u = patch.standard_uncertainty;
    ordered_json outliers = ordered_json::array();
    for (const std::size_t i : transfer.agreement[p].outliers) outliers.push_back(used[i].name);
    json["patches"].push_back(
        {{"id", patch.id},
         {"lab", {rounded(patch.lab.l, 3), rounded(patch.lab.a, 3), rounded(patch.lab.b, 3)}},
         {"lab_standard_uncertainty", {rounded(u[0], 3), rounded(u[1], 3), rounded(u[2], 3)}},
         {"photos", transfer.agreement[p].photos},
         {"repeatability_de00", rounded(transfer.agreement[p].repeatability_de00, 3)},
         {"outliers", std::move(outliers)}});
  }
  json["remarks"] = transfer.remarks;
  return json;
}

Result<TransferSheets> sheets_of(const TransferChoices& choices) {
  TransferSheets sheets;
  auto known = find_chart(choices.known);
  if (!known) return fail(known.error());
  sheets.known = std::move(*known);
  auto values = read_reference(choices.known_reference, sheets.known);
  if (!values) return fail(values.error());
  sheets.known_values = std::move(*values);
  auto printed = find_chart(choices.printed);
  if (!printed) return fail(printed.error());
  sheets.printed = std::move(*printed);
  return sheets;
}

}  // namespace

CLI::App* declare_transfer(CLI::App& app, TransferChoices& choices) {
  auto* transfer =
      app.add_subcommand("transfer", "Reference values for a printed sheet, from photos beside a known one");
  transfer->add_option("PHOTO", choices.photos, "At least three photographs that show both sheets")
      ->required();
  transfer
      ->add_option("--from", choices.known,
                   "The sheet whose values are known: a chart's name or a definition file")
      ->type_name("NAME|DEF.json")
      ->required();
  transfer->add_option("--from-reference", choices.known_reference, "Its reference values")
      ->type_name("REF.txt")
      ->required();
  transfer->add_option("--to", choices.printed, "The printed sheet: a chart's name or a definition file")
      ->type_name("NAME|DEF.json")
      ->required();
  transfer->add_option("--out", choices.out, "The file of reference values to write")
      ->type_name("REF.txt")
      ->required();
  transfer
      ->add_option("--known", choices.side,
                   "Where the known sheet lies, needed when both sheets bear the same markers: left, right, "
                   "above or below in "
                   "every photo, or one for each photo, as in left,left,right,right")
      ->type_name("SIDE[,SIDE...]");
  transfer
      ->add_option("--from-corners", choices.known_corners,
                   "The known sheet's corners in each photo, when it has no markers: top-left, top-right, "
                   "bottom-right, "
                   "bottom-left of the first photo, then of the next")
      ->type_name("x,y");
  transfer->add_option("--to-corners", choices.printed_corners, "The same of the printed sheet")
      ->type_name("x,y");
  transfer->add_option("--label", choices.label, "The printed sheet's label, kept in the file")
      ->type_name("LABEL");
  transfer->add_option("--date", choices.date, "When the photos were taken, YYYY-MM-DD")
      ->type_name("DATE")
      ->capture_default_str();
  declare_json(*transfer, choices.json);
  return transfer;
}

int run_transfer(const TransferChoices& choices, Streams& streams) {
  if (const auto sound = check_call(choices); !sound)
    return report_error(sound.error(), choices.json, streams);
  const auto sheets = sheets_of(choices);
  if (!sheets) return report_error(sheets.error(), choices.json, streams);
  std::vector<UsedPhoto> used;
  std::vector<SheetBeside> beside;
  const auto transfer = carried_over(choices, *sheets, used, beside, streams);
  if (!transfer) return report_error(transfer.error(), choices.json, streams);
  const auto known_hash = sha256_of_file(choices.known_reference);
  if (!known_hash) return report_error(known_hash.error(), choices.json, streams);
  if (const auto written =
          write_file_atomically(choices.out, file_text(choices, *sheets, *transfer, used, *known_hash));
      !written)
    return report_error(written.error(), choices.json, streams);
  if (const auto written =
          write_json(json_text(json_of(choices, *sheets, *transfer, beside, used)), choices.json, streams);
      !written)
    return report_error(written.error(), choices.json, streams);
  for (const std::string& remark : transfer->remarks) streams.err << wrapped(remark, 0, 0) << '\n';
  if (choices.json.to_standard_output()) return status_done;
  streams.out
      << fmt::format(
             "{}: {} patches of a printed {}, from {} photos beside a {} with known values\n"
             "  values    within ΔE00 {:.1f} of the truth (95 %, median over the patches), as far as the "
             "known values are true\n"
             "  photos    one photo differs from their mean by ΔE00 {:.2f} (median over the patches)\n",
             choices.out, transfer->values.patches.size(), sheets->printed.name, beside.size(),
             sheets->known.name, transfer->median_expanded_de00, transfer->median_repeatability_de00)
      << "Read with it: tintfall read PHOTO --chart " << choices.printed << " --reference " << choices.out
      << '\n';
  return status_done;
}

CLI::App* declare_fading(CLI::App& app, FadingChoices& choices) {
  auto* fading =
      app.add_subcommand("fading", "Which patches of a sheet changed between two measurements of it");
  fading->add_option("BEFORE", choices.before, "The older file of reference values")->required();
  fading->add_option("AFTER", choices.after, "The newer one")->required();
  fading->add_option("--chart", choices.chart, "The sheet's chart: a name or a definition file")
      ->type_name("NAME|DEF.json")
      ->required();
  declare_json(*fading, choices.json);
  return fading;
}

namespace {

ordered_json json_of(const SheetFading& fading, const ChartDefinition& chart) {
  ordered_json json;
  json["format"] = "tintfall-fading";
  json["version"] = 1;
  json["software"] = "tintfall " TINTFALL_VERSION;
  json["chart"] = chart.name;
  json["changed"] = fading.changed;
  json["undecided"] = fading.undecided;
  json["median_de00"] = rounded(fading.median_de00, 3);
  json["worst_de00"] = rounded(fading.worst_de00, 3);
  json["advice"] = fading_advice_word(fading.advice);
  json["patches"] = ordered_json::array();
  const auto triple = [](double l, double a, double b) {
    return ordered_json{rounded(l, 3), rounded(a, 3), rounded(b, 3)};
  };
  for (const PatchFading& patch : fading.patches)
    json["patches"].push_back({{"id", patch.id},
                               {"before", triple(patch.before.l, patch.before.a, patch.before.b)},
                               {"after", triple(patch.after.l, patch.after.a, patch.after.b)},
                               {"de00", rounded(patch.de00, 3)},
                               {"de00_expanded", rounded(patch.de00_expanded, 3)},
                               {"change", patch_change_word(patch.change)}});
  json["remarks"] = fading.remarks;
  return json;
}

const char* advice_text(FadingAdvice advice) {
  switch (advice) {
    case FadingAdvice::keep:
      return "Nothing that can be told from chance: go on with either file.";
    case FadingAdvice::use_newer_values:
      return "Read with the newer values from now on; what was read shortly before them with the older ones "
             "is off by about "
             "what its nearest patches have moved.";
    case FadingAdvice::reprint:
      break;
  }
  return "Print a new sheet and measure it: this one changes too fast to trust it between two measurements. "
         "Keep sheets dry, "
         "dark and between clean paper.";
}

}  // namespace

int run_fading(const FadingChoices& choices, Streams& streams) {
  CallFiles files{{choices.before, choices.after}, {choices.json.output()}};
  if (names_chart_file(choices.chart)) files.inputs.push_back(choices.chart);
  if (const auto sound = check_files(files); !sound)
    return report_error(sound.error(), choices.json, streams);
  const auto chart = find_chart(choices.chart);
  if (!chart) return report_error(chart.error(), choices.json, streams);
  const auto before = read_reference(choices.before, *chart);
  if (!before) return report_error(before.error(), choices.json, streams);
  const auto after = read_reference(choices.after, *chart);
  if (!after) return report_error(after.error(), choices.json, streams);
  const auto fading = sheet_fading(*before, *after);
  if (!fading) return report_error(fading.error(), choices.json, streams);
  if (const auto written = write_json(json_text(json_of(*fading, *chart)), choices.json, streams); !written)
    return report_error(written.error(), choices.json, streams);
  for (const std::string& remark : fading->remarks) streams.err << wrapped(remark, 0, 0) << '\n';
  if (choices.json.to_standard_output()) return status_done;
  streams.out << fmt::format(
      "{}: {} of {} patches {} changed, {} cannot be told; median ΔE00 {:.1f}, most {:.1f}\n", chart->name,
      fading->changed, fading->patches.size(), fading->changed == 1 ? "has" : "have", fading->undecided,
      fading->median_de00, fading->worst_de00);
  for (const PatchFading& patch : fading->patches)
    if (patch.change == PatchChange::changed)
      streams.out << fmt::format("  {:<8} ΔE00 {:4.1f} ± {:.1f}   L* {:+.1f}   a* {:+.1f}   b* {:+.1f}\n",
                                 patch.id, patch.de00, patch.de00_expanded, patch.after.l - patch.before.l,
                                 patch.after.a - patch.before.a, patch.after.b - patch.before.b);
  streams.out << wrapped(advice_text(fading->advice), 0, 0) << '\n';
  return status_done;
}

}  // namespace tintfall
