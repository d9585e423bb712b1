#include <QCoreApplication>
#include <QRegularExpression>
#include <viewer/models/catalogue_models.hpp>
#include <viewer/models/remark_words.hpp>
#include <viewer/models/sentence_words.hpp>

namespace tintfall::viewer {

QString remark_words(const QString& remark) {
  // The one remark with names in it, which may hold anything, figures too.
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
