#pragma once
/// The language of the window: its words, Qt's own, and how figures are written.

#include <QLocale>
#include <QString>
#include <QTranslator>

namespace tintfall::viewer {

/// In force while this lives. `wanted`: "de", "en"; empty: the system's. Where there is no translation the
/// window speaks English, figures included.
class WindowLanguage {
 public:
  explicit WindowLanguage(const QString& wanted, const QString& folder = QStringLiteral(":/translations"));
  ~WindowLanguage();
  WindowLanguage(const WindowLanguage&) = delete;
  WindowLanguage& operator=(const WindowLanguage&) = delete;

 private:
  QTranslator own_, qts_;
  QLocale before_;
};

}  // namespace tintfall::viewer
