#pragma once
/// Records from files, for comparing and for diagrams.

#include <QStringList>
#include <colorlib/records/record.hpp>
#include <vector>
#include <viewer/tasks/shown_reading.hpp>

namespace tintfall::viewer {

struct RecordOutcome {
  QString file;
  colorlib::Record record;
  std::vector<ShownReading> readings;  ///< their ids are "item · id" where the record names an item
  QString problem, advice;             ///< why the file could not be read; else empty
};
std::vector<RecordOutcome> read_records(const QStringList& files, const Screen& screen,
                                        colorlib::Progress& progress);

/// A record that is at hand as JSON, and the name it goes by.
struct NamedRecord {
  QString name;
  std::string json;
  bool operator==(const NamedRecord&) const = default;
};
std::vector<RecordOutcome> read_records(const std::vector<NamedRecord>& records, const Screen& screen);

}  // namespace tintfall::viewer
