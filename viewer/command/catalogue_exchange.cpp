/// What comes into a catalogue and what goes out of it.
#include <fmt/format.h>

#include <CLI/App.hpp>
#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>
#include <algorithm>
#include <colorlib/base/file_access.hpp>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/exports/catalogue_files.hpp>
#include <colorlib/exports/import_parts.hpp>
#include <colorlib/records/collection_text.hpp>
#include <colorlib/records/content_hash.hpp>
#include <colorlib/records/record_json.hpp>
#include <map>
#include <nlohmann/json.hpp>
#include <optional>
#include <set>
#include <unordered_map>
#include <viewer/command/catalogue_command.hpp>
#include <viewer/command/counted.hpp>
#include <viewer/command/exit_status.hpp>
#include <viewer/command/progress_line.hpp>

namespace tintfall {

using namespace colorlib;

namespace {

constexpr std::size_t most_import_bytes = std::size_t{2} << 30;
/// Records that are told one by one.
constexpr std::size_t most_told = 10;

/// A record of a file, with the line that it stands in when the file holds one a line; else 0.
struct RecordText {
  std::string text;
  std::size_t line = 0;
};

/// The texts of one file of records: one record as a whole, or one a line.
Result<std::vector<RecordText>> record_texts(const std::string& file) {
  const auto bytes = read_file(file, "the record", ErrorCode::unreadable_record, 64 * RecordLimits::bytes);
  if (!bytes) return fail(bytes.error());
  std::vector<RecordText> lines;
  std::size_t number = 0;
  for (const auto line : lines_of(*bytes)) {
    ++number;
    if (!trimmed(line).empty()) lines.push_back({std::string(line), number});
  }
  const bool one_a_line =
      lines.size() > 1 && std::all_of(lines.begin(), lines.end(), [](const RecordText& line) {
        const auto text = trimmed(line.text);
        return text.front() == '{' && text.back() == '}';
      });
  if (!one_a_line) return std::vector{RecordText{*bytes, 0}};
  return lines;
}

/// FOLDER/HASH.jpg: a photo is there once, whatever its name.
Result<std::monostate> copy_photo(const std::string& photo, const std::string& hash,
                                  const std::string& folder) {
  std::error_code problem;
  std::filesystem::create_directories(folder, problem);
  const auto target =
      std::filesystem::path(folder) / (hash + std::filesystem::path(photo).extension().string());
  std::error_code ignored;
  if (!problem && std::filesystem::exists(target, ignored)) return std::monostate{};
  const auto part = std::filesystem::path(target) += ".part";
  if (!problem)
    std::filesystem::copy_file(photo, part, std::filesystem::copy_options::overwrite_existing, problem);
  if (!problem) std::filesystem::rename(part, target, problem);
  if (!problem) return std::monostate{};
  std::filesystem::remove(part, ignored);
  return fail(ErrorCode::cannot_write,
              fmt::format("Copying '{}' to '{}' failed: {}.", photo, folder, problem.message()),
              "Check that the folder may be written to and has room.");
}

/// Whether a record names the photo, by name or content: as its only one, or among several or a series.
bool is_of_a_record(const std::string& photo, const std::string& hash,
                    const std::vector<CatalogueEntry>& entries) {
  const nlohmann::json name = std::filesystem::path(photo).filename().string();
  const std::string named = name.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
  for (const CatalogueEntry& entry : entries)
    for (const CatalogueRecord& record : entry.records)
      if (record.json.find(named) != std::string::npos || record.json.find(hash) != std::string::npos)
        return true;
  return false;
}

std::string told(const AddSummary& sum) {
  std::string text =
      fmt::format("added {}, {} with {}", counted(sum.collections_added, "collection"),
                  counted(sum.records_added, "record"), counted(sum.readings_added, "reading"));
  if (sum.collections_known + sum.records_known > 0)
    text += fmt::format("; already there {}, {}", counted(sum.collections_known, "collection"),
                        counted(sum.records_known, "record"));
  text += "\n";
  for (std::size_t i = 0; i < std::min(sum.renumbered.size(), most_told); ++i)
    text += fmt::format("{} is known here as {}, and was not added anew.\n", sum.renumbered[i].said,
                        sum.renumbered[i].number);
  if (sum.renumbered.size() > most_told)
    text += fmt::format("So are {} more collections, by other numbers.\n", sum.renumbered.size() - most_told);
  for (std::size_t i = 0; i < std::min(sum.elsewhere.size(), most_told); ++i) {
    const RecordElsewhere& one = sum.elsewhere[i];
    text += fmt::format("The record of '{}' lies in {} already, and was not added to {}.\n", one.photo_name,
                        one.number, one.wanted);
  }
  if (sum.elsewhere.size() > most_told)
    text += fmt::format("So do {} more records.\n", sum.elsewhere.size() - most_told);
  return text;
}

std::string told(const NotExported& left) {
  std::string text;
  const std::size_t count = left.collections.size();
  if (count > 0)
    text += fmt::format(
        "Left out, as CGATS holds colours only: {} without one ({}{}).\n", counted(count, "collection"),
        fmt::join(left.collections.begin(),
                  left.collections.begin() + static_cast<std::ptrdiff_t>(std::min(count, most_told)), ", "),
        count > most_told ? ", ..." : "");
  if (left.refused > 0)
    text += fmt::format("Left out, as they hold no colour: {}.\n", counted(left.refused, "refused reading"));
  return text;
}

}  // namespace

std::optional<Error> CatalogueCommand::said_for_nothing() const {
  if (!files_.empty()) return std::nullopt;
  if (!reagent_.empty())
    return Error{ErrorCode::bad_call, "--reagent is said of records, and none was named.",
                 "Name the records, or leave --reagent out."};
  if (!fields_file_.empty() && !number_.empty())
    return Error{ErrorCode::bad_call,
                 "--number is said of records, and none was named; the collections of --fields have numbers.",
                 "Leave --number out, or name the records that belong to it."};
  return std::nullopt;
}

int CatalogueCommand::add(Streams& streams) {
  if (const auto wrong = said_for_nothing()) return refuse(*wrong, streams);
  std::vector<CatalogueEntry> entries;
  if (!fields_file_.empty()) {
    auto collections = read_collections(fields_file_);
    if (!collections) return refuse(collections.error(), streams);
    for (Collection& collection : *collections) entries.push_back({std::move(collection), {}, {}});
  }
  std::map<std::string, std::string> hashes;  // by name of the photo
  std::vector<std::string> hash_of_photo;     // one a photo
  for (const std::string& photo : photos_) {
    const auto hash = sha256_of_file(photo);
    if (!hash) return refuse(hash.error(), streams);
    hashes[std::filesystem::path(photo).filename().string()] = *hash;
    hash_of_photo.push_back(*hash);
  }
  Collection said;
  for (const auto& [name, value] : fields_.said())
    if (const auto set = set_field(said, *find_collection_field(name), value); !set)
      return refuse(
          {ErrorCode::bad_call, fmt::format("Field {}: {}.", name, set.error().message), set.error().advice},
          streams);
  for (CatalogueEntry& entry : entries) fill_blanks(entry.collection, said);
  said.number = number_;
  std::unordered_map<std::string, std::size_t> places;
  for (std::size_t i = 0; i < entries.size(); ++i) places.try_emplace(entries[i].collection.number, i);
  const auto place_of = [&](const std::string& number) -> CatalogueEntry& {
    const auto [place, is_new] = places.try_emplace(number, entries.size());
    if (!is_new) return entries[place->second];
    entries.emplace_back();
    entries.back().collection.number = number;
    entries.back().of_records_only = true;
    return entries.back();
  };
  for (const std::string& file : files_) {
    const auto texts = record_texts(file);
    if (!texts) return refuse(texts.error(), streams);
    for (const auto& [text, line] : *texts) {
      const std::string at = line > 0 ? fmt::format(", line {}", line) : std::string();
      const std::string name = std::filesystem::path(file).filename().string() + at;
      auto record = catalogue_record_from(text, name, {reagent_, {}});
      if (!record) return refuse(record.error(), streams);
      if (const auto hash = hashes.find(record->photo_name);
          hash != hashes.end() && record->photo_sha256.empty())
        record = catalogue_record_from(text, name, {reagent_, hash->second});
      const std::string number = number_.empty() ? record->item : number_;
      const std::string& photo_name = record->photo_name;
      if (number.empty())
        return refuse({ErrorCode::bad_call,
                       fmt::format("The record '{}'{}{} does not say which collection it is of.", file, at,
                                   photo_name.empty() ? "" : fmt::format(", of the photo '{}',", photo_name)),
                       "Add --number NUMBER, or read the photo with --item."},
                      streams);
      auto told = entry_of(std::move(*record), number);
      if (!told) return refuse(told.error(), streams);
      CatalogueEntry& entry = place_of(number);
      fill_blanks(entry.collection, said);
      fill_blanks(entry.collection, told->collection);
      entry.records.push_back(std::move(told->records.front()));
    }
  }
  if (files_.empty() && fields_file_.empty()) {
    if (number_.empty())
      return refuse({ErrorCode::bad_call, "Nothing was named that should be added.",
                     "Name records, a file with --fields, or a collection with --number."},
                    streams);
    entries.push_back({said, {}, {}});
  }
  for (std::size_t i = 0; i < photos_.size(); ++i)
    if (!is_of_a_record(photos_[i], hash_of_photo[i], entries))
      return refuse(
          {ErrorCode::bad_call,
           fmt::format("--photo names '{}', and none of the records named is of that photo.", photos_[i]),
           "Name its record, too, or leave the photo out; nothing was added or copied."},
          streams);
  for (std::size_t i = 0; i < photos_.size() && !copies_.empty(); ++i)
    if (const auto copied = copy_photo(photos_[i], hash_of_photo[i], copies_); !copied)
      return refuse(copied.error(), streams);
  auto catalogue = open(Catalogue::Open::create);
  if (!catalogue) return refuse(catalogue.error(), streams);
  ProgressLine progress(streams, "catalogue");
  const auto added = catalogue->add(entries, progress);
  progress.clear();
  if (!added) return refuse(added.error(), streams);
  streams.out << told(*added);
  return status_done;
}

Result<std::vector<std::string>> CatalogueCommand::numbers_of(Catalogue& catalogue) const {
  auto query = query_.checked();
  if (!query) return fail(query.error());
  query->limit = 0;
  std::set<std::string> numbers;
  if (query->color) {
    const auto hits = catalogue.find(*query);
    if (!hits) return fail(hits.error());
    for (const CatalogueHit& hit : *hits) numbers.insert(hit.number);
  } else {
    const auto lines = catalogue.list(*query);
    if (!lines) return fail(lines.error());
    for (const CatalogueLine& line : *lines) numbers.insert(line.number);
  }
  return std::vector<std::string>(numbers.begin(), numbers.end());
}

int CatalogueCommand::export_to_file(Streams& streams) {
  const auto format = format_.empty() ? catalogue_format_of_file(out_) : catalogue_format_from(format_);
  if (!format) return refuse(format.error(), streams);
  const std::map<std::string, PlaceDetail> details{
      {"none", PlaceDetail::none}, {"coarse", PlaceDetail::coarse}, {"exact", PlaceDetail::exact}};
  const auto detail = details.find(places_);
  if (detail == details.end())
    return refuse({ErrorCode::bad_call, fmt::format("--places is none, coarse or exact, not '{}'.", places_),
                   "coarse rounds coordinates to 0.1 degree and leaves out the site."},
                  streams);
  std::error_code ignored;
  if (!pictures_.empty() && *format != CatalogueFormat::pdf)
    return refuse(
        {ErrorCode::bad_call, fmt::format("--pictures is for a PDF report, and '{}' is none.", out_),
         "Leave --pictures out, or end the file in .pdf."},
        streams);
  if (!pictures_.empty() && !std::filesystem::is_directory(pictures_, ignored))
    return refuse({ErrorCode::bad_call, fmt::format("--pictures names '{}', which is no folder.", pictures_),
                   "Name the folder that holds PHOTO.overlay.png, or the photographs themselves."},
                  streams);
  auto catalogue = open(Catalogue::Open::existing);
  if (!catalogue) return refuse(catalogue.error(), streams);
  const auto numbers = numbers_of(*catalogue);
  if (!numbers) return refuse(numbers.error(), streams);
  if (numbers->empty())
    return refuse({ErrorCode::bad_call, "Nothing in the catalogue is of that kind, so nothing was written.",
                   "'tintfall catalogue list' with the same options shows what is."},
                  streams);
  ProgressLine progress(streams, "export");
  std::vector<CatalogueEntry> entries;
  const auto read =
      catalogue->each(*numbers, false, [&](const CatalogueEntry& entry) -> Result<std::monostate> {
        entries.push_back({with_place(entry.collection, detail->second), entry.records, {}});
        if (entries.size() % 100 == 0)
          progress.report(static_cast<double>(entries.size()) / static_cast<double>(numbers->size()),
                          "reading");
        return std::monostate{};
      });
  if (!read) return refuse(read.error(), streams);
  const NotExported left = not_exported(entries, *format);
  if (left.collections.size() == entries.size())
    return refuse({ErrorCode::bad_call,
                   fmt::format("CGATS holds colours only, and of {} none has one; nothing was written.",
                               counted(entries.size(), "collection")),
                   "Write .csv, .jsonl or .txt, which hold collections without readings, too."},
                  streams);
  progress.report(1, "writing");
  std::size_t pictures_found = 0;
  const auto bytes = exported(entries, *format, pictures_, &pictures_found);
  if (!bytes) return refuse(bytes.error(), streams);
  progress.clear();
  const bool to_standard_output = out_ == "-";
  if (to_standard_output)
    streams.out << *bytes;
  else if (const auto written = write_file_atomically(out_, *bytes); !written)
    return refuse(written.error(), streams);
  std::ostream& words = to_standard_output ? streams.err : streams.out;
  words << fmt::format("{} written to {}, places {}.\n",
                       counted(entries.size() - left.collections.size(), "collection"),
                       to_standard_output ? "standard output" : fmt::format("'{}'", out_), places_)
        << told(left);
  if (!pictures_.empty()) {
    std::size_t records = 0;
    for (const CatalogueEntry& entry : entries) records += entry.records.size();
    words << fmt::format("Pictures of {} of {} were found in '{}'.\n", pictures_found,
                         counted(records, "record"), pictures_);
  }
  return status_done;
}

int CatalogueCommand::import_files(Streams& streams) {
  std::optional<Catalogue> catalogue;
  for (const std::string& file : files_) {
    ProgressLine progress(streams, file);
    progress.report(0, "reading");
    const auto bytes = read_file(file, "the file to import", ErrorCode::unreadable_table, most_import_bytes);
    if (!bytes) return refuse(bytes.error(), streams);
    const std::string name = std::filesystem::path(file).filename().string();
    // A file of several parts is looked through first: with a mistake far down nothing of it is added.
    std::size_t parts = 0;
    std::vector<CatalogueEntry> first;
    const auto looked =
        import_in_parts(*bytes, name, [&](std::vector<CatalogueEntry> entries) -> Result<std::monostate> {
          if (parts++ == 0) first = std::move(entries);
          return std::monostate{};
        });
    if (!looked) return refuse(looked.error(), streams);
    // Opened only now: a file that cannot be taken leaves no new catalogue behind.
    if (!catalogue) {
      auto opened = open(Catalogue::Open::create);
      if (!opened) return refuse(opened.error(), streams);
      catalogue.emplace(std::move(*opened));
    }
    AddSummary sum;
    const auto take = [&](const std::vector<CatalogueEntry>& entries) -> Result<std::monostate> {
      const auto added = catalogue->add(entries, progress);
      if (!added) return fail(added.error());
      sum += *added;
      return std::monostate{};
    };
    const auto added = parts == 1 ? take(first) : import_in_parts(*bytes, name, take);
    progress.clear();
    if (!added) return refuse(added.error(), streams);
    streams.out << file << ": " << told(sum);
  }
  return status_done;
}

}  // namespace tintfall
