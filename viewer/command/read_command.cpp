#include <fmt/format.h>

#include <CLI/App.hpp>
#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>
#include <colorlib/base/file_access.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/exports/calibration_profile.hpp>
#include <colorlib/exports/overlay.hpp>
#include <colorlib/image/decode.hpp>
#include <colorlib/naming/color_distribution.hpp>
#include <colorlib/records/content_hash.hpp>
#include <colorlib/records/record_json.hpp>
#include <colorlib/specimen/layer_reading.hpp>
#include <colorlib/specimen/region_reading.hpp>
#include <viewer/command/exit_status.hpp>
#include <viewer/command/interruption.hpp>
#include <viewer/command/output_check.hpp>
#include <viewer/command/photo_batch.hpp>
#include <viewer/command/photo_list.hpp>
#include <viewer/command/photo_table.hpp>
#include <viewer/command/read_command.hpp>
#include <viewer/command/reading_identity.hpp>
#include <viewer/command/reading_summary.hpp>
#include <viewer/command/text_wrap.hpp>
#include <viewer/command/timed_progress.hpp>

namespace tintfall {

using namespace colorlib;

void ReadCommand::declare(CLI::App& app) {
  declare_read(app, choices_);
  app.footer(
      "\nExamples: tintfall read photo.jpg --overlay overlay.png\n"
      "          tintfall read photo.jpg --sheet A5-03 --region deposit@105,74,12 --json -\n"
      "          tintfall read a.jpg b.jpg c.jpg --together\n"
      "          tintfall read FOLDER --resume --overlays overlays --json autumn.jsonl\n"
      "\nA reading holds for its light, camera, layer and moment: look at the flags before comparing.\n"
      "\n" +
      reagent_caution_text());
}

Result<Record> ReadCommand::read_one(const std::string& photo_file, const ReadJob& job,
                                     Progress& progress) const {
  if (choices_.resume)
    if (auto record = resumed(photo_file, job)) return std::move(*record);
  const auto read = look(photo_file, job, progress);
  if (!read) return fail(read.error());
  return finish(*read, photo_file, job, progress);
}

Subject ReadCommand::subject_of(const std::string& photo, const ReadJob& job) const {
  return merged(job.fields.subject_of(std::filesystem::path(photo).filename().string()), choices_.subject);
}

std::string ReadCommand::options_of(const std::string& photo, const ReadJob& job) const {
  return sha256_of(job.identity + subject_identity(subject_of(photo, job)));
}

Result<ReadCommand::PhotoRead> ReadCommand::look(const std::string& photo_file, const ReadJob& job,
                                                 Progress& progress) const {
  progress.report(0, "decoding");
  auto photo = decode_photo(std::filesystem::path(photo_file));
  if (!photo) return fail(photo.error());
  Subject subject = subject_of(photo_file, job);
  ReadRequest request = job.request;
  request.surface = subject.surface;
  request.light = light_of(subject);
  auto reading = read_photo(*photo, request, job.naming.namer, progress);
  if (!reading) return fail(reading.error());
  return PhotoRead{std::move(*photo), std::move(*reading), std::move(subject)};
}

Result<Record> ReadCommand::finish(const PhotoRead& read, const std::string& photo_file, const ReadJob& job,
                                   Progress& progress) const {
  Record record = record_from(read.photo, read.reading, read.subject);
  // Of a pipe there is nothing left to look at: its record has no hash.
  std::error_code ignored;
  if (std::filesystem::is_regular_file(photo_file, ignored))
    if (auto hash = sha256_of_file(photo_file)) record.photo.sha256 = std::move(*hash);
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
  std::string overlay = choices_.overlay;
  if (!choices_.overlays.empty()) overlay = overlay_in_folder(choices_.overlays, photo_file);
  if (!overlay.empty()) {
    progress.report(1, "drawing the overlay");
    const auto picture = draw_overlay(read.photo, read.reading);
    if (!picture) return fail(picture.error());
    if (const auto written = write_file_atomically(overlay, *picture); !written) return fail(written.error());
  }
  if (!choices_.icc.empty())
    if (const auto written = write_profile(read, progress); !written) return fail(written.error());
  if (choices_.save || choices_.resume) {
    record.options_sha256 = options_of(photo_file, job);
    const auto written = write_file_atomically(saved_reading_of(photo_file), record_json(record) + "\n");
    if (!written) return fail(written.error());
  }
  return record;
}

Result<std::monostate> ReadCommand::write_profile(const PhotoRead& read, Progress& progress) const {
  progress.report(1, "making the profile");
  const auto profile = calibration_profile(read.photo, read.reading);
  if (!profile) return fail(profile.error());
  if (const auto written = write_file_atomically(choices_.icc, profile->bytes); !written)
    return fail(written.error());
  profile_note_ = fmt::format(
      "{}: it holds for the light in the middle of the opening ({:.0f}, {:.0f} mm); over the opening the "
      "light differs by up to "
      "ΔE00 {:.1f}.\n",
      choices_.icc, profile->place.x, profile->place.y, profile->light_de00);
  for (const Reading& item : read.reading.readings) {
    if (item.refused) continue;
    const auto lab = lab_through_profile(profile->bytes, read.photo, read.reading.sheet.placement, item);
    if (!lab) return fail(lab.error());
    profile_note_ += fmt::format(
        "{} {} read back through it: L* {:.1f}  a* {:.1f}  b* {:.1f}, ΔE00 {:.2f} from the reading.\n",
        region_kind_name(item.kind), item.id, lab->l, lab->a, lab->b, difference_ciede2000(item.lab, *lab));
  }
  return std::monostate{};
}

std::optional<Record> ReadCommand::resumed(const std::string& photo, const ReadJob& job) const {
  const std::string file = saved_reading_of(photo);
  std::error_code ignored;
  if (!std::filesystem::exists(file, ignored)) return std::nullopt;
  auto record = read_record(file);
  if (!record || record->photo.sha256.empty()) return std::nullopt;
  const auto hash = sha256_of_file(photo);
  if (!hash || *hash != record->photo.sha256) return std::nullopt;
  if (record->options_sha256 != options_of(photo, job)) {
    ++read_anew_;
    return std::nullopt;
  }
  // What was not drawn then is drawn now.
  if (!choices_.overlays.empty() &&
      !std::filesystem::exists(overlay_in_folder(choices_.overlays, photo), ignored))
    return std::nullopt;
  ++taken_from_saved_;
  return std::move(*record);
}

void ReadCommand::summarise(const Record& read, const ReadJob& job, Streams& streams) const {
  const Record record = as_written(read);  // --resume tells it from the file, in the same figures
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
  streams.out << profile_note_;
}

int ReadCommand::run(Streams& streams) {
  auto list = photo_list_from(choices_.photos);
  if (!list) return report_error(list.error(), choices_.json, streams);
  choices_.photos = std::move(list->photos);
  has_folder_ = list->has_folder;
  const auto job = read_job_from(choices_);
  if (!job) return report_error(job.error(), choices_.json, streams);
  if (!choices_.overlays.empty()) {
    std::error_code problem;
    std::filesystem::create_directories(choices_.overlays, problem);
    if (problem)
      return report_error(
          {ErrorCode::cannot_write,
           fmt::format("Making the folder '{}' failed: {}.", choices_.overlays, problem.message()),
           "Name another folder."},
          choices_.json, streams);
    const auto overlay = std::filesystem::path(choices_.overlays) / "PHOTO.overlay.png";
    if (const auto sound = check_can_write("--overlays", overlay.string()); !sound)
      return report_error(sound.error(), choices_.json, streams);
  }
  for (const std::string& sentence : unmatched_rows(job->fields, choices_.photos))
    streams.err << sentence << '\n';
  if (choices_.two_grounds || choices_.together) {
    std::vector<SubjectOfPhoto> said;
    for (const std::string& photo : choices_.photos)
      said.push_back({std::filesystem::path(photo).filename().string(), subject_of(photo, *job)});
    if (const auto sound = check_one_thing(said); !sound)
      return report_error(sound.error(), choices_.json, streams);
  }
  if (choices_.two_grounds) return read_two_backings(*job, streams);
  if (choices_.together) return read_together(*job, streams);
  return read_all(*job, streams);
}

int ReadCommand::tell(const std::vector<Record>& records, const ReadJob& job, Streams& streams) const {
  std::string lines;
  for (const Record& record : records) {
    if (choices_.json.wanted()) lines += record_json(record, records.size() > 1 ? -1 : 2) + "\n";
    summarise(record, job, streams);
  }
  if (const auto written = write_json(lines, choices_.json, streams); !written)
    return report_error(written.error(), choices_.json.to_standard_output() ? JsonTarget{} : choices_.json,
                        streams);
  if (!choices_.json.to_standard_output() && !choices_.quiet)
    print_reading_cautions(std::any_of(records.begin(), records.end(), shows_reagent_spot), streams.out);
  return status_done;
}

int ReadCommand::read_two_backings(const ReadJob& job, Streams& streams) {
  std::vector<PhotoRead> reads;
  for (const std::string& photo : choices_.photos) {
    const std::string name = std::filesystem::path(photo).filename().string();
    TimedProgress progress(streams, name);
    auto read = look(photo, job, progress);
    progress.clear();
    if (!read) return report_error(read.error(), choices_.json, streams, name);
    reads.push_back(std::move(*read));
  }
  const auto done = add_layers_of_two_photos(reads[0].reading, reads[0].photo.name(), reads[1].reading,
                                             reads[1].photo.name(), job.naming.namer);
  if (!done) return report_error(done.error(), choices_.json, streams);
  std::vector<Record> records;
  Progress quiet;
  for (std::size_t i = 0; i < reads.size(); ++i) {
    auto record = finish(reads[i], choices_.photos[i], job, quiet);
    if (!record) return report_error(record.error(), choices_.json, streams);
    records.push_back(std::move(*record));
  }
  return tell(records, job, streams);
}

int ReadCommand::read_all(const ReadJob& job, Streams& streams) {
  const std::size_t count = choices_.photos.size();
  std::string lines;  // of all records, for a file
  int status = status_done, failed_output = status_done;
  std::size_t stand = 0;
  std::vector<PhotoOutcome> outcomes;
  const Interruption interruption;
  const auto name_of = [&](std::size_t i) {
    return std::filesystem::path(choices_.photos[i]).filename().string();
  };
  TimedProgress progress(streams, many() ? fmt::format("{} photos", count) : name_of(0));
  const auto read = [&](std::size_t i, Progress& part) { return read_one(choices_.photos[i], job, part); };
  const auto take = [&](std::size_t i, Result<Record> record) {
    progress.clear();
    outcomes.push_back({name_of(i), record ? std::optional<Record>() : std::nullopt,
                        record ? std::string() : record.error().message});
    if (!record) {
      const int failed =
          report_error(record.error(), choices_.json, streams, many() ? name_of(i) : std::string());
      if (status == status_done) status = failed;
      return;
    }
    ++stand;
    const std::string json =
        choices_.json.wanted() ? record_json(*record, many() ? -1 : 2) + "\n" : std::string();
    if (choices_.json.to_standard_output()) {
      if (const auto written = write_json(json, choices_.json, streams); !written)
        failed_output = report_error(written.error(), {}, streams);
    } else {
      lines += json;
    }
    // A folder's photos make a table; each on its own only when more is asked for.
    if (!has_folder_ || choices_.verbose) summarise(*record, job, streams);
    outcomes.back().record = as_written(*record);
  };
  if (many()) {
    read_photos(count, choices_.jobs > 0 ? choices_.jobs : usual_jobs(), read, take, progress);
  } else {
    take(0, read(0, progress));
  }
  if (read_anew_ > 0)
    streams.err << fmt::format(
        "{} of the photos had been saved with other options, or by another version: read anew.\n",
        read_anew_.load());
  if (taken_from_saved_ > 0)
    streams.err << (many()
                        ? fmt::format("{} of the {} photos were not read again: what is told of them was "
                                      "saved beside them by an earlier call.\n",
                                      taken_from_saved_.load(), count)
                        : fmt::format("{} was not read again: what is told of it was saved beside it by an "
                                      "earlier call.\n",
                                      name_of(0)));
  if (failed_output != status_done) return failed_output;
  const bool words = !choices_.quiet && !choices_.json.to_standard_output();
  if (has_folder_ && words) print_table(outcomes, job.naming.wording, streams.out);
  if (stand == 0) return status;
  if (!choices_.json.to_standard_output()) {
    if (const auto written = write_json(lines, choices_.json, streams); !written)
      return report_error(written.error(), choices_.json, streams);
    if (words)
      print_reading_cautions(std::any_of(outcomes.begin(), outcomes.end(),
                                         [](const PhotoOutcome& outcome) {
                                           return outcome.record && shows_reagent_spot(*outcome.record);
                                         }),
                             streams.out);
  }
  return status_done;
}

}  // namespace tintfall
