#pragma once
/// The pages of a report as they will be printed.

#include <QImage>
#include <QScrollArea>
#include <vector>

namespace tintfall::viewer {

class PageColumn;

class ReportPreview : public QScrollArea {
  Q_OBJECT
 public:
  explicit ReportPreview(QWidget* parent = nullptr);
  void set_pages(std::vector<QImage> pages);
  int page_count() const;

 private:
  PageColumn* column_;
};

}  // namespace tintfall::viewer
