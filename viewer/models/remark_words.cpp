#include <QCoreApplication>
#include <QRegularExpression>
#include <optional>
#include <viewer/models/catalogue_models.hpp>
#include <viewer/models/remark_words.hpp>
#include <viewer/models/sentence_words.hpp>
#include <viewer/settings/figures.hpp>

namespace tintfall::viewer {

namespace {

/// A sentence with texts in it that stay as they are: `around`, with %1, %2 and so on in their places,
/// translated. A figure among them is written in the user's way.
std::optional<QString> around_texts(const QString& sentence, const char* around) {
  static const QRegularExpression escaped_place(QStringLiteral("\\\\%\\d"));
  QString pattern = QRegularExpression::escape(QString::fromUtf8(around));
  pattern.replace(escaped_place, QStringLiteral("(.*)"));
  const auto found = QRegularExpression(QRegularExpression::anchoredPattern(pattern),
                                        QRegularExpression::DotMatchesEverythingOption |
                                            QRegularExpression::UseUnicodePropertiesOption)
                         .match(sentence);
  if (!found.hasMatch()) return std::nullopt;
  static const QRegularExpression figure_alone(QStringLiteral("^\\d+\\.\\d+$"));
  static const QRegularExpression place(QStringLiteral("%(\\d)"));
  const QString words = QCoreApplication::translate("colorlib", around);
  QString said;
  qsizetype from = 0;
  for (auto each = place.globalMatch(words); each.hasNext();) {
    const auto match = each.next();
    const QString text = found.captured(match.captured(1).toInt());
    said += words.mid(from, match.capturedStart() - from) +
            (figure_alone.match(text).hasMatch() ? with_figures(text) : text);
    from = match.capturedEnd();
  }
  return said + words.mid(from);
}

}  // namespace

QString remark_words(const QString& remark) {
  for (const char* around :
       {QT_TRANSLATE_NOOP("colorlib", "It was refused: %1"),
        QT_TRANSLATE_NOOP("colorlib", "It is the reading of %1 once more (same photo, same numbers)."),
        QT_TRANSLATE_NOOP("colorlib", "%1 stands out from all others and was left out."),
        QT_TRANSLATE_NOOP(
            "colorlib",
            "%1 stands out: its control %2 lies ΔE00 %3 from where the other photos have it, as "
            "another specimen or place would; it was left out."),
        QT_TRANSLATE_NOOP("colorlib", "Control %1 has no reading in any frame and was left out.")})
    if (const auto words = around_texts(remark, around)) return *words;
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
