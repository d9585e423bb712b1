#include <fmt/format.h>

#include <CLI/App.hpp>
#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>
#include <viewer/command/exit_status.hpp>
#include <viewer/command/interruption.hpp>
#include <viewer/command/reading_summary.hpp>
#include <viewer/command/series_command.hpp>
#include <viewer/command/series_pictures.hpp>
#include <viewer/command/series_run.hpp>
#include <viewer/command/series_summary.hpp>
#include <viewer/command/series_video.hpp>
#include <viewer/command/series_words.hpp>
#include <viewer/command/text_wrap.hpp>

namespace tintfall {

using namespace colorlib;

void SeriesCommand::declare(CLI::App& app) {
  declare_series(app, choices_);
  app.footer(
      "\nExamples: tintfall series folder --region spot@105,74,4 --region water@120,74,4 --region "
      "control@90,74,4 \\\n"
      "              --applied 11:07:04 --reagent KOH --strength \"5 %\" --json series.json\n"
      "\n" +
      reagent_caution_text());
}

int SeriesCommand::run(Streams& streams) {
  const JsonTarget& json = choices_.read.json;
  const auto job = series_job_from(choices_);
  if (!job) return report_error(job.error(), json, streams);

  for (const std::string& note : job->notes) streams.err << note << '\n';
  const Interruption interruption;
  TimedProgress progress(streams, "series");
  auto frames =
      job->video ? read_video_frames(*job, choices_, progress) : read_frames(*job, choices_, progress);
  progress.clear();
  if (!frames) return report_error(frames.error(), json, streams);
  if (frames->resumed > 0)
    streams.err << fmt::format("{} of {} photos were taken over from the journal.\n", frames->resumed,
                               job->photos.size());
  const bool stopped = frames->stopped;
  std::size_t read = 0;
  for (const FrameRecord& frame : frames->frames) read += !frame.photo.empty();
  auto series = series_from(*job, std::move(*frames));
  if (!series) return report_error(series.error(), json, streams);
  const auto& naming = job->read.naming;
  if (const auto said = add_words(*series, naming.namer, naming.wording, choices_.bins); !said)
    return report_error(said.error(), json, streams);
  if (const auto why = nothing_told(*series); why && !stopped) return report_error(*why, json, streams);

  if (!choices_.read.quiet && !json.to_standard_output()) {
    print_series(*series, {job->read.naming.wording, choices_.read.verbose}, streams.out);
    print_handling(series->protocol, series->uses_reagent(), streams.out);
    print_caution(streams.out);
  }
  if (stopped)
    return report_error(
        {ErrorCode::cancelled,
         fmt::format("The series was stopped after {} of {} photos.", read, job->photos.size()),
         job->journal.empty() ? "With --json OUT or --journal FILE a stopped series goes on where it was."
                              : fmt::format("They are kept in '{}'; the same call goes on from there.",
                                            job->journal.string())},
        json, streams);
  if (const auto drawn = write_pictures(*series, *job, choices_, progress); !drawn)
    return report_error(drawn.error(), json, streams);
  if (const auto written = write_json(series_json(*series), json, streams); !written)
    return report_error(written.error(), json, streams);
  if (choices_.journal.empty()) forget_journal(*job);
  return status_done;
}

}  // namespace tintfall
