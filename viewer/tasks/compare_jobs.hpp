#pragma once
/// Many records side by side: sorting, pairs, groups, consensus, bias.

#include <colorlib/comparison/comparison.hpp>
#include <optional>
#include <viewer/tasks/record_jobs.hpp>

namespace tintfall::viewer {

enum class SideOrder { as_given, item, collector, lightness, hue };

struct CompareParameters {
  QStringList files;
  std::vector<NamedRecord> records;  ///< of the catalogue, after the files
  Screen screen;
  SideOrder order = SideOrder::as_given;
  std::optional<double> tolerance_de00;  ///< none: any difference that can be shown counts
};

/// One reading among the others.
struct SideReading {
  ShownReading shown;
  QString label;        ///< unique
  QString short_label;  ///< for narrow places; may stand twice
  QString item, collector, file;
  int thing = -1;  ///< place in Comparison::things; -1: takes no part
  int group = -1;  ///< readings of one group cannot be told apart
};

struct CompareOutcome {
  std::vector<SideReading> readings;               ///< in the order asked for
  std::optional<colorlib::Comparison> comparison;  ///< none with fewer than two readings
  QStringList items;                               ///< names of the comparison's items
  QStringList problems;                            ///< what could not be read or compared, and why
  std::vector<colorlib::LeftOut> left_out;         ///< readings that took no part, and why
  QStringList remarks;                             ///< what to know about the rest, as colorlib says it
};

/// Two readings that both take part: the pair's place, or -1.
int pair_of(const colorlib::Comparison& comparison, int a, int b);

/// For jobs. Errors: cancelled.
colorlib::Result<CompareOutcome> compare_records(const CompareParameters& parameters,
                                                 colorlib::Progress& progress);

}  // namespace tintfall::viewer
