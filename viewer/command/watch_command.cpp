#include <fmt/format.h>

#include <CLI/App.hpp>
#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>
#include <algorithm>
#include <chrono>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/image/photo_files.hpp>
#include <colorlib/reaction/next_photo.hpp>
#include <colorlib/reaction/reaction_text.hpp>
#include <map>
#include <set>
#include <thread>
#include <viewer/command/exit_status.hpp>
#include <viewer/command/interruption.hpp>
#include <viewer/command/output_check.hpp>
#include <viewer/command/reading_summary.hpp>
#include <viewer/command/series_run.hpp>
#include <viewer/command/series_summary.hpp>
#include <viewer/command/series_words.hpp>
#include <viewer/command/text_wrap.hpp>
#include <viewer/command/watch_command.hpp>
#include <viewer/command/watched_moment.hpp>

namespace tintfall {

using namespace colorlib;

namespace {

using Clock = std::chrono::steady_clock;
constexpr auto poll_every = std::chrono::milliseconds(400);
constexpr double longest_idle_s = 31'622'400;  ///< a leap year
constexpr std::string_view journal_name = "tintfall-watch.journal";

/// The photos of a folder that are no longer being written: their size is that of the last look.
class SettledPhotos {
 public:
  Result<std::vector<std::filesystem::path>> look(const std::filesystem::path& folder) {
    auto photos = photos_of_folder(folder);
    if (!photos) return photos;
    std::map<std::filesystem::path, std::uintmax_t> sizes;
    std::vector<std::filesystem::path> settled;
    for (const auto& photo : *photos) {
      std::error_code problem;
      const auto size = std::filesystem::file_size(photo, problem);
      if (problem || size == 0) continue;
      sizes[photo] = size;
      const auto before = sizes_.find(photo);
      if (before != sizes_.end() && before->second == size) settled.push_back(photo);
    }
    sizes_ = std::move(sizes);
    return settled;
  }

 private:
  std::map<std::filesystem::path, std::uintmax_t> sizes_;
};

void print_frame(const SeriesRecord& series, const std::string& photo, std::ostream& out) {
  for (std::size_t i = 0; i < series.frames.size(); ++i) {
    const FrameRecord& frame = series.frames[i];
    if (frame.photo != photo) continue;
    if (frame.dropped) {
      out << fmt::format("{}: no reading. {}\n", photo, frame.dropped->message);
      return;
    }
    for (const SpotRecord& spot : series.spots) {
      if (spot.refused) {
        if (const Reading* reading = reading_of(frame, spot.id))
          out << fmt::format("{:<24} {:>8.1f} s   {} {}   L* {:.1f}  a* {:.1f}  b* {:.1f}\n", photo,
                             frame.seconds, region_kind_name(spot.kind), spot.id, reading->lab.l,
                             reading->lab.a, reading->lab.b);
        for (const Reading& reading : frame.record.readings)
          if (reading.id == spot.id && reading.refused)
            out << fmt::format("{}: no reading of {} {}. {}\n", photo, region_kind_name(spot.kind), spot.id,
                               reading.refused->message);
        continue;
      }
      const Kinetics& k = spot.kinetics;
      const Lab before = k.phases.empty() ? k.path.front().lab : k.phases.front().color.lab;
      for (std::size_t p = 0; p < spot.frames.size(); ++p)
        if (spot.frames[p] == i)
          out << fmt::format(
              "{:<24} {:>8.1f} s   {} {}   change ΔE00 {:>5.1f}   L* {:.1f}  a* {:.1f}  b* {:.1f}\n", photo,
              frame.seconds, region_kind_name(spot.kind), spot.id,
              difference_ciede2000(before, k.path[p].lab), k.path[p].lab.l, k.path[p].lab.a, k.path[p].lab.b);
    }
  }
}

void print_running_fit(const SeriesRecord& series, std::ostream& out) {
  for (const SpotRecord& spot : series.spots) {
    if (spot.refused) continue;
    const Kinetics& k = spot.kinetics;
    if (!is_reaction(k)) {
      out << fmt::format("  {} {}: {} so far\n", region_kind_name(spot.kind), spot.id,
                         k.state == KineticsState::described ? "too few frames for a fit" : "no reaction");
    } else {
      std::string times;
      if (k.onset.value_s) times += fmt::format(", onset {}", duration_text(*k.onset.value_s));
      if (k.half_time.value_s) times += fmt::format(", half time {}", duration_text(*k.half_time.value_s));
      out << fmt::format("  {} {}: {}{}, change ΔE00 {:.1f} ± {:.1f}\n", region_kind_name(spot.kind), spot.id,
                         kinetic_model_name(k.model), times, k.change_de00, k.change_de00_expanded);
    }
  }
  if (series.spots.empty() || series.frames.empty()) return;
  if (std::all_of(series.spots.begin(), series.spots.end(),
                  [](const SpotRecord& spot) { return spot.refused.has_value(); })) {
    out << "  next photo: one more before the drop, then the drop\n" << std::flush;
    return;
  }
  std::optional<NextPhoto> soonest;
  for (const SpotRecord& spot : series.spots) {
    if (spot.refused) continue;
    const auto next = next_useful_photo(spot.kinetics, series.frames.back().seconds);
    if (next && (!soonest || next->seconds < soonest->seconds)) soonest = next;
  }
  if (soonest)
    out << fmt::format("  next photo: at {}, {} after this one ({})\n", duration_text(soonest->seconds),
                       duration_text(soonest->seconds - series.frames.back().seconds), soonest->why);
  else
    out << "  next photo: none needed, the course has been seen\n";
  out << std::flush;
}

}  // namespace

void WatchCommand::declare(CLI::App& app) {
  declare_series(app, choices_);
  // Pictures and tables are of a finished series.
  for (const char* name : {"--plot", "--strip", "--every-frame", "--times"})
    if (CLI::Option* option = app.get_option_no_throw(name)) app.remove_option(option);
  app.remove_option(app.get_option("PHOTO"));
  app.add_option("FOLDER", choices_.read.photos,
                 "The folder that the camera or a synchronising phone saves to")
      ->expected(1)
      ->type_name("")
      ->required();
  app.get_option("--journal")
      ->description(
          fmt::format("Where readings are kept; without it {} in the folder. A stopped watch goes on from it",
                      journal_name));
  app.add_option("--idle", idle_s_,
                 "Stop when no photo has come for so many seconds; without it Ctrl-C stops")
      ->type_name("SECONDS")
      ->group("When");
  app.footer(
      "\nExample: tintfall watch incoming --region spot@105,74,4 --region water@120,74,4 --applied found "
      "--json series.json\n"
      "\n" +
      reagent_caution_text());
}

int WatchCommand::run(Streams& streams) {
  const JsonTarget& json = choices_.read.json;
  const std::filesystem::path folder = choices_.read.photos.front();
  std::error_code ignored;
  if (!std::filesystem::exists(folder, ignored))
    return report_error(
        {ErrorCode::unreadable_photo, fmt::format("Watching '{}': there is no such folder.", folder.string()),
         "Check the name, or make the folder first."},
        json, streams);
  if (!std::filesystem::is_directory(folder, ignored))
    return report_error({ErrorCode::bad_call, fmt::format("'{}' is no folder.", folder.string()),
                         "Name the folder that photos arrive in."},
                        json, streams);
  if (idle_s_ && !(*idle_s_ > 0 && *idle_s_ <= longest_idle_s))
    return report_error({ErrorCode::bad_call,
                         fmt::format("--idle says {:g} s; above 0 and at most {:.0f} s can be waited for.",
                                     *idle_s_, longest_idle_s),
                         "Say after how many seconds without a photo the watch ends, or leave --idle out."},
                        json, streams);
  // Checked as a series of no photos yet.
  SeriesChoices choices = choices_;
  choices.read.photos = {(folder / "the first photo").string()};
  if (choices.journal.empty()) choices.journal = (folder / journal_name).string();
  choices.applied.clear();  // may name a photo that is still to come
  const auto there = photos_of_folder(folder);
  if (!there) return report_error(there.error(), json, streams);
  auto moment = watched_moment(choices_.applied, *there, choices.interval_s);
  if (!moment) return report_error(moment.error(), json, streams);
  auto job = series_job_from(choices);
  if (!job) return report_error(job.error(), json, streams);
  job->photos.clear();
  job->arriving = true;
  for (const std::string& note : job->notes) streams.err << note << '\n';
  CallFiles files = job->read.files;
  for (const auto& photo : *there) files.inputs.push_back(photo.string());
  if (const auto apart = check_kept_apart(files); !apart) return report_error(apart.error(), json, streams);

  const Interruption interruption;
  SettledPhotos settled;
  std::set<std::string> told;
  std::optional<SeriesRecord> series;
  auto last_news = Clock::now();
  if (!choices_.read.quiet)
    streams.err << fmt::format("Watching {}; Ctrl-C stops.\n", folder.string()) << std::flush;
  if (!moment->awaited.empty())
    streams.err << fmt::format("The photo '{}' that --applied names is still to come.\n", moment->awaited)
                << std::flush;
  while (!Interruption::asked()) {
    auto photos = settled.look(folder);
    if (!photos) return report_error(photos.error(), json, streams);
    if (photos->size() != job->photos.size()) {
      job->photos = *photos;
      moment = watched_moment(choices_.applied, job->photos, choices.interval_s);
      if (!moment) return report_error(moment.error(), json, streams);
      job->times.applied = moment->applied;
      TimedProgress progress(streams, "watch");
      auto frames = read_frames(*job, choices, progress);
      progress.clear();
      if (!frames) return report_error(frames.error(), json, streams);
      if (!moment->awaited.empty())
        frames->remarks.push_back(
            fmt::format("The photo '{}' that --applied names has not come; times count from the first photo.",
                        moment->awaited));
      std::vector<std::string> fresh;
      for (const FrameRecord& frame : frames->frames)
        if (!frame.photo.empty() && told.insert(frame.photo).second) fresh.push_back(frame.photo);
      auto now = series_from(*job, std::move(*frames));
      if (now) {
        series = std::move(*now);
        if (!json.to_standard_output() && !choices_.read.quiet) {
          for (const std::string& photo : fresh) print_frame(*series, photo, streams.out);
          if (!fresh.empty()) print_running_fit(*series, streams.out);
        }
      } else if (now.error().code == ErrorCode::bad_call) {
        return report_error(now.error(), json, streams);
      } else {
        for (const std::string& photo : fresh)
          streams.err << fmt::format("{}: {}\n", photo, now.error().message) << std::flush;
      }
      last_news = Clock::now();
    }
    if (idle_s_ && std::chrono::duration<double>(Clock::now() - last_news).count() > *idle_s_) break;
    std::this_thread::sleep_for(poll_every);
  }
  if (!series)
    return report_error({ErrorCode::cancelled, "The watch ended before any photo could be read.",
                         "Start it again when you like."},
                        json, streams);
  if (!moment->awaited.empty())
    streams.err << fmt::format("The photo '{}' that --applied names did not come.\n", moment->awaited);
  if (const auto why = nothing_told(*series)) return report_error(*why, json, streams);
  const auto& naming = job->read.naming;
  if (const auto said = add_words(*series, naming.namer, naming.wording, choices_.bins); !said)
    return report_error(said.error(), json, streams);
  if (!choices_.read.quiet && !json.to_standard_output()) {
    streams.out << '\n';
    print_series(*series, {job->read.naming.wording, choices_.read.verbose}, streams.out);
    print_handling(series->protocol, series->uses_reagent(), streams.out);
    print_caution(streams.out);
  }
  if (const auto written = write_json(series_json(*series), json, streams); !written)
    return report_error(written.error(), json, streams);
  return status_done;
}

}  // namespace tintfall
