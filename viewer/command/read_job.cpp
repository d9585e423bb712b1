#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <colorlib/base/data_folder.hpp>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/chart/chart_file_name.hpp>
#include <colorlib/records/content_hash.hpp>
#include <map>
#include <optional>
#include <set>
#include <tuple>
#include <viewer/command/corner_options.hpp>
#include <viewer/command/read_options.hpp>
#include <viewer/command/reading_identity.hpp>

namespace tintfall {
namespace {

using namespace colorlib;
using Checked = Result<std::monostate>;

constexpr double highest_mm = 300;

/// The same picture under two names is one look at the specimen, not two. `why`: what the photos are for.
Checked check_contents(const std::vector<std::string>& photos, std::string_view why,
                       const std::string& advice) {
  std::map<std::string, std::string> photo_of;  // by hash
  for (const std::string& photo : photos) {
    // What cannot be read is told when it is read; a pipe can be read once only.
    std::error_code ignored;
    if (!std::filesystem::is_regular_file(photo, ignored)) continue;
    const auto hash = sha256_of_file(photo);
    if (!hash) continue;
    if (const auto [first, is_new] = photo_of.try_emplace(*hash, photo); !is_new)
      return fail(ErrorCode::bad_call,
                  fmt::format("The photos '{}' and '{}' are one photograph, byte by byte; {}.", first->second,
                              photo, why),
                  advice);
  }
  return std::monostate{};
}

/// No photo twice, be it by name, path or content.
Checked check_different(const std::vector<std::string>& photos, std::string_view why,
                        const std::string& advice) {
  std::set<std::string> seen;
  for (const std::string& photo : photos) {
    std::error_code unknown;
    const auto whole = std::filesystem::weakly_canonical(photo, unknown);
    if (!seen.insert(unknown ? photo : whole.string()).second)
      return fail(ErrorCode::bad_call, fmt::format("The photo '{}' is named twice; {}.", photo, why), advice);
  }
  return check_contents(photos, why, advice);
}

Checked check_together(const ReadChoices& choices) {
  if (!choices.together) return std::monostate{};
  if (choices.photos.size() < 2)
    return fail(ErrorCode::bad_call, "--together was given with one photo; at least two are needed.",
                "Name all photos of the specimen, or leave --together out.");
  for (const auto& [given, option, why] :
       {std::tuple(choices.two_grounds, "--two-backings", "those photos show two grounds"),
        std::tuple(choices.masstone, "--masstone", "a masstone is computed from one photo"),
        std::tuple(choices.save || choices.resume, choices.save ? "--save" : "--resume",
                   "one record is made of all photos"),
        std::tuple(!choices.corners.empty(), "--corners", "corners belong to one photo"),
        std::tuple(!choices.icc.empty(), "--icc", "a profile belongs to one photo")})
    if (given)
      return fail(ErrorCode::bad_call, fmt::format("--together and {} were both given, and {}.", option, why),
                  "Leave one of them out.");
  return check_different(choices.photos, "read together, each counts once",
                         "Leave one of them out, or photograph the specimen again.");
}

Checked check_two_grounds(const ReadChoices& choices) {
  if (!choices.two_grounds) return std::monostate{};
  const std::string advice = "Name the photo over the black ground and the one over the white ground.";
  if (choices.photos.size() != 2)
    return fail(ErrorCode::bad_call,
                fmt::format("--two-backings was given with {} photo{}; it needs exactly two.",
                            choices.photos.size(), choices.photos.size() == 1 ? "" : "s"),
                advice);
  return check_different(choices.photos, "--two-backings needs one over each ground", advice);
}

Checked check_sheet_options(const ReadChoices& choices) {
  if (!choices.sheet.empty() && !(choices.chart.empty() && choices.reference.empty()))
    return fail(
        ErrorCode::bad_call,
        "--sheet already says which chart and reference to take, and --chart or --reference says it again.",
        "Leave one of them out.");
  if (!choices.corners.empty() && choices.chart.empty() && choices.sheet.empty())
    return fail(ErrorCode::bad_call, "--corners was given without saying which chart the corners belong to.",
                "Add --chart NAME, or --sheet LABEL.");
  if (choices.height_mm && !(*choices.height_mm >= 0 && *choices.height_mm <= highest_mm))
    return fail(
        ErrorCode::bad_call,
        fmt::format("A height of {} mm was given; 0 to {} mm is needed.", *choices.height_mm, highest_mm),
        "Say how far the specimen stands above the sheet, in mm.");
  if (const auto sound = check_two_grounds(choices); !sound) return sound;
  return check_together(choices);
}

/// The photos, one that is named twice only once.
std::vector<std::string> different_photos(const std::vector<std::string>& named) {
  std::vector<std::string> photos;
  std::set<std::filesystem::path> seen;
  for (const std::string& photo : named) {
    std::error_code unknown;
    const auto path = std::filesystem::absolute(photo, unknown).lexically_normal();
    if (seen.insert(unknown ? std::filesystem::path(photo) : path).second) photos.push_back(photo);
  }
  return photos;
}

/// The names that photos of different folders share.
std::set<std::string> shared_names(const std::vector<std::string>& photos) {
  std::set<std::string> names, shared;
  for (const std::string& photo : different_photos(photos)) {
    std::string name = std::filesystem::path(photo).filename().string();
    if (!names.insert(name).second) shared.insert(std::move(name));
  }
  return shared;
}

/// Overlays, and rows of a fields file, go by the photo's name alone.
tl::unexpected<Error> name_is_shared(const std::string& name, std::string_view option) {
  return fail(ErrorCode::bad_call,
              fmt::format("Two photos of different folders are called '{}', and {} goes by their names.",
                          name, option),
              "Rename one of them, or read the folders one after the other.");
}

CallFiles files_of(const ReadChoices& choices, const std::optional<PrintedSheet>& sheet) {
  CallFiles files;
  files.inputs = choices.photos;
  for (const auto* file : {&choices.reference, &choices.regions_file, &choices.fields_file})
    files.inputs.push_back(*file);
  for (const auto* several : {&choices.naming.scales, &choices.naming.words})
    files.inputs.insert(files.inputs.end(), several->begin(), several->end());
  if (sheet) files.inputs.push_back(sheet->reference);
  const std::string& chart = sheet ? sheet->chart : choices.chart;
  if (names_chart_file(chart)) files.inputs.push_back(chart);
  files.outputs = {
      choices.json.output(), {"--overlay", choices.overlay, OutputKind::picture}, {"--icc", choices.icc}};
  const bool saves = choices.save || choices.resume;
  for (const std::string& photo : different_photos(choices.photos)) {
    if (!choices.overlays.empty())
      files.outputs.push_back(
          {"--overlays", overlay_in_folder(choices.overlays, photo), OutputKind::picture});
    if (saves) files.outputs.push_back({choices.save ? "--save" : "--resume", saved_reading_of(photo)});
  }
  return files;
}

Checked check_outputs(const ReadChoices& choices, const CallFiles& files) {
  if (const auto apart = check_kept_apart(files); !apart) return apart;
  if (const auto sound = check_ending("--overlay", choices.overlay, ".png"); !sound) return sound;
  if (const auto sound = check_names(files.outputs); !sound) return sound;
  // The folder of --overlays is made later, and what lies beside a photo is told with that photo.
  for (std::size_t i = 0; i < 3; ++i)
    if (const auto sound = check_can_write(files.outputs[i].option, files.outputs[i].file); !sound)
      return sound;
  if (!choices.overlay.empty() && choices.photos.size() > 1)
    return fail(ErrorCode::bad_call,
                fmt::format("One overlay was asked for {} photos.", choices.photos.size()),
                "Say --overlays FOLDER for one of each photo.");
  if (!choices.icc.empty() && (choices.photos.size() > 1 || choices.resume))
    return fail(
        ErrorCode::bad_call,
        choices.resume
            ? std::string("--icc and --resume were both given, and a photo passed over gives no profile.")
            : fmt::format("One colour profile was asked for {} photos.", choices.photos.size()),
        "A profile holds for one photo: read that one alone.");
  return std::monostate{};
}

/// "A" ... "Z", then "R27", "R28", ...; skipping the ones in use.
std::string next_id(const std::set<std::string>& used) {
  for (std::size_t i = 0;; ++i) {
    std::string id = region_id_at(i);
    if (!used.contains(id)) return id;
  }
}

/// Of regions with the same bounds.
bool is_same_outline(const Region& a, const Region& b) {
  const auto *one = std::get_if<PolygonShape>(&a.shape), *other = std::get_if<PolygonShape>(&b.shape);
  return one != nullptr && other != nullptr ? one->points == other->points : one == other;
}

/// A region that stands twice would count twice wherever readings are counted.
Checked check_regions_differ(const Regions& regions) {
  std::multimap<std::pair<RegionKind, std::array<double, 4>>, const Region*> seen;
  for (const Region& region : regions.items) {
    const auto box = region.bounds();
    const auto [first, end] = seen.equal_range({region.kind, box});
    for (auto other = first; other != end; ++other)
      if (is_same_outline(*other->second, region))
        return fail(ErrorCode::bad_call,
                    fmt::format("The regions '{}' and '{}' are the same: {}, with its middle at {:g}, {:g}.",
                                quotable(other->second->id), quotable(region.id),
                                region_kind_name(region.kind), (box[0] + box[2]) / 2, (box[1] + box[3]) / 2),
                    "Say each region once.");
    seen.emplace(std::pair(region.kind, box), &region);
  }
  return std::monostate{};
}

Result<std::optional<Regions>> regions_from(const ReadChoices& choices) {
  if (choices.regions_file.empty() && choices.regions.empty()) return std::optional<Regions>();
  Regions regions;
  if (!choices.regions_file.empty()) {
    auto read = read_regions(choices.regions_file);
    if (!read) return fail(read.error());
    regions = std::move(*read);
  }
  if (!choices.regions.empty() && regions.frame == RegionFrame::photo_px)
    return fail(ErrorCode::bad_call,
                "--region counts in mm on the sheet, the regions file in pixels of the photo.",
                "Put all regions into the file.");
  std::set<std::string> used;
  for (const Region& region : regions.items) used.insert(region.id);
  for (const std::string& text : choices.regions) {
    auto region = region_from_option(text, next_id(used));
    if (!region) return fail(ErrorCode::bad_call, region.error().message, region.error().advice);
    used.insert(region->id);
    regions.items.push_back(std::move(*region));
  }
  if (const auto differ = check_regions_differ(regions); !differ) return fail(differ.error());
  return std::optional<Regions>(std::move(regions));
}

Result<std::optional<PrintedSheet>> sheet_from(const std::string& label) {
  if (label.empty()) return std::optional<PrintedSheet>();
  const auto file = sheet_settings_file();
  if (!file) return fail(file.error());
  const auto sheets = read_sheets(*file);
  if (!sheets) return fail(sheets.error());
  auto sheet = find_sheet(*sheets, label);
  if (!sheet) return fail(sheet.error());
  if (const auto missing = missing_files(*sheet); !missing.empty())
    return fail(
        missing.front() == sheet->reference ? ErrorCode::unreadable_reference : ErrorCode::unreadable_chart,
        fmt::format("Looking for the files of the sheet '{}': '{}' does not exist.", label, missing.front()),
        "Put it back, or say where the sheet's files are with 'tintfall sheet add LABEL --chart NAME "
        "--reference FILE --replace'.");
  return std::optional<PrintedSheet>(std::move(*sheet));
}

Checked load_chart(const std::string& chart, const std::string& reference, ReadRequest& request) {
  if (chart.empty()) {
    auto charts = shipped_charts();
    if (!charts) return fail(charts.error());
    request.candidates = std::move(*charts);
    if (!reference.empty()) request.reference_file = reference;
    return std::monostate{};
  }
  auto found = find_chart(chart);
  if (!found) return fail(found.error());
  request.candidates = {std::move(*found)};
  if (reference.empty()) return std::monostate{};
  auto values = read_reference(reference, request.candidates.front());
  if (!values) return fail(values.error());
  request.reference_values = std::move(*values);
  return std::monostate{};
}

}  // namespace

std::string saved_reading_of(const std::string& photo) { return photo + ".reading.json"; }

std::string overlay_in_folder(const std::string& folder, const std::string& photo) {
  return (std::filesystem::path(folder) / std::filesystem::path(photo).filename()).string() + ".overlay.png";
}

Result<ReadJob> read_job_from(const ReadChoices& choices) {
  if (const auto sound = check_sheet_options(choices); !sound) return fail(sound.error());
  ReadJob job;
  auto sheet = sheet_from(choices.sheet);
  if (!sheet) return fail(sheet.error());
  job.sheet = std::move(*sheet);
  const auto shared = shared_names(choices.photos);
  if (!choices.overlays.empty() && !shared.empty()) return name_is_shared(*shared.begin(), "--overlays");
  job.files = files_of(choices, job.sheet);
  if (const auto sound = check_outputs(choices, job.files); !sound) return fail(sound.error());
  if (!choices.corners.empty()) {
    const auto corners = corners_from(choices.corners);
    if (!corners) return fail(corners.error());
    job.request.corners = *corners;
  }
  auto regions = regions_from(choices);
  if (!regions) return fail(regions.error());
  if (choices.together && *regions && (*regions)->frame == RegionFrame::photo_px)
    return fail(
        ErrorCode::bad_call,
        "--together needs regions in mm on the sheet; the regions file counts in pixels of one photo.",
        "Draw them with \"frame\": \"chart\".");
  job.request.regions = std::move(*regions);
  job.request.height_mm = choices.height_mm;
  job.request.masstone = choices.masstone;
  job.request.keep_films = choices.two_grounds;
  const auto loaded = job.sheet ? load_chart(job.sheet->chart, job.sheet->reference, job.request)
                                : load_chart(choices.chart, choices.reference, job.request);
  if (!loaded) return fail(loaded.error());
  if (!light_kind_from(choices.subject.light))
    return fail(ErrorCode::bad_call,
                fmt::format("--light names '{}', which is no known light.", choices.subject.light),
                "Say daylight, lamp, tube or mixed.");
  if (!choices.fields_file.empty()) {
    auto fields = read_subject_fields(choices.fields_file);
    if (!fields) return fail(fields.error());
    job.fields = std::move(*fields);
  }
  for (const std::string& name : shared)
    if (job.fields.of_photo.contains(name)) return name_is_shared(name, "--fields");
  job.request.light = light_of(merged(job.fields.of_all.value_or(Subject{}), choices.subject));
  auto naming = naming_tools_from(choices.naming, data_folder());
  if (!naming) return fail(naming.error());
  job.naming = std::move(*naming);
  if (choices.save || choices.resume) job.identity = reading_identity(choices, job);
  return job;
}

}  // namespace tintfall
