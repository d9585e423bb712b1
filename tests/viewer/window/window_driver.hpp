#pragma once
/// Driving the window in a test: a home of its own, and waiting for what runs in the background.

#include <QSignalSpy>
#include <QStandardPaths>
#include <QTemporaryDir>
#include <QTest>
#include <functional>
#include <viewer/window/main_window.hpp>
#include <viewer/window/photo_page.hpp>

namespace tintfall::viewer {

/// Settings, recovery files and the list of sheets go into a folder that is thrown away.
class OwnHome {
 public:
  OwnHome();
  QString path(const QString& name) const { return folder_.filePath(name); }

 private:
  QTemporaryDir folder_;
};

/// A demo photo of the invented scenario, rendered once a test program, with its measured values beside it.
struct DemoPhoto {
  QString photo, reference;
};
DemoPhoto demo_photo(const OwnHome& home, const char* item = "QH-03");

/// Runs the event loop until `done` or the time is up.
bool wait_until(const std::function<bool()>& done, int timeout_ms = 60'000);
/// Opens a photo and waits until its regions are read and its tiles drawn.
bool open_and_read(MainWindow& window, const QString& photo, const QString& reference);

/// Draws a control, the longest word among the kinds, and waits until it is read.
bool add_control(PhotoPage& page);

}  // namespace tintfall::viewer
