#pragma once
/// One setting: its key and its default side by side, typed.

#include <QSettings>
#include <QString>
#include <QVariant>

namespace tintfall::viewer {

template <class T>
class SettingValue {
 public:
  SettingValue(const char* key, T standard) : key_(QLatin1String(key)), standard_(std::move(standard)) {}
  T get() const {
    const QVariant value = QSettings().value(key_);
    return value.isValid() && value.canConvert<T>() ? value.value<T>() : standard_;
  }
  void set(const T& value) const { QSettings().setValue(key_, QVariant::fromValue(value)); }

 private:
  QString key_;
  T standard_;
};

}  // namespace tintfall::viewer
