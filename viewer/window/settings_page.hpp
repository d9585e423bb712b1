#pragma once
/// What the user prefers. Every change holds at once.

#include <QWidget>
#include <viewer/settings/preferences.hpp>

namespace tintfall::viewer {

class SettingsPage : public QWidget {
  Q_OBJECT
 public:
  explicit SettingsPage(QWidget* parent = nullptr);

 signals:
  void screen_changed();

 private:
  Preferences preferences_;
};

}  // namespace tintfall::viewer
