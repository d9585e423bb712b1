#include <colorlib/records/record_json.hpp>
#include <viewer/tasks/error_words.hpp>
#include <viewer/tasks/record_jobs.hpp>

namespace tintfall::viewer {

using namespace colorlib;

namespace {

RecordOutcome outcome_of(const QString& name, Result<Record> record, const Screen& screen) {
  RecordOutcome outcome;
  outcome.file = name;
  if (!record) {
    outcome.problem = message_words(record.error());
    outcome.advice = advice_words(record.error());
    return outcome;
  }
  outcome.record = std::move(*record);
  for (const Reading& reading : outcome.record.readings) {
    outcome.readings.push_back(shown(reading, screen));
    if (!outcome.record.subject.item.empty())
      outcome.readings.back().reading.id = outcome.record.subject.item + " · " + reading.id;
  }
  return outcome;
}

}  // namespace

std::vector<RecordOutcome> read_records(const QStringList& files, const Screen& screen, Progress& progress) {
  std::vector<RecordOutcome> outcomes;
  for (const QString& file : files) {
    if (progress.cancelled()) break;
    progress.report(static_cast<double>(outcomes.size()) / static_cast<double>(files.size()),
                    "reading records");
    outcomes.push_back(outcome_of(file, read_record(file.toStdString()), screen));
  }
  return outcomes;
}

std::vector<RecordOutcome> read_records(const std::vector<NamedRecord>& records, const Screen& screen) {
  std::vector<RecordOutcome> outcomes;
  for (const NamedRecord& record : records)
    outcomes.push_back(outcome_of(record.name, parse_record(record.json, record.name.toStdString()), screen));
  return outcomes;
}

}  // namespace tintfall::viewer
