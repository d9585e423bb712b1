#include <QEvent>
#include <QHeaderView>
#include <QTableView>
#include <algorithm>
#include <numeric>
#include <viewer/window/column_widths.hpp>

namespace tintfall::viewer {

namespace {

constexpr int least_px = 48, most_least_px = 64;  // a few letters and the dots; a short heading whole
constexpr int least_main_px = 150;                // a swatch and two words

}  // namespace

ColumnWidths::ColumnWidths(QTableView& table, int main, std::vector<int> yielding)
    : QObject(&table), table_(table), main_(main), yielding_(std::move(yielding)) {
  QHeaderView& header = *table.horizontalHeader();
  header.setStretchLastSection(false);
  header.setTextElideMode(Qt::ElideRight);
  header.setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
  header.setMinimumSectionSize(std::min(header.minimumSectionSize(), least_px));
  header.setSectionResizeMode(QHeaderView::Interactive);
  table.setTextElideMode(Qt::ElideRight);
  table.viewport()->installEventFilter(this);
  connect(table.model(), &QAbstractItemModel::modelReset, this, &ColumnWidths::share);
  connect(table.model(), &QAbstractItemModel::dataChanged, this, &ColumnWidths::share);
  share();
}

bool ColumnWidths::eventFilter(QObject* watched, QEvent* event) {
  if (event->type() == QEvent::Resize || event->type() == QEvent::FontChange) share();
  return QObject::eventFilter(watched, event);
}

void ColumnWidths::share() {
  const QHeaderView& header = *table_.horizontalHeader();
  const QAbstractItemView& cells = table_;
  std::vector<int> widths(static_cast<std::size_t>(header.count()));
  for (int column = 0; column < header.count(); ++column)
    if (!header.isSectionHidden(column))
      widths[static_cast<std::size_t>(column)] =
          std::max(cells.sizeHintForColumn(column), header.sectionSizeHint(column));
  int over = std::accumulate(widths.begin(), widths.end(), 0) - table_.viewport()->width();
  for (const int column : yielding_) {
    int& width = widths[static_cast<std::size_t>(column)];
    const int least =
        column == main_ ? least_main_px : std::clamp(header.sectionSizeHint(column), least_px, most_least_px);
    const int given = std::min(std::max(0, width - least), std::max(0, over));
    width -= given;
    over -= given;
  }
  if (over < 0) widths[static_cast<std::size_t>(main_)] -= over;
  for (int column = 0; column < header.count(); ++column)
    if (!header.isSectionHidden(column))
      table_.setColumnWidth(column, widths[static_cast<std::size_t>(column)]);
}

}  // namespace tintfall::viewer
