#include <QLocale>
#include <QRegularExpression>
#include <viewer/settings/figures.hpp>

namespace tintfall::viewer {

namespace {

QLocale ungrouped() {
  QLocale locale;
  locale.setNumberOptions(QLocale::OmitGroupSeparator);
  return locale;
}

}  // namespace

QString figure(double value, int decimals) { return ungrouped().toString(value, 'f', decimals); }

QString short_figure(double value, int digits) { return ungrouped().toString(value, 'g', digits); }

QString count_figure(qint64 count) { return QLocale().toString(count); }

QString with_figures(QString sentence) {
  static const QRegularExpression decimal_point(QStringLiteral("(?<![\\w.])(\\d+)\\.(\\d+)(?![\\w]|\\.\\w)"));
  const QString point = QLocale().decimalPoint();
  return point == QLatin1String(".") ? sentence
                                     : sentence.replace(decimal_point, QStringLiteral("\\1%1\\2").arg(point));
}

}  // namespace tintfall::viewer
