#pragma once
/// Every action with its key.

#include <QWidget>
#include <vector>
#include <viewer/window/action_group.hpp>

class QTableWidget;

namespace tintfall::viewer {

class ShortcutPage : public QWidget {
  Q_OBJECT
 public:
  explicit ShortcutPage(QWidget* parent = nullptr);
  void set_groups(const std::vector<ActionGroup>& groups);

 private:
  QTableWidget* table_;
};

}  // namespace tintfall::viewer
