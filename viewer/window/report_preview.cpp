#include <QPainter>
#include <viewer/window/report_preview.hpp>

namespace tintfall::viewer {

namespace {

constexpr int gap_px = 14, widest_px = 620;

}  // namespace

class PageColumn : public QWidget {
 public:
  void set_pages(std::vector<QImage> pages) {
    pages_ = std::move(pages);
    place();
    update();
  }
  int page_count() const { return static_cast<int>(pages_.size()); }

 protected:
  void resizeEvent(QResizeEvent*) override { place(); }
  void paintEvent(QPaintEvent*) override {
    QPainter painter(this);
    painter.setRenderHint(QPainter::SmoothPixmapTransform);
    int top = gap_px;
    for (const QImage& page : pages_) {
      const QRect sheet((width() - page_width()) / 2, top, page_width(), height_of(page));
      painter.drawImage(sheet, page);
      painter.setPen(palette().color(QPalette::Shadow));
      painter.drawRect(sheet.adjusted(0, 0, -1, -1));
      top += sheet.height() + gap_px;
    }
  }

 private:
  int page_width() const { return std::min(widest_px, std::max(120, width() - 2 * gap_px)); }
  int height_of(const QImage& page) const {
    return page.isNull() ? 0 : page_width() * page.height() / page.width();
  }
  void place() {
    int height = gap_px;
    for (const QImage& page : pages_) height += height_of(page) + gap_px;
    if (minimumHeight() != height) setMinimumHeight(height);
  }

  std::vector<QImage> pages_;
};

ReportPreview::ReportPreview(QWidget* parent) : QScrollArea(parent), column_(new PageColumn) {
  setAccessibleName(tr("Pages of the report"));
  column_->setAccessibleName(tr("Pages of the report"));
  setWidget(column_);
  setWidgetResizable(true);
  setFrameShape(QFrame::NoFrame);
  setFocusPolicy(Qt::StrongFocus);
}

void ReportPreview::set_pages(std::vector<QImage> pages) {
  const int count = static_cast<int>(pages.size());
  column_->set_pages(std::move(pages));
  column_->setAccessibleDescription(tr("%1 page(s)").arg(count));
}

int ReportPreview::page_count() const { return column_->page_count(); }

}  // namespace tintfall::viewer
