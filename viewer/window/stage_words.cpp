#include <QCoreApplication>
#include <QRegularExpression>
#include <QStringList>
#include <viewer/window/stage_words.hpp>

namespace tintfall::viewer {

QString stage_words(const QString& stage) {
  static const QRegularExpression number(QStringLiteral("\\d+"));
  QString pattern;
  QStringList numbers;
  qsizetype from = 0;
  for (auto found = number.globalMatch(stage); found.hasNext();) {
    const auto match = found.next();
    numbers.push_back(match.captured());
    pattern +=
        stage.mid(from, match.capturedStart() - from) + QLatin1Char('%') + QString::number(numbers.size());
    from = match.capturedEnd();
  }
  pattern += stage.mid(from);
  QString words = QCoreApplication::translate("colorlib", pattern.toUtf8().constData());
  for (const QString& each : numbers) words = words.arg(each);
  return words;
}

}  // namespace tintfall::viewer
