#pragma once
/// Actions that belong together, for menus and for the list of shortcuts.

#include <QAction>
#include <QList>
#include <QString>

namespace tintfall::viewer {

struct ActionGroup {
  QString title;
  QList<QAction*> actions;  ///< null: a separator
};

}  // namespace tintfall::viewer
