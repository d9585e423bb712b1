#include <fmt/format.h>

#include <algorithm>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/comparison/round_readings.hpp>
#include <colorlib/records/record_json.hpp>
#include <map>

namespace colorlib {
namespace {

/// Records as they are asked for, each file read once.
class RecordShelf {
 public:
  explicit RecordShelf(std::filesystem::path folder) : folder_(std::move(folder)) {}

  Result<const Record*> get(const std::string& path) {
    const auto known = records_.find(path);
    if (known != records_.end()) return &known->second;
    auto record = read_record(folder_ / path);
    if (!record) return fail(record.error());
    return &records_.emplace(path, std::move(*record)).first->second;
  }

 private:
  std::filesystem::path folder_;
  std::map<std::string, Record> records_;
};

/// What is chosen of one record for the round: exactly one reading, standing or left out.
Result<ChosenReadings> one_reading(const Record& record, const std::string& path, const std::string& id) {
  ChosenReadings chosen = compared_readings_from(record, path, {std::nullopt, id});
  if (chosen.readings.size() + chosen.left_out.size() > 1)
    return fail(
        ErrorCode::unreadable_record,
        fmt::format("Reading the round: the record '{}' holds several readings that could be meant.", path),
        "Name one in the round file with \"reading\".");
  if (chosen.readings.empty() && !id.empty() && chosen.left_out.front().what == path)
    return fail(ErrorCode::unreadable_record,
                fmt::format("Reading the round: the record '{}' holds no reading '{}'.", path, quotable(id)),
                "Correct \"reading\" in the round file.");
  return chosen;
}

Result<std::monostate> same_subject(const Record& record, const RoundEntry& entry,
                                    const RoundCollector& collector) {
  const auto contradiction = [&](const char* what, const std::string& said, const std::string& meant) {
    return fail(ErrorCode::unreadable_record,
                fmt::format("Reading the round: the record '{}' says {} '{}', the round says '{}'.",
                            entry.record, what, quotable(said), quotable(meant)),
                "Correct whichever is wrong; a mixed-up record would spoil the round.");
  };
  const std::string item(trimmed(record.subject.item)), who(trimmed(record.subject.collector));
  if (!item.empty() && item != entry.item) return contradiction("item", item, entry.item);
  if (!who.empty() && who != collector.id && who != collector.name)
    return contradiction("collector", who, collector.id);
  return std::monostate{};
}

Result<ReferenceColor> reference_of(const RoundItem& item, RecordShelf& shelf) {
  const RoundReference& known = *item.reference;
  ReferenceColor reference{
      item.id, {known.lab, known.covariance}, known.source.empty() ? "stated" : known.source};
  if (known.record.empty()) return reference;
  const auto record = shelf.get(known.record);
  if (!record) return fail(record.error());
  const auto chosen = one_reading(**record, known.record, known.reading);
  if (!chosen) return fail(chosen.error());
  if (chosen->readings.empty())
    return fail(ErrorCode::unreadable_record,
                fmt::format("Reading the round: the reference of item '{}' cannot be used. {}", item.id,
                            chosen->left_out.front().why),
                "Name another record as its reference, or none.");
  reference.color = chosen->readings.front().color;
  if (known.source.empty()) reference.source = known.record;
  return reference;
}

}  // namespace

Result<RoundReadings> readings_of_round(const Round& round, const std::filesystem::path& folder,
                                        Progress& progress) {
  RecordShelf shelf(folder);
  RoundReadings result;
  for (const RoundItem& item : round.items) {
    const bool is_read = std::any_of(round.entries.begin(), round.entries.end(),
                                     [&](const RoundEntry& entry) { return entry.item == item.id; });
    if (!item.reference || !is_read) continue;
    auto reference = reference_of(item, shelf);
    if (!reference) return fail(reference.error());
    result.references.push_back(std::move(*reference));
  }
  for (std::size_t i = 0; i < round.entries.size(); ++i) {
    if (progress.cancelled()) return fail(ErrorCode::cancelled, "The work was stopped.", "Start it again.");
    progress.report(static_cast<double>(i) / static_cast<double>(round.entries.size()), "reading records");
    const RoundEntry& entry = round.entries[i];
    const auto collector = std::find_if(round.collectors.begin(), round.collectors.end(),
                                        [&](const RoundCollector& c) { return c.id == entry.collector; });
    const auto record = shelf.get(entry.record);
    if (!record) return fail(record.error());
    if (const auto sound = same_subject(**record, entry, *collector); !sound) return fail(sound.error());
    auto chosen = one_reading(**record, entry.record, entry.reading);
    if (!chosen) return fail(chosen.error());
    for (ComparedReading& reading : chosen->readings) {
      reading.item = entry.item;
      reading.collector = entry.collector;
      if (!collector->camera.empty()) reading.traits.push_back({"camera", collector->camera});
      if (!collector->light.empty()) reading.traits.push_back({"light", collector->light});
      result.chosen.readings.push_back(std::move(reading));
    }
    for (LeftOut& left : chosen->left_out) result.chosen.left_out.push_back(std::move(left));
  }
  return result;
}

}  // namespace colorlib
