#include <fmt/format.h>

#include <CLI/App.hpp>
#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>
#include <CLI/Validators.hpp>
#include <algorithm>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/reaction/followed_regions.hpp>
#include <colorlib/reaction/stills_reading.hpp>
#include <set>
#include <viewer/command/photo_list.hpp>
#include <viewer/command/reading_identity.hpp>
#include <viewer/command/series_options.hpp>
#include <viewer/command/series_pictures.hpp>
#include <viewer/command/series_video.hpp>

namespace tintfall {

using namespace colorlib;

namespace {

constexpr std::size_t most_photos = 100'000;

Protocol merged(Protocol under, const Protocol& over) {
  const auto text = [&](std::string Protocol::*member) {
    if (!(over.*member).empty()) under.*member = over.*member;
  };
  for (auto member : {&Protocol::reagent, &Protocol::strength, &Protocol::tissue, &Protocol::zone,
                      &Protocol::state, &Protocol::method, &Protocol::known_positive, &Protocol::remarks})
    text(member);
  if (over.batch_age_days) under.batch_age_days = over.batch_age_days;
  if (over.temperature_c) under.temperature_c = over.temperature_c;
  return under;
}

/// What the options say otherwise than the protocol file; the options are kept.
std::vector<std::string> contradictions(const Protocol& file, const Protocol& options) {
  std::vector<std::string> notes;
  for (const auto& [option, field] :
       {std::pair("--reagent", &Protocol::reagent), std::pair("--strength", &Protocol::strength),
        std::pair("--tissue", &Protocol::tissue), std::pair("--state", &Protocol::state)}) {
    const std::string &written = file.*field, &said = options.*field;
    if (!written.empty() && !said.empty() && written != said)
      notes.push_back(fmt::format("The protocol file says '{}' and {} says '{}': '{}' is kept.",
                                  quotable(written), option, quotable(said), quotable(said)));
  }
  return notes;
}

/// Of regions without a spot or a bruise the JSON holds the colours over time, and nothing else tells them.
Result<std::monostate> check_without_course(const SeriesChoices& choices) {
  const std::string asked = !choices.plot.empty()         ? "--plot draws the course of one"
                            : !choices.strip.empty()      ? "--strip draws the stages of one"
                            : !choices.read.json.wanted() ? "only --json tells colours without one"
                                                          : "";
  if (asked.empty()) return std::monostate{};
  return fail(
      ErrorCode::bad_call,
      fmt::format("A series follows a spot (a reagent) or a bruise, and {}; none of the regions is of "
                  "these kinds.",
                  asked),
      "Say where it lies, for example --region spot@105,74,4, or ask for the colours alone with "
      "--json OUT.");
}

}  // namespace

Result<std::vector<std::filesystem::path>> photos_from(const std::vector<std::string>& named) {
  const auto list = photo_list_from(named);
  if (!list) return fail(list.error());
  std::vector<std::filesystem::path> photos(list->photos.begin(), list->photos.end());
  if (photos.size() > most_photos)
    return fail(ErrorCode::bad_call,
                fmt::format("{} photos were given, at most {} are taken.", photos.size(), most_photos),
                "Split the series.");
  std::set<std::string> names;
  for (const auto& photo : photos)
    if (!names.insert(photo.filename().string()).second)
      return fail(ErrorCode::bad_call,
                  fmt::format("Two photos of the series are called '{}'.", photo.filename().string()),
                  "Give each photo once; photos of different folders need different names.");
  return photos;
}

Protocol with_subject(Protocol protocol, const Subject& subject) {
  if (protocol.tissue.empty()) protocol.tissue = subject.tissue;
  if (protocol.state.empty()) protocol.state = subject.state;
  return protocol;
}

void declare_series(CLI::App& app, SeriesChoices& choices) {
  declare_read(app, choices.read);
  // Outputs that a series has none of, and how single readings are said: a series tells changes.
  for (const char* name : {"--save", "--resume", "--overlay", "--overlays", "--icc", "--together",
                           "--two-backings", "--jobs", "--level", "--of", "--tolerance", "--scale"})
    if (CLI::Option* option = app.get_option_no_throw(name)) app.remove_option(option);
  app.add_option("--jobs", choices.read.jobs,
                 fmt::format("So many photos at once; else one a core, at most {}", StillsTask::most_threads))
      ->check(CLI::Range(1u, StillsTask::most_threads))
      ->group("Output");
  app.get_option("PHOTO")->description("The photos of one series, a folder of them, or one video");
  app.get_option("--region")
      ->description(
          "A round region in mm on the sheet; repeatable. KIND: spot (a reagent), bruise, water (a drop "
          "beside it), control "
          "(untreated tissue), ...");
  app.get_option("--regions")
      ->description("A file of regions; a spot or bruise may name its own controls there");

  const std::string when = "When";
  app.add_option("--times", choices.times,
                 "A table with columns photo,seconds; seconds count from the application")
      ->type_name("T.csv")
      ->group(when);
  app.add_option("--interval", choices.interval_s,
                 "Seconds from one photo to the next in the order given, where the photos do not say when "
                 "they were taken")
      ->type_name("SECONDS")
      ->group(when);
  app.add_option("--applied", choices.applied,
                 "When the drop fell or the tissue was hurt: a photo of the series, a date and time "
                 "(2031-10-05T11:07:13), a time of the day nearest to the first photo (11:07:13), +SECONDS "
                 "after the first photo, or 'found' to look for it. Without it times count from the first "
                 "photo")
      ->type_name("T")
      ->group(when);

  const std::string done = "What was done (kept in the record, never made up)";
  app.add_option("--reagent", choices.protocol.reagent, "The reagent, for example KOH")->group(done);
  app.add_option("--strength", choices.protocol.strength, "Its strength with unit, for example \"5 %\"")
      ->group(done);
  app.add_option("--protocol", choices.protocol_file,
                 "Reagent, strength, batch age, tissue, zone, state, method, temperature and so on from a "
                 "file (JSON, or CSV "
                 "with columns field,value)")
      ->type_name("FILE")
      ->group(done);

  app.add_flag("--every-frame", choices.every_frame,
               "Of a video read every frame, not a choice that is dense where colours change")
      ->group("Output");
  app.add_option("--plot", choices.plot, "Draw change and colour over time, with the fitted course")
      ->type_name("OUT.svg|pdf|png")
      ->group("Output");
  app.add_option("--strip", choices.strip,
                 "Draw the spot before, at first change, half way and at its plateau, side by side")
      ->type_name("OUT.png")
      ->group("Output");
  app.add_option("--bins", choices.bins,
                 "Your own words for speed and strength, a table like reference/reaction_bins.csv")
      ->type_name("FILE.csv")
      ->group("Words");
  app.add_option("--journal", choices.journal,
                 "Where finished frames are kept while the series is read; without it OUT.journal beside the "
                 "JSON. Calling "
                 "again after a stop goes on from it")
      ->type_name("FILE")
      ->group("Output");
}

Result<SeriesJob> series_job_from(const SeriesChoices& choices) {
  ReadChoices read = choices.read;
  SeriesJob job;
  auto photos = photos_from(read.photos);
  if (!photos) return fail(photos.error());
  job.photos = std::move(*photos);
  read.photos.clear();
  for (const auto& photo : job.photos) read.photos.push_back(photo.string());
  auto loaded = read_job_from(read);
  if (!loaded) return fail(loaded.error());
  job.read = std::move(*loaded);
  if (!job.read.request.regions || job.read.request.regions->items.empty())
    return fail(ErrorCode::bad_call, "A series needs to be told where to look, and no region was given.",
                "Say where the spot lies, for example --region spot@105,74,4 --region water@120,74,4 "
                "--region control@90,74,4.");
  if (const auto apart = check_controls_apart(*job.read.request.regions); !apart) return fail(apart.error());
  if (followed_regions(*job.read.request.regions).empty()) {
    if (const auto sound = check_without_course(choices); !sound) return fail(sound.error());
    job.notes.push_back(
        "No region is a spot or a bruise, so nothing is followed: the JSON holds each frame's colours only.");
  }

  const auto video = is_one_video(job.photos);
  if (!video) return fail(video.error());
  job.video = *video;
  if (job.video && (!choices.times.empty() || choices.interval_s))
    return fail(ErrorCode::bad_call,
                "A video has its own time stamps; --times and --interval are for photos.", "Leave them out.");
  if (job.video && choices.read.jobs > 0)
    return fail(ErrorCode::bad_call, "A video is read in one pass, frame after frame; --jobs is for photos.",
                "Leave it out.");
  if (job.video && job.read.request.regions->frame != RegionFrame::chart_mm)
    return fail(ErrorCode::bad_call, "The regions of a video must count in millimetres on the sheet.",
                "Write \"frame\": \"chart\" into the regions file and draw them in mm.");
  if (const auto sound = check_pictures(choices); !sound) return fail(sound.error());
  CallFiles& files = job.read.files;
  for (const auto& file : {choices.times, choices.protocol_file, choices.bins}) files.inputs.push_back(file);
  for (Output& picture : pictures_of(choices, job.read.request.regions->items))
    files.outputs.push_back(std::move(picture));
  // Of a video there is none: it is read in one pass, and begun anew when it was stopped.
  if (!job.video && !choices.journal.empty()) {
    job.journal = choices.journal;
    files.outputs.push_back({"--journal", choices.journal});
  } else if (!job.video && choices.read.json.wanted() && !choices.read.json.to_standard_output()) {
    job.journal = choices.read.json.path + ".journal";
    files.outputs.push_back({"The journal of --json", job.journal.string()});
  }
  if (const auto sound = check_files(files); !sound) return fail(sound.error());
  std::vector<std::string> names;
  for (const auto& photo : job.photos) names.push_back(photo.filename().string());
  if (!choices.times.empty()) {
    auto table = read_times_table(choices.times);
    if (!table) return fail(table.error());
    job.times.table = std::move(*table);
  }
  job.times.interval_s = choices.interval_s;
  if (!choices.applied.empty()) {
    const auto applied = applied_moment_from(choices.applied, names);
    if (!applied) return fail(applied.error());
    job.times.applied = *applied;
  }
  // Contradictions and missing rows are told before any photo is read.
  if (job.times.table || job.times.interval_s) {
    std::vector<TimedPhoto> timed;
    for (const std::string& name : names) timed.push_back({name, {}});
    const auto times = series_times(timed, job.times);
    if (!times) return fail(times.error());
    if (const auto sound = check_applied(*times); !sound) return fail(sound.error());
  }

  if (!choices.protocol_file.empty()) {
    auto protocol = read_protocol(choices.protocol_file);
    if (!protocol) return fail(protocol.error());
    job.protocol = std::move(*protocol);
  }
  const Protocol said = with_subject(choices.protocol, choices.read.subject);
  for (std::string& note : contradictions(job.protocol, said)) job.notes.push_back(std::move(note));
  job.protocol = merged(std::move(job.protocol), said);

  if (job.video) return job;
  for (std::string& note : unmatched_rows(job.read.fields, names)) job.notes.push_back(std::move(note));
  job.identity = reading_identity(choices.read, job.read) + subject_identity(choices.read.subject) + ";" +
                 content_identity(choices.read.fields_file);
  return job;
}

}  // namespace tintfall
