#pragma once
/// Who gets the room in a table that is too narrow for all of its words.

#include <QObject>
#include <vector>

class QTableView;

namespace tintfall::viewer {

/// Keeps the columns of a table, whose child it becomes, as wide as their words while all of them fit. Where
/// they do not, the columns of `yielding` give room away in that order, down to a few letters, `main` to a
/// few words (the rest is in the tooltip); the others are never shortened. What is left over goes to `main`.
class ColumnWidths : public QObject {
 public:
  ColumnWidths(QTableView& table, int main, std::vector<int> yielding);
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void share();

  QTableView& table_;
  int main_;
  std::vector<int> yielding_;
};

}  // namespace tintfall::viewer
