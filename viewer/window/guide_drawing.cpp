#include <QCoreApplication>
#include <QFile>
#include <QSvgRenderer>
#include <QSvgWidget>
#include <cmath>
#include <viewer/window/guide_drawing.hpp>

/// The drawings are linked into a static library, whose resources nobody else would ask for.
static void load_drawings() { Q_INIT_RESOURCE(window_files); }

namespace tintfall::viewer {
namespace {

constexpr double width_px = 500, least_share = 0.6;

constexpr const char* written[] = {
    QT_TRANSLATE_NOOP("Drawing", "window"),
    QT_TRANSLATE_NOOP("Drawing", "white card"),
    QT_TRANSLATE_NOOP("Drawing", "or window"),
    QT_TRANSLATE_NOOP("Drawing", "phone, 30 to 40 cm up"),
    QT_TRANSLATE_NOOP("Drawing", "the sheet with the specimen in its opening"),
    QT_TRANSLATE_NOOP("Drawing", "window, no direct sun"),
    QT_TRANSLATE_NOOP("Drawing", "white card or paper"),
    QT_TRANSLATE_NOOP("Drawing", "sends light back"),
    QT_TRANSLATE_NOOP("Drawing", "stand here, with plain dark sleeves"),
    QT_TRANSLATE_NOOP("Drawing", "not between the two"),
    QT_TRANSLATE_NOOP("Drawing", "parallel, the whole sheet in the frame"),
    QT_TRANSLATE_NOOP("Drawing", "up to 30°"),
    QT_TRANSLATE_NOOP("Drawing", "is read"),
    QT_TRANSLATE_NOOP("Drawing", "tilted: gloss and blur creep in"),
    QT_TRANSLATE_NOOP("Drawing", "flat: fixed to a stiff board"),
    QT_TRANSLATE_NOOP("Drawing", "a sag of 5 mm is noticed"),
    QT_TRANSLATE_NOOP("Drawing", "curled: edges and middle get other light"),
    QT_TRANSLATE_NOOP("Drawing", "level: the sheet lies on the slip that"),
    QT_TRANSLATE_NOOP("Drawing", "carries the deposit"),
    QT_TRANSLATE_NOOP("Drawing", "height"),
    QT_TRANSLATE_NOOP("Drawing", "above: brightness is less certain;"),
    QT_TRANSLATE_NOOP("Drawing", "raise the sheet or say the height"),
};

}  // namespace

QStringList guide_drawings() {
  return {QStringLiteral("sheet_flat"), QStringLiteral("specimen_in_plane"),
          QStringLiteral("light_from_two_sides"), QStringLiteral("no_shadow"),
          QStringLiteral("phone_parallel")};
}

QByteArray in_words_of_the_window(QByteArray svg) {
  for (const char* words : written)
    svg.replace(
        QByteArray(">") + words + "</text>",
        QByteArray(">") + QCoreApplication::translate("Drawing", words).toHtmlEscaped().toUtf8() + "</text>");
  return svg;
}

QWidget* guide_drawing(const QString& name) {
  load_drawings();
  QFile file(QStringLiteral(":/guide/%1.svg").arg(name));
  auto* drawing = new QSvgWidget;
  if (file.open(QIODevice::ReadOnly)) drawing->load(in_words_of_the_window(file.readAll()));
  drawing->renderer()->setAspectRatioMode(Qt::KeepAspectRatio);
  const QRectF box = drawing->renderer()->viewBoxF();
  const int height_px = static_cast<int>(std::lround(width_px * box.height() / std::max(1.0, box.width())));
  drawing->setMinimumSize(static_cast<int>(least_share * width_px),
                          static_cast<int>(least_share * height_px));
  drawing->setMaximumHeight(height_px);
  drawing->setAutoFillBackground(true);
  drawing->setPalette(QPalette(QColor(245, 245, 242)));
  return drawing;
}

}  // namespace tintfall::viewer
