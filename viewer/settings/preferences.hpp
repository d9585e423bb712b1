#pragma once
/// What the user prefers, and, apart from it, what the last session looked like.

#include <QByteArray>
#include <QStringList>
#include <viewer/settings/setting_value.hpp>

namespace tintfall::viewer {

/// Stays until the user changes it.
struct Preferences {
  SettingValue<QString> language{"preferences/language", QString()};  ///< "en", "de"; empty: the system's
  SettingValue<QString> appearance{"preferences/appearance",
                                   QString()};  ///< "light", "dark"; empty: the system's
  SettingValue<QString> screen_profile{"preferences/screen_profile", QString()};  ///< ICC file; empty: sRGB
  SettingValue<QString> chart{"preferences/chart", QString()};                    ///< empty: the markers tell
  SettingValue<QString> reference{"preferences/reference", QString()};            ///< of new photos
  SettingValue<QString> sheet{"preferences/sheet", QString()};
  SettingValue<QString> collector{"preferences/collector", QString()};  ///< put into new records
  SettingValue<QString> catalogue{"preferences/catalogue",
                                  QString()};  ///< file or server; empty: the usual one
  SettingValue<double> difference_full{"preferences/difference_full",
                                       10.0};  ///< dE00 at the scale's pale end
  SettingValue<double> grow_tolerance{"preferences/grow_tolerance", 5.0};
};

/// Renewed by the program itself.
struct LastSession {
  static constexpr qsizetype most_recent = 12;

  SettingValue<QByteArray> geometry{"session/geometry", QByteArray()};
  SettingValue<QByteArray> columns{"session/columns", QByteArray()};
  SettingValue<QStringList> recent{"session/recent", QStringList()};
  SettingValue<QString> open_file{"session/open_file", QString()};
  SettingValue<bool> guide_seen{"session/guide_seen", false};

  /// Moves `file` to the front of the list.
  void remember(const QString& file) const;
};

}  // namespace tintfall::viewer
