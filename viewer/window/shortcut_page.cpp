#include <QHeaderView>
#include <QTableWidget>
#include <QVBoxLayout>
#include <viewer/window/shortcut_page.hpp>

namespace tintfall::viewer {

ShortcutPage::ShortcutPage(QWidget* parent) : QWidget(parent), table_(new QTableWidget) {
  setAccessibleName(tr("Keys"));
  auto* column = new QVBoxLayout(this);
  column->addWidget(table_);
  table_->setAccessibleName(tr("Actions and their keys"));
  table_->setColumnCount(3);
  table_->setHorizontalHeaderLabels({tr("Where"), tr("Action"), tr("Key")});
  table_->verticalHeader()->hide();
  table_->setEditTriggers(QAbstractItemView::NoEditTriggers);
  table_->setTabKeyNavigation(false);
  table_->horizontalHeader()->setStretchLastSection(true);
}

void ShortcutPage::set_groups(const std::vector<ActionGroup>& groups) {
  table_->setRowCount(0);
  const auto add = [this](const QString& where, const QString& what, const QString& key) {
    const int row = table_->rowCount();
    table_->insertRow(row);
    table_->setItem(row, 0, new QTableWidgetItem(where));
    table_->setItem(row, 1, new QTableWidgetItem(what));
    table_->setItem(row, 2, new QTableWidgetItem(key));
  };
  for (const ActionGroup& group : groups)
    for (const QAction* action : group.actions)
      if (action != nullptr)
        add(group.title, action->text(), action->shortcut().toString(QKeySequence::NativeText));
  const QString photo = tr("In the photo");
  add(photo, tr("Move the view"), tr("arrow keys"));
  add(photo, tr("Move the crosshair"), tr("Ctrl + arrow keys"));
  add(photo, tr("Use the tool at the crosshair"), tr("Enter"));
  add(photo, tr("Close a polygon"), tr("Shift + Enter"));
  add(photo, tr("Move the chosen region by 0.5 mm"), tr("Shift + arrow keys"));
  add(photo, tr("Reshape the chosen region by 5 %"), tr("Alt + arrow keys"));
  add(photo, tr("Leave the tool"), tr("Esc"));
  table_->resizeColumnsToContents();
}

}  // namespace tintfall::viewer
