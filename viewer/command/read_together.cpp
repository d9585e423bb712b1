/// `tintfall read A B C --together`: several photographs of one specimen, one record.
#include <fmt/format.h>

#include <algorithm>
#include <colorlib/naming/color_distribution.hpp>
#include <colorlib/specimen/region_reading.hpp>
#include <colorlib/specimen/same_regions.hpp>
#include <colorlib/specimen/together.hpp>
#include <viewer/command/exit_status.hpp>
#include <viewer/command/interruption.hpp>
#include <viewer/command/read_command.hpp>
#include <viewer/command/timed_progress.hpp>

namespace tintfall {

using namespace colorlib;

namespace {

/// The region's mean over the photos, or the reason why there is none.
Reading together(const RegionInPhotos& region, const ReadJob& job) {
  const auto first =
      std::find_if(region.begin(), region.end(), [](const Reading* r) { return r != nullptr; });
  auto mean = combined(region, {});
  if (!mean) {
    Reading refused;
    refused.id = (*first)->id;
    refused.kind = (*first)->kind;
    refused.region = (*first)->region;
    refused.frame = (*first)->frame;
    // What kept it from being read says more than that too few are left.
    const auto with_reason = std::find_if(region.begin(), region.end(),
                                          [](const Reading* r) { return r != nullptr && r->refused; });
    Error why = mean.error();
    if (with_reason != region.end()) why.message += " " + (*with_reason)->refused->message;
    if (std::count(region.begin(), region.end(), nullptr) > 0)
      why.advice = "Leave the specimen where it lies between the photos, or draw the region with --region.";
    refused.refused = std::move(why);
    return refused;
  }
  // As of one photo: --level and --of are for what is said, the record holds the full name.
  mean->words = job.naming.namer.describe(mean->lab, mean->lab_covariance,
                                          {NameLevel::full, trade_terms_for(mean->kind)});
  if (mean->tenth)
    mean->tenth->words = job.naming.namer.describe(mean->tenth->lab, mean->tenth->lab_covariance,
                                                   {NameLevel::full, trade_terms_for(mean->kind)});
  mean->layer.reset();  // of one photo alone
  return std::move(*mean);
}

void add_flags(std::vector<Flag>& flags, const std::vector<Flag>& more) {
  for (const Flag& flag : more)
    if (std::none_of(flags.begin(), flags.end(), [&](const Flag& f) { return f.code == flag.code; }))
      flags.push_back(flag);
}

RecordCheck check_of(const Record& record) {
  RecordCheck check{record.calibration.check_de00_mean,
                    record.calibration.check_de00_p95,
                    record.calibration.lighting_spread_de00,
                    {}};
  for (const Flag& flag : record.flags) check.flags.push_back(flag.code);
  return check;
}

/// What the record says of its photos, sheet and calibration: of all of them, and of the first that a reading
/// was made of. What the user said of that one goes before what was said of the others.
void take_photos(const std::vector<Record>& records, Record& whole) {
  const Record& first = records[first_used_photo(whole.readings)];
  whole.software = first.software;
  whole.subject = first.subject;
  whole.photo = first.photo;
  whole.photo.check.reset();  // stands in `calibration` and in `photos`
  whole.chart = first.chart;
  whole.calibration = first.calibration;
  for (const Record& record : records) {
    whole.subject = merged(record.subject, whole.subject);
    whole.photos.push_back(record.photo);
    add_flags(whole.flags, record.flags);
  }
}

}  // namespace

int ReadCommand::read_together(const ReadJob& job, Streams& streams) {
  std::vector<Record> records;
  std::vector<std::vector<Reading>> readings;
  int status = status_done;
  {
    const Interruption interruption;
    for (const std::string& photo : choices_.photos) {
      const std::string name = std::filesystem::path(photo).filename().string();
      TimedProgress progress(streams, name);
      auto record = read_one(photo, job, progress);
      progress.clear();
      if (!record) {
        const int failed = report_error(record.error(), choices_.json, streams, name);
        if (status == status_done) status = failed;
        if (record.error().code == ErrorCode::cancelled) return failed;
        continue;
      }
      readings.push_back(std::move(record->readings));
      records.push_back(std::move(*record));
    }
  }
  if (records.empty()) return status;
  if (records.size() < 2)
    return report_error(
        {ErrorCode::untrustworthy,
         fmt::format("Reading the photos together: {} of {} photos can be read, at least two are needed.",
                     records.size(), choices_.photos.size()),
         "Leave --together out, or take more photos."},
        choices_.json, streams);
  for (const Record& record : records)
    if (record.chart.name != records.front().chart.name)
      return report_error({ErrorCode::bad_call,
                           fmt::format("Reading the photos together: '{}' shows chart {} and '{}' shows {}.",
                                       records.front().photo.name, records.front().chart.name,
                                       record.photo.name, record.chart.name),
                           "Photos read together show the same sheet."},
                          choices_.json, streams);
  for (Record& record : records) record.photo.check = check_of(record);
  Record whole;
  const bool drawn = job.request.regions.has_value();
  for (const RegionInPhotos& region : same_regions(readings, drawn)) {
    Reading mean = together(region, job);
    if (!drawn) mean.id = mean.region.id = region_id_at(whole.readings.size());
    whole.scales.emplace_back();
    if (!mean.refused && !job.naming.scales.empty()) {
      const auto distribution = distribution_of(mean.lab, mean.lab_covariance);
      for (const ColorScale& scale : job.naming.scales)
        whole.scales.back().push_back(scale.answer(mean.lab, distribution));
    }
    whole.readings.push_back(std::move(mean));
  }
  const auto stands = [](const Reading& reading) { return !reading.refused; };
  if (std::none_of(whole.readings.begin(), whole.readings.end(), stands))
    return report_error(*whole.readings.front().refused, choices_.json, streams);
  take_photos(records, whole);
  return tell({whole}, job, streams);
}

}  // namespace tintfall
