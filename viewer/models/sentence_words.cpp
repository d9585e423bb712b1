#include <QCoreApplication>
#include <QRegularExpression>
#include <QStringList>
#include <viewer/models/sentence_words.hpp>
#include <viewer/settings/figures.hpp>

namespace tintfall::viewer {

QString sentence_words(const QString& sentence) {
  // Digits inside a word are part of it: those of ΔE00.
  static const QRegularExpression number(QStringLiteral("-?\\b\\d+(\\.\\d+)?"));
  QString pattern;
  QStringList numbers;
  qsizetype from = 0;
  for (auto found = number.globalMatch(sentence); found.hasNext();) {
    const auto match = found.next();
    numbers.push_back(with_figures(match.captured()));
    pattern +=
        sentence.mid(from, match.capturedStart() - from) + QLatin1Char('%') + QString::number(numbers.size());
    from = match.capturedEnd();
  }
  pattern += sentence.mid(from);
  QString words = QCoreApplication::translate("colorlib", pattern.toUtf8().constData());
  for (const QString& each : numbers) words = words.arg(each);
  return words;
}

}  // namespace tintfall::viewer
