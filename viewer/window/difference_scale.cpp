#include <QDoubleSpinBox>
#include <QHBoxLayout>
#include <QPainter>
#include <viewer/settings/figures.hpp>
#include <viewer/settings/preferences.hpp>
#include <viewer/tasks/diagram_jobs.hpp>
#include <viewer/window/difference_scale.hpp>
#include <viewer/window/neutral_ground.hpp>
#include <viewer/window/photo_view.hpp>

namespace tintfall::viewer {

namespace {

constexpr int shades = 64, spin_width = 150;

}  // namespace

DifferenceScale::DifferenceScale(PhotoView& view, QWidget* parent)
    : QWidget(parent), view_(view), lane_(QStringLiteral("scale")) {
  setFixedHeight(40);
  setAccessibleName(tr("Scale of the difference picture"));
  auto* full = new QDoubleSpinBox;
  full->setRange(1, 100);
  full->setDecimals(0);
  full->setPrefix(tr("to ΔE00 "));
  full->setAccessibleName(tr("Difference at the pale end of the scale"));
  full->setValue(Preferences().difference_full.get());
  full->setFixedWidth(spin_width);
  view_.set_difference_full(full->value());
  connect(full, &QDoubleSpinBox::valueChanged, this, [this](double de00) {
    Preferences().difference_full.set(de00);
    view_.set_difference_full(de00);
    update();
  });
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(4, 2, 6, 2);
  row->addStretch(1);
  row->addWidget(full);
  lane_.start([](colorlib::Progress&) { return difference_shades(shades); },
              [this](const QList<QRgb>& ramp) {
                shades_ = ramp;
                update();
              });
}

void DifferenceScale::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.fillRect(rect(), neutral_ground());
  const QRect bar(32, 6, width() - spin_width - 70, 12);
  for (qsizetype i = 0; i < shades_.size(); ++i) {
    const int left = bar.left() + static_cast<int>(bar.width() * i / shades_.size());
    const int right = bar.left() + static_cast<int>(bar.width() * (i + 1) / shades_.size());
    painter.fillRect(QRect(left, bar.top(), right - left, bar.height()), QColor(shades_[i]));
  }
  painter.setPen(Qt::white);
  for (int i = 0; i <= 4; ++i) {
    const double de00 = view_.difference_full() * i / 4;
    const QString text = i == 4   ? QStringLiteral("≥ %1").arg(short_figure(de00))
                         : i == 0 ? tr("ΔE00 0")
                                  : short_figure(de00);
    painter.drawText(QRect(bar.left() + bar.width() * i / 4 - 30, bar.bottom() + 1, 60, 18), Qt::AlignHCenter,
                     text);
  }
}

}  // namespace tintfall::viewer
