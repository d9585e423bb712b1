#include <QCoreApplication>
#include <QLibraryInfo>
#include <viewer/window/window_language.hpp>

namespace tintfall::viewer {

WindowLanguage::WindowLanguage(const QString& wanted, const QString& folder) {
  const QLocale locale = wanted.isEmpty() ? QLocale::system() : QLocale(wanted);
  if (!own_.load(locale, QStringLiteral("tintfall"), QStringLiteral("_"), folder)) {
    QLocale::setDefault(locale.language() == QLocale::English ? locale : QLocale(QLocale::English));
    return;
  }
  QLocale::setDefault(locale);
  QCoreApplication::installTranslator(&own_);
  if (qts_.load(locale, QStringLiteral("qtbase"), QStringLiteral("_"),
                QLibraryInfo::path(QLibraryInfo::TranslationsPath)))
    QCoreApplication::installTranslator(&qts_);
}

WindowLanguage::~WindowLanguage() { QLocale::setDefault(before_); }

}  // namespace tintfall::viewer
