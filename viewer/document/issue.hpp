#pragma once
/// A problem worth telling, collected instead of popped up.

#include <QDateTime>
#include <QRectF>
#include <QString>
#include <optional>

namespace tintfall::viewer {

enum class IssueWeight {
  note,     ///< good to know
  advice,   ///< the result stands; doing this makes the next one better
  problem,  ///< something was not done
};

/// What was being done when it arose: once that is done anew, what it said before no longer counts.
enum class IssueSource { action, photo, sheet, readings, work_file, regions_file, exporting, growing };

struct Issue {
  IssueWeight weight = IssueWeight::note;
  QString code;  ///< colorlib's spelling where it has one: "chart-not-found", "clipped"
  QString message, advice;
  QString region;                  ///< id of the region it is about
  std::optional<QRectF> place_px;  ///< in the photo, to jump to
  int count = 1;                   ///< how often the same came
  IssueSource source = IssueSource::action;
  bool operator==(const Issue&) const = default;
};

}  // namespace tintfall::viewer
