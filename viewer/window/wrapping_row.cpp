#include <QHBoxLayout>
#include <QLabel>
#include <QWidget>
#include <algorithm>
#include <viewer/window/wrapping_row.hpp>

namespace tintfall::viewer {

namespace {

constexpr int between_parts_px = 6, between_lines_px = 4;

bool grows(const QLayoutItem& item) { return item.expandingDirections() & Qt::Horizontal; }
/// Gaps and stretches call themselves empty, as what is hidden does.
bool is_seen(QLayoutItem& item) { return item.spacerItem() != nullptr || !item.isEmpty(); }

}  // namespace

WrappingRow::WrappingRow(QWidget* parent) : QLayout(parent) {
  setContentsMargins(0, 0, 0, 0);
  setSpacing(between_parts_px);
}

WrappingRow::~WrappingRow() = default;

void WrappingRow::add_together(std::initializer_list<QWidget*> widgets) {
  auto* together = new QHBoxLayout;
  together->setSpacing(between_parts_px);
  for (QWidget* each : widgets) {
    if (qobject_cast<QLabel*>(each) != nullptr)
      each->setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Preferred);  // room to spare is the field's
    together->addWidget(each);
  }
  addChildLayout(together);
  addItem(together);
}

void WrappingRow::add_gap(int px) { addItem(new QSpacerItem(px, 0, QSizePolicy::Fixed)); }
void WrappingRow::add_stretch() { addItem(new QSpacerItem(0, 0, QSizePolicy::Expanding)); }

void WrappingRow::addItem(QLayoutItem* item) {
  items_.emplace_back(item);
  invalidate();
}

QLayoutItem* WrappingRow::itemAt(int index) const {
  return index >= 0 && index < count() ? items_[static_cast<std::size_t>(index)].get() : nullptr;
}

QLayoutItem* WrappingRow::takeAt(int index) {
  if (index < 0 || index >= count()) return nullptr;
  QLayoutItem* taken = items_[static_cast<std::size_t>(index)].release();
  items_.erase(items_.begin() + index);
  invalidate();
  return taken;
}

std::vector<WrappingRow::Line> WrappingRow::lines(int width) const {
  std::vector<Line> found(1);
  for (const auto& item : items_) {
    if (!is_seen(*item)) continue;
    const QSize wanted = item->sizeHint().expandedTo(item->minimumSize()).boundedTo(item->maximumSize());
    if (!found.back().items.empty() && found.back().width + spacing() + wanted.width() > width)
      found.emplace_back();
    Line& line = found.back();
    const bool first = line.items.empty();
    if (first && item->spacerItem() != nullptr && !grows(*item)) continue;  // no gap before a line
    line.width += wanted.width() + (first ? 0 : spacing());
    line.height = std::max(line.height, wanted.height());
    line.items.push_back(item.get());
  }
  return found;
}

int WrappingRow::heightForWidth(int width) const {
  const QMargins margins = contentsMargins();
  int height = margins.top() + margins.bottom() - between_lines_px;
  for (const Line& line : lines(width - margins.left() - margins.right()))
    height += line.height + between_lines_px;
  return height;
}

QSize WrappingRow::sizeHint() const {
  const Line line = lines(QWIDGETSIZE_MAX).front();
  return QSize(line.width, line.height).grownBy(contentsMargins());
}

QSize WrappingRow::minimumSize() const {
  QSize least;
  for (const auto& item : items_)
    if (is_seen(*item)) least = least.expandedTo(item->minimumSize());
  return least.grownBy(contentsMargins());
}

void WrappingRow::setGeometry(const QRect& area) {
  QLayout::setGeometry(area);
  const QRect inner = area.marginsRemoved(contentsMargins());
  int top = inner.top();
  for (const Line& line : lines(inner.width())) {
    place(line, inner.left(), top, inner.width());
    top += line.height + between_lines_px;
  }
}

void WrappingRow::place(const Line& line, int left, int top, int width) const {
  auto growing = std::count_if(line.items.begin(), line.items.end(), [](auto* item) { return grows(*item); });
  int spare = std::max(0, width - line.width);
  for (QLayoutItem* item : line.items) {
    QSize size = item->sizeHint().expandedTo(item->minimumSize()).boundedTo(item->maximumSize());
    if (grows(*item)) {
      const int most = std::max(size.width(), item->maximumSize().width());
      const int more = std::min(spare / static_cast<int>(growing--), most - size.width());
      size.rwidth() += more;
      spare -= more;
    }
    size.setWidth(std::min(size.width(), width));
    item->setGeometry(QRect(left, top + (line.height - size.height()) / 2, size.width(), size.height()));
    left += size.width() + spacing();
  }
}

}  // namespace tintfall::viewer
