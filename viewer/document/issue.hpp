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

struct Issue {
  IssueWeight weight = IssueWeight::note;
  QString code;  ///< colorlib's spelling where it has one: "chart-not-found", "clipped"
  QString message, advice;
  QString region;                  ///< id of the region it is about
  std::optional<QRectF> place_px;  ///< in the photo, to jump to
  int count = 1;                   ///< how often the same came
  bool operator==(const Issue&) const = default;
};

}  // namespace tintfall::viewer
