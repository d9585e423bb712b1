#include <fmt/format.h>

#include <CLI/App.hpp>
#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>
#include <colorlib/base/file_access.hpp>
#include <colorlib/exports/overlay.hpp>
#include <colorlib/image/decode.hpp>
#include <colorlib/naming/color_distribution.hpp>
#include <colorlib/records/record_json.hpp>
#include <colorlib/specimen/region_reading.hpp>
#include <viewer/command/exit_status.hpp>
#include <viewer/command/progress_line.hpp>
#include <viewer/command/read_command.hpp>
#include <viewer/command/reading_summary.hpp>

namespace tintfall {

using namespace colorlib;

void ReadCommand::declare(CLI::App& app) {
  declare_read(app, choices_);
  app.footer(
      "\nExamples: tintfall read photo.jpg --overlay overlay.png\n"
      "          tintfall read photo.jpg --sheet A5-03 --region deposit@105,74,12 --json -\n"
      "\nA reading holds for its light, camera, layer and moment: look at the flags before comparing.");
}

Result<Record> ReadCommand::read_one(const std::string& photo_file, const std::string& label,
                                     const ReadJob& job, Streams& streams) const {
  ProgressLine progress(streams, label);
  progress.report(0, "decoding");
  auto photo = decode_photo(std::filesystem::path(photo_file));
  if (!photo) return fail(photo.error());
  const auto reading = read_photo(*photo, job.request, job.naming.namer, progress);
  if (!reading) return fail(reading.error());

  const Subject subject = merged(job.fields.subject_of(photo->name()), choices_.subject);
  Record record = record_from(*photo, *reading, subject);
  if (job.sheet) {
    record.chart.sheet_label = job.sheet->label;
    record.chart.printed = job.sheet->printed;
  }
  for (const Reading& item : record.readings) {
    record.scales.emplace_back();
    if (item.refused || job.naming.scales.empty()) continue;
    const auto distribution = distribution_of(item.lab, item.lab_covariance);
    for (const ColorScale& scale : job.naming.scales)
      record.scales.back().push_back(scale.answer(item.lab, distribution));
  }
  if (!choices_.overlay.empty()) {
    progress.report(1, "drawing the overlay");
    const auto picture = draw_overlay(*photo, *reading);
    if (!picture) return fail(picture.error());
    if (const auto written = write_file_atomically(choices_.overlay, *picture); !written)
      return fail(written.error());
  }
  if (choices_.save) {
    const auto written = write_file_atomically(photo_file + ".reading.json", record_json(record) + "\n");
    if (!written) return fail(written.error());
  }
  return record;
}

void ReadCommand::summarise(const Record& record, const ReadJob& job, Streams& streams) const {
  for (const std::string& remark : record.photo.remarks)
    streams.err << fmt::format("{}: {}\n", record.photo.name, remark);
  if (choices_.quiet || choices_.json.to_standard_output()) return;
  std::vector<ColorDescription> words;
  for (const Reading& reading : record.readings) {
    const bool as_recorded = reading.refused || (choices_.naming.level == 3 && !terms_stated(choices_));
    NamingOptions options = job.naming.options;
    if (!terms_stated(choices_)) options.terms = trade_terms_for(reading.kind);
    words.push_back(as_recorded ? reading.words
                                : job.naming.namer.describe(reading.lab, reading.lab_covariance, options));
  }
  print_summary(record, words, {streams.colour, choices_.verbose, job.naming.wording}, streams.out);
}

int ReadCommand::run(Streams& streams) {
  const auto job = read_job_from(choices_);
  if (!job) return report_error(job.error(), choices_.json, streams);

  std::string lines;  // of all records, for a file
  int status = status_done;
  std::size_t stand = 0;
  for (std::size_t i = 0; i < choices_.photos.size(); ++i) {
    const std::string& photo = choices_.photos[i];
    const std::string name = std::filesystem::path(photo).filename().string();
    const std::string label = many() ? fmt::format("{}/{} {}", i + 1, choices_.photos.size(), name) : name;
    const auto record = read_one(photo, label, *job, streams);
    if (!record) {
      const int failed = report_error(record.error(), choices_.json, streams, many() ? name : std::string());
      if (status == status_done) status = failed;
      continue;
    }
    ++stand;
    const std::string json =
        choices_.json.wanted() ? record_json(*record, many() ? -1 : 2) + "\n" : std::string();
    if (choices_.json.to_standard_output()) {
      if (const auto written = write_json(json, choices_.json, streams); !written)
        return report_error(written.error(), {}, streams);
    } else {
      lines += json;
    }
    summarise(*record, *job, streams);
  }
  if (stand == 0) return status;
  if (!choices_.json.to_standard_output()) {
    if (const auto written = write_json(lines, choices_.json, streams); !written)
      return report_error(written.error(), choices_.json, streams);
    if (!choices_.quiet) print_caution(streams.out);
  }
  return status_done;
}

}  // namespace tintfall
