#include <QAbstractSpinBox>
#include <QLayout>
#include <QLineEdit>
#include <QScrollArea>
#include <QSplitter>
#include <QStackedWidget>
#include <QTabBar>
#include <QTabWidget>
#include <viewer/window/tab_order.hpp>

namespace tintfall::viewer {

namespace {

void walk(QWidget* widget, QList<QWidget*>& parts);

void walk(QLayout* layout, QList<QWidget*>& parts) {
  for (int i = 0; layout != nullptr && i < layout->count(); ++i) {
    QLayoutItem* item = layout->itemAt(i);
    item->widget() != nullptr ? walk(item->widget(), parts) : walk(item->layout(), parts);
  }
}

void walk(QWidget* widget, QList<QWidget*>& parts) {
  if (widget == nullptr) return;
  if (const auto* tabs = qobject_cast<QTabWidget*>(widget)) {
    parts.push_back(tabs->tabBar());
    for (int i = 0; i < tabs->count(); ++i) walk(tabs->widget(i), parts);
    return;
  }
  if ((widget->focusPolicy() & Qt::TabFocus) != 0) parts.push_back(widget);
  if (const auto* area = qobject_cast<QScrollArea*>(widget)) return walk(area->widget(), parts);
  if (const auto* splitter = qobject_cast<QSplitter*>(widget)) {
    for (int i = 0; i < splitter->count(); ++i) walk(splitter->widget(i), parts);
    return;
  }
  if (const auto* stack = qobject_cast<QStackedWidget*>(widget)) {
    for (int i = 0; i < stack->count(); ++i) walk(stack->widget(i), parts);
    return;
  }
  if (widget->layout() != nullptr) return walk(widget->layout(), parts);
  // What Qt puts inside its own widgets is theirs; a mere holder without a layout places its parts by itself.
  if (widget->focusPolicy() == Qt::NoFocus)
    for (QWidget* part : widget->findChildren<QWidget*>(Qt::FindDirectChildrenOnly)) walk(part, parts);
}

}  // namespace

QList<QWidget*> in_reading_order(QWidget& whole) {
  QList<QWidget*> parts;
  walk(&whole, parts);
  return parts;
}

void set_tab_order(const QList<QWidget*>& parts) {
  for (qsizetype i = 1; i < parts.size(); ++i) QWidget::setTabOrder(parts[i - 1], parts[i]);
}

void name_inner_parts(QWidget& whole) {
  for (const QTabWidget* tabs : whole.findChildren<QTabWidget*>())
    tabs->tabBar()->setAccessibleName(tabs->accessibleName());
  for (const QAbstractSpinBox* box : whole.findChildren<QAbstractSpinBox*>())
    for (QLineEdit* editor : box->findChildren<QLineEdit*>())
      editor->setAccessibleName(box->accessibleName());
}

}  // namespace tintfall::viewer
