// Pictures of every screen, for the README and for looking at.
//
//   tintfall-screenshots FOLDER PHOTO REFERENCE light|dark [SUFFIX [RECORDS [SERIES [WIDTHxHEIGHT
//   [LANGUAGE]]]]]
//
// QT_SCALE_FACTOR=2 makes them at 200 %. LANGUAGE: en, de.
#include <QApplication>
#include <QDir>
#include <QFileInfo>
#include <QStackedWidget>
#include <QTabWidget>
#include <QTableView>
#include <cstdio>
#include <tests/scenes/scenario.hpp>
#include <tests/viewer/window/window_driver.hpp>
#include <viewer/window/appearance.hpp>
#include <viewer/window/catalogue_page.hpp>
#include <viewer/window/color_plane.hpp>
#include <viewer/window/compare_page.hpp>
#include <viewer/window/magnifier.hpp>
#include <viewer/window/series_page.hpp>
#include <viewer/window/window_language.hpp>

using namespace tintfall::viewer;

namespace {

class Camera {
 public:
  Camera(MainWindow& window, QString folder, QString suffix)
      : window_(window), folder_(std::move(folder)), suffix_(std::move(suffix)) {}
  void take(const QString& name) {
    QTest::qWait(150);
    PhotoPage& page = window_.photo_page();
    wait_until([&] {
      return page.view().complete() && !page.view().tiles().working() && !page.color_plane().lane().busy() &&
             !page.magnifier().lane().busy();
    });
    QTest::qWait(50);
    const QString file = QDir(folder_).filePath(name + suffix_ + QStringLiteral(".png"));
    if (!window_.grab().save(file)) std::fprintf(stderr, "%s could not be written\n", qPrintable(file));
  }

 private:
  MainWindow& window_;
  QString folder_, suffix_;
};

}  // namespace

int main(int argc, char** argv) {
  QApplication application(argc, argv);
  if (argc < 5) {
    std::fprintf(stderr,
                 "usage: tintfall-screenshots FOLDER PHOTO REFERENCE light|dark [SUFFIX [RECORDS [SERIES "
                 "[WIDTHxHEIGHT [LANGUAGE]]]]]\n");
    return 2;
  }
  const QStringList arguments = QApplication::arguments();
  const OwnHome home;
  QDir().mkpath(arguments[1]);
  apply_appearance(appearance_from(arguments[4]));
  const WindowLanguage language(arguments.value(9, QStringLiteral("en")),
                                QFileInfo(QStringLiteral(GERMAN_TRANSLATION)).absolutePath());
  MainWindow window;
  const QStringList size = arguments.value(8, QStringLiteral("1280x720")).split(QLatin1Char('x'));
  window.resize(size.value(0).toInt(), size.value(1).toInt());
  window.show();
  Camera camera(window, arguments[1],
                QStringLiteral("-") + arguments[4] +
                    (argc > 5 && !arguments[5].isEmpty() ? QStringLiteral("-") + arguments[5] : QString()));
  camera.take(QStringLiteral("guide"));
  if (!open_and_read(window, arguments[2], arguments[3])) {
    std::fprintf(stderr, "the photo was not read\n");
    return 1;
  }
  PhotoPage& page = window.photo_page();
  PhotoView& view = page.view();
  QTest::mouseMove(&view, QPoint(view.width() / 2, view.height() / 2));
  view.setFocus();
  QTest::qWait(300);
  camera.take(QStringLiteral("photo"));
  page.tabs().setCurrentIndex(1);
  view.set_rendering(colorlib::PhotoRendering::calibrated);
  camera.take(QStringLiteral("diagram"));
  page.tabs().setCurrentIndex(2);
  for (QAction* action : page.actions())
    if (action->text() == QObject::tr("Difference from the reading") ||
        action->shortcut() == QKeySequence(QStringLiteral("Ctrl+3")))
      action->trigger();
  camera.take(QStringLiteral("difference"));
  page.tabs().setCurrentIndex(3);
  view.set_corner_handles(true);
  view.set_rendering(colorlib::PhotoRendering::as_taken);
  camera.take(QStringLiteral("corners"));
  view.set_corner_handles(false);
  if (argc > 6) {
    ComparePage& compare = window.compare_page();
    window.show_page(QStringLiteral("compare"));
    const QDir records(arguments[6]);
    QStringList files;
    for (const QString& name : records.entryList({QStringLiteral("QH-03-*.json")}))
      files.push_back(records.filePath(name));
    compare.add_files(files);
    wait_until([&] { return compare.outcome() && compare.outcome()->readings.size() >= 2; });
    camera.take(QStringLiteral("compare"));
    compare.tabs().setCurrentIndex(2);
    camera.take(QStringLiteral("bias"));
  }
  if (argc > 7) {
    SeriesPage& series = window.series_page();
    window.show_page(QStringLiteral("reaction"));
    const QDir photos(arguments[7]);
    QStringList files;
    for (const QString& name : photos.entryList({QStringLiteral("*.jpg")}))
      files.push_back(photos.filePath(name));
    const auto regions = colorlib::read_regions(
        std::filesystem::path(photos.filePath(QStringLiteral("regions.json")).toStdString()));
    series.add_photos(files);
    if (regions) series.use_regions(*regions, QStringLiteral("regions.json"));
    series.read();
    wait_until([&] { return series.outcome() != nullptr && !series.lane().busy(); }, 300'000);
    camera.take(QStringLiteral("reaction"));
  }
  if (argc > 6) {
    CataloguePage& catalogue = window.catalogue_page();
    Preferences().catalogue.set(home.path(QStringLiteral("catalogue.db")));
    window.show_page(QStringLiteral("catalogue"));
    const auto settled = [&] { wait_until([&] { return !catalogue.busy(); }); };
    const QDir records(arguments[6]);
    QStringList files;
    for (const QString& name : records.entryList({QStringLiteral("*.json")}))
      files.push_back(records.filePath(name));
    catalogue.add_files(files);
    settled();
    catalogue.choose(QStringLiteral("QH-03"));
    settled();
    const auto& item = colorlib::scenes::scenario_item("QH-03");  // invented, as everything of the scenario
    for (const auto& [name, value] : {std::pair{"collector", QStringLiteral("V")},
                                      {"collected", QStringLiteral("2031-10-04")},
                                      {"working_name", QString::fromStdString(item.taxon)},
                                      {"tissue", QStringLiteral("cap, for its deposit")}})
      catalogue.fields().setData(
          catalogue.fields().index(catalogue.fields().row_of(QLatin1String(name)), FieldModel::value), value);
    settled();
    catalogue.look_like_the_reading();
    settled();
    catalogue.hit_table().selectRow(0);
    settled();
    camera.take(QStringLiteral("catalogue"));
    catalogue.details().setCurrentIndex(1);
    camera.take(QStringLiteral("place"));
    catalogue.details().setCurrentIndex(2);
    catalogue.any_color();
    settled();
    catalogue.lists().setCurrentIndex(1);
    camera.take(QStringLiteral("collections"));
    catalogue.show_report();
    settled();
    camera.take(QStringLiteral("report"));
  }
  for (const char* name : {"settings", "keys"}) {
    window.show_page(QLatin1String(name));
    camera.take(QLatin1String(name));
  }
  TaskLane::wait_for_all();
  return 0;
}
