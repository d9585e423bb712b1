#pragma once
/// A row that goes on in another line where the window is too narrow for it.

#include <QLayout>
#include <memory>
#include <vector>

namespace tintfall::viewer {

/// Its parts stand side by side at the widths they ask for; what does not fit begins the next line. Room that
/// is left in a line goes to the parts that can grow (fields, `add_stretch`).
class WrappingRow : public QLayout {
 public:
  explicit WrappingRow(QWidget* parent = nullptr);
  ~WrappingRow() override;

  /// Several widgets that are never parted: a field and the label in front of it.
  void add_together(std::initializer_list<QWidget*> widgets);
  void add_gap(int px);
  void add_stretch();

  void addItem(QLayoutItem* item) override;
  int count() const override { return static_cast<int>(items_.size()); }
  QLayoutItem* itemAt(int index) const override;
  QLayoutItem* takeAt(int index) override;
  Qt::Orientations expandingDirections() const override { return Qt::Horizontal; }
  bool hasHeightForWidth() const override { return true; }
  int heightForWidth(int width) const override;
  QSize sizeHint() const override;
  QSize minimumSize() const override;
  void setGeometry(const QRect& area) override;

 private:
  /// One line: its items, the width they have at least, and its height, all in px.
  struct Line {
    std::vector<QLayoutItem*> items;
    int width = 0, height = 0;
  };
  std::vector<Line> lines(int width) const;
  void place(const Line& line, int left, int top, int width) const;

  std::vector<std::unique_ptr<QLayoutItem>> items_;
};

}  // namespace tintfall::viewer
