#include <QApplication>
#include <QDir>
#include <QElapsedTimer>
#include <QFile>
#include <QSettings>
#include <colorlib/chart/chart_definition.hpp>
#include <tests/scenes/scenario.hpp>
#include <tests/scenes/scene_picture.hpp>
#include <tests/viewer/window/window_driver.hpp>
#include <viewer/document/document_commands.hpp>

namespace tintfall::viewer {

OwnHome::OwnHome() {
  for (const char* name : {"HOME", "XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_CACHE_HOME"})
    qputenv(name, folder_.path().toUtf8());
  QSettings::setPath(QSettings::NativeFormat, QSettings::UserScope, folder_.path());
  QApplication::setOrganizationName(QStringLiteral("tintfall"));
  QApplication::setApplicationName(QStringLiteral("tintfall-viewer"));
}

DemoPhoto demo_photo(const OwnHome& home, const char* item) {
  const DemoPhoto demo{home.path(QStringLiteral("%1.jpg").arg(item)),
                       home.path(QStringLiteral("%1.txt").arg(item))};
  if (QFile::exists(demo.photo)) return demo;
  const auto chart = colorlib::find_chart("frame-a5");
  auto settings = colorlib::scenes::scenario_scene(colorlib::scenes::scenario_item(item),
                                                   colorlib::scenes::Condition::daylight_phone, 1, *chart);
  colorlib::scenes::set_picture_width(settings, 1600);
  const auto scene = colorlib::scenes::render(settings, *chart);
  const auto write = [](const QString& name, const std::string& bytes) {
    QFile file(name);
    if (file.open(QIODevice::WriteOnly)) file.write(bytes.data(), static_cast<qint64>(bytes.size()));
  };
  write(demo.photo, scene.jpeg_bytes);
  write(demo.reference, colorlib::scenes::reference_text(scene, *chart));
  return demo;
}

bool wait_until(const std::function<bool()>& done, int timeout_ms) {
  QElapsedTimer clock;
  clock.start();
  while (!done()) {
    if (clock.elapsed() > timeout_ms) return false;
    QApplication::processEvents(QEventLoop::AllEvents | QEventLoop::WaitForMoreEvents, 20);
    QTest::qWait(2);
  }
  return true;
}

bool open_and_read(MainWindow& window, const QString& photo, const QString& reference) {
  Preferences().reference.set(reference);
  window.open(photo);
  PhotoDocument& document = window.photo_page().document();
  return wait_until([&] { return document.readings_are_current() && !document.readings().empty(); }) &&
         wait_until([&] {
           return window.photo_page().view().complete() && !window.photo_page().view().tiles().working();
         });
}

bool add_control(PhotoPage& page) {
  colorlib::Region region;
  region.kind = colorlib::RegionKind::control;
  region.shape = colorlib::EllipseShape{100, 65, 5, 5};
  add_region(page.document(), std::move(region));
  return wait_until([&] { return page.document().readings_are_current(); });
}

}  // namespace tintfall::viewer
