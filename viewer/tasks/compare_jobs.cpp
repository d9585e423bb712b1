#include <QFileInfo>
#include <algorithm>
#include <cmath>
#include <map>
#include <viewer/tasks/compare_jobs.hpp>
#include <viewer/tasks/error_words.hpp>

namespace tintfall::viewer {

using namespace colorlib;

namespace {

QString words(const std::string& text) { return QString::fromStdString(text); }

/// "QH-03 · V", or the file's name where the record names neither.
QString short_label_of(const ComparedReading& reading) {
  QStringList parts;
  for (const std::string& part : {reading.item, reading.collector})
    if (!part.empty()) parts.push_back(words(part));
  if (parts.isEmpty()) parts = {QFileInfo(words(reading.record)).completeBaseName(), words(reading.id)};
  return parts.join(QStringLiteral(" · "));
}

void sort_by(SideOrder order, std::vector<SideReading>& readings) {
  const auto by = [&](const auto& key) {
    std::stable_sort(readings.begin(), readings.end(),
                     [&](const SideReading& a, const SideReading& b) { return key(a) < key(b); });
  };
  switch (order) {
    case SideOrder::as_given:
      return;
    case SideOrder::item:
      return by([](const SideReading& each) { return each.item; });
    case SideOrder::collector:
      return by([](const SideReading& each) { return each.collector; });
    case SideOrder::lightness:
      return by([](const SideReading& each) { return -each.shown.reading.lab.l; });
    case SideOrder::hue:
      return by([](const SideReading& each) {
        return std::atan2(each.shown.reading.lab.b, each.shown.reading.lab.a);
      });
  }
}

}  // namespace

int pair_of(const Comparison& comparison, int a, int b) {
  for (std::size_t i = 0; i < comparison.pairs.size(); ++i) {
    const auto first = static_cast<int>(comparison.pairs[i].a),
               second = static_cast<int>(comparison.pairs[i].b);
    if ((first == a && second == b) || (first == b && second == a)) return static_cast<int>(i);
  }
  return -1;
}

Result<CompareOutcome> compare_records(const CompareParameters& parameters, Progress& progress) {
  CompareOutcome outcome;
  ChosenReadings chosen;
  std::map<std::pair<std::string, std::string>, ShownReading> shown_by;  // record's file and reading's id
  std::vector<RecordOutcome> records = read_records(parameters.files, parameters.screen, progress);
  for (RecordOutcome& kept : read_records(parameters.records, parameters.screen))
    records.push_back(std::move(kept));
  for (const RecordOutcome& record : records) {
    if (!record.problem.isEmpty()) {
      outcome.problems.push_back(record.problem + QStringLiteral(" ") + record.advice);
      continue;
    }
    const std::string file = record.file.toStdString();
    for (const ShownReading& each : record.readings) {
      const std::string& id = each.reading.id;
      const auto plain =
          record.record.subject.item.empty() ? id : id.substr(record.record.subject.item.size() + 4);
      shown_by[{file, plain}] = each;
    }
    ChosenReadings of_record = compared_readings_from(record.record, file);
    std::move(of_record.readings.begin(), of_record.readings.end(), std::back_inserter(chosen.readings));
    std::move(of_record.left_out.begin(), of_record.left_out.end(), std::back_inserter(chosen.left_out));
  }
  leave_out_copies(chosen);
  outcome.left_out = chosen.left_out;
  for (const ComparedReading& reading : chosen.readings) {
    SideReading side;
    side.shown = shown_by[{reading.record, reading.id}];
    side.label = words(reading.label);
    side.short_label = short_label_of(reading);
    side.item = words(reading.item);
    side.collector = words(reading.collector);
    side.file = words(reading.record);
    outcome.readings.push_back(std::move(side));
  }
  if (chosen.readings.size() >= 2) {
    ComparisonOptions options;
    options.rule.tolerance_de00 = parameters.tolerance_de00;
    options.all_pairs = true;
    auto comparison = compare(std::move(chosen), {}, options, progress);
    if (!comparison && comparison.error().code == ErrorCode::cancelled) return fail(comparison.error());
    if (comparison) {
      for (SideReading& side : outcome.readings)
        for (std::size_t i = 0; i < comparison->things.size(); ++i)
          if (words(comparison->things[i].label) == side.label) side.thing = static_cast<int>(i);
      for (std::size_t g = 0; g < comparison->groups.size(); ++g)
        for (SideReading& side : outcome.readings)
          for (const std::size_t member : comparison->groups[g].members)
            if (static_cast<int>(member) == side.thing) side.group = static_cast<int>(g);
      for (std::size_t i = 0; i < comparison->table.items.size(); ++i)
        outcome.items.push_back(words(comparison->item_name(i)));
      for (const std::string& remark : comparison->remarks) outcome.remarks.push_back(words(remark));
      outcome.comparison = std::move(*comparison);
    } else {
      outcome.problems.push_back(error_words(comparison.error()));
    }
  }
  sort_by(parameters.order, outcome.readings);
  return outcome;
}

}  // namespace tintfall::viewer
