#include <QCoreApplication>
#include <QRegularExpression>
#include <optional>
#include <viewer/models/catalogue_models.hpp>
#include <viewer/models/remark_words.hpp>
#include <viewer/models/sentence_words.hpp>

namespace tintfall::viewer {

namespace {

/// A sentence with one text in it that stays as it is: `around`, with %1 in its place, translated.
std::optional<QString> around_a_text(const QString& sentence, const char* around) {
  const QString pattern = QString::fromUtf8(around);
  const qsizetype place = pattern.indexOf(QLatin1String("%1"));
  const QString before = pattern.left(place), after = pattern.mid(place + 2);
  if (sentence.size() < before.size() + after.size() || !sentence.startsWith(before) ||
      !sentence.endsWith(after))
    return std::nullopt;
  const QString text = sentence.mid(place, sentence.size() - before.size() - after.size());
  return QCoreApplication::translate("colorlib", around).replace(QLatin1String("%1"), text);
}

}  // namespace

QString remark_words(const QString& remark) {
  for (const char* around :
       {QT_TRANSLATE_NOOP("colorlib", "It was refused: %1"),
        QT_TRANSLATE_NOOP("colorlib", "It is the reading of %1 once more (same photo, same numbers).")})
    if (const auto words = around_a_text(remark, around)) return *words;
  // The one remark with several names in it, which may hold anything, figures too.
  static const QRegularExpression mixed(
      QStringLiteral("^Item (.+) mixes readings of different (tissue|state|surface): (.+)\\.$"));
  const auto found = mixed.match(remark);
  if (!found.hasMatch()) return sentence_words(remark);
  const char* pattern = QT_TRANSLATE_NOOP("colorlib", "Item %1 mixes readings of different %2: %3.");
  const QString words = QCoreApplication::translate("colorlib", pattern);
  return words == QLatin1String(pattern)
             ? remark
             : words.arg(found.captured(1), field_word(found.captured(2)), found.captured(3));
}

}  // namespace tintfall::viewer
