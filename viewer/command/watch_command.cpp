#include <fmt/format.h>

#include <CLI/App.hpp>
#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>
#include <chrono>
#include <thread>
#include <viewer/command/exit_status.hpp>
#include <viewer/command/folder_watch.hpp>
#include <viewer/command/interruption.hpp>
#include <viewer/command/reading_summary.hpp>
#include <viewer/command/series_run.hpp>
#include <viewer/command/series_summary.hpp>
#include <viewer/command/series_words.hpp>
#include <viewer/command/text_wrap.hpp>
#include <viewer/command/watch_command.hpp>

namespace tintfall {

using namespace colorlib;

namespace {

using Clock = std::chrono::steady_clock;
constexpr auto poll_every = std::chrono::milliseconds(400);
constexpr double longest_idle_s = 31'622'400;  ///< a leap year

std::optional<Error> unwatchable(const std::filesystem::path& folder, const std::optional<double>& idle_s) {
  std::error_code ignored;
  if (!std::filesystem::exists(folder, ignored))
    return Error{ErrorCode::unreadable_photo,
                 fmt::format("Watching '{}': there is no such folder.", folder.string()),
                 "Check the name, or make the folder first."};
  if (!std::filesystem::is_directory(folder, ignored))
    return Error{ErrorCode::bad_call, fmt::format("'{}' is no folder.", folder.string()),
                 "Name the folder that photos arrive in."};
  if (idle_s && !(*idle_s > 0 && *idle_s <= longest_idle_s))
    return Error{ErrorCode::bad_call,
                 fmt::format("--idle says {:g} s; above 0 and at most {:.0f} s can be waited for.", *idle_s,
                             longest_idle_s),
                 "Say after how many seconds without a photo the watch ends, or leave --idle out."};
  return std::nullopt;
}

void announce(const FolderWatch& watch, std::ostream& err) {
  if (!watch.choices.read.quiet)
    err << fmt::format("Watching {}; Ctrl-C stops.\n", watch.folder.string()) << std::flush;
  if (!watch.moment.awaited.empty())
    err << fmt::format("The photo '{}' that --applied names is still to come.\n", watch.moment.awaited)
        << std::flush;
}

/// Looks until asked to stop or until nothing has come for so long.
Result<std::monostate> look_on(FolderWatch& watch, const std::optional<double>& idle_s, Streams& streams) {
  auto last_news = Clock::now();
  while (!Interruption::asked()) {
    const auto news = look(watch, streams);
    if (!news) return fail(news.error());
    if (*news) last_news = Clock::now();
    if (idle_s && std::chrono::duration<double>(Clock::now() - last_news).count() > *idle_s) break;
    std::this_thread::sleep_for(poll_every);
  }
  return std::monostate{};
}

/// Says and writes the series as it stands when the watch ends.
int conclude(FolderWatch& watch, Streams& streams) {
  const JsonTarget& json = watch.choices.read.json;
  if (!watch.series)
    return report_error({ErrorCode::cancelled, "The watch ended before any photo could be read.",
                         "Start it again when you like."},
                        json, streams);
  if (!watch.moment.awaited.empty())
    streams.err << fmt::format("The photo '{}' that --applied names did not come.\n", watch.moment.awaited);
  if (const auto why = nothing_told(*watch.series)) return report_error(*why, json, streams);
  const auto& naming = watch.job.read.naming;
  if (const auto said = add_words(*watch.series, naming.namer, naming.wording, watch.choices.bins); !said)
    return report_error(said.error(), json, streams);
  if (!watch.choices.read.quiet && !json.to_standard_output()) {
    streams.out << '\n';
    print_series(*watch.series, {watch.job.read.naming.wording, watch.choices.read.verbose}, streams.out);
    print_handling(watch.series->protocol, watch.series->uses_reagent(), streams.out);
    print_caution(streams.out);
  }
  if (const auto written = write_json(series_json(*watch.series), json, streams); !written)
    return report_error(written.error(), json, streams);
  return status_done;
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
                      watch_journal_name));
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
  if (const auto why = unwatchable(folder, idle_s_)) return report_error(*why, json, streams);
  auto watch = folder_watch(folder, choices_);
  if (!watch) return report_error(watch.error(), json, streams);
  for (const std::string& note : watch->job.notes) streams.err << note << '\n';
  if (const auto apart = check_kept_apart(watch->files); !apart)
    return report_error(apart.error(), json, streams);

  const Interruption interruption;
  announce(*watch, streams.err);
  if (const auto ended = look_on(*watch, idle_s_, streams); !ended)
    return report_error(ended.error(), json, streams);
  return conclude(*watch, streams);
}

}  // namespace tintfall
