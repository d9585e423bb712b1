#include <colorlib/records/record_json.hpp>
#include <viewer/tasks/record_jobs.hpp>

namespace tintfall::viewer {

using namespace colorlib;

std::vector<RecordOutcome> read_records(const QStringList& files, const Screen& screen, Progress& progress) {
  std::vector<RecordOutcome> outcomes;
  for (const QString& file : files) {
    if (progress.cancelled()) break;
    progress.report(static_cast<double>(outcomes.size()) / static_cast<double>(files.size()), "reading records");
    RecordOutcome outcome;
    outcome.file = file;
    auto record = read_record(file.toStdString());
    if (record) {
      outcome.record = std::move(*record);
      for (const Reading& reading : outcome.record.readings) {
        outcome.readings.push_back(shown(reading, screen));
        if (!outcome.record.subject.item.empty())
          outcome.readings.back().reading.id = outcome.record.subject.item + " · " + reading.id;
      }
    } else {
      outcome.problem = QString::fromStdString(record.error().message);
      outcome.advice = QString::fromStdString(record.error().advice);
    }
    outcomes.push_back(std::move(outcome));
  }
  return outcomes;
}

}  // namespace tintfall::viewer
