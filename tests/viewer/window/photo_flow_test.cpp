// The way of one photo through the window, by real events.
#include <QApplication>
#include <QClipboard>
#include <QComboBox>
#include <QFile>
#include <QLabel>
#include <QSet>
#include <QTableView>
#include <QUndoStack>
#include <cmath>
#include <colorlib/base/data_folder.hpp>
#include <colorlib/image/decode.hpp>
#include <colorlib/records/record_json.hpp>
#include <colorlib/specimen/photo_reading.hpp>
#include <sstream>
#include <tests/viewer/window/window_driver.hpp>
#include <viewer/command/command_line.hpp>
#include <viewer/document/document_commands.hpp>
#include <viewer/tasks/sheet_jobs.hpp>
#include <viewer/window/label_boxes.hpp>
#include <viewer/window/magnifier.hpp>
#include <viewer/window/reading_panel.hpp>

namespace tintfall::viewer {

class PhotoFlowTest : public QObject {
  Q_OBJECT

 private:
  /// What `tintfall read` prints and writes for the same photo.
  struct CommandLine {
    QString text, json;
  };
  CommandLine command_line(const DemoPhoto& demo, const std::vector<std::string>& more = {}) {
    std::istringstream in;
    std::ostringstream out, err;
    Streams streams{in, out, err};
    const std::string json = home_.path(QStringLiteral("cli.json")).toStdString();
    QFile::remove(QString::fromStdString(json));
    std::vector<std::string> call{
        "read", demo.photo.toStdString(), "--reference", demo.reference.toStdString(), "--json", json};
    call.insert(call.end(), more.begin(), more.end());
    const int status = run_command_line(call, streams);
    if (status != 0) qWarning("%s", err.str().c_str());
    QFile file(QString::fromStdString(json));
    if (!file.open(QIODevice::ReadOnly)) return {};
    return {QString::fromStdString(out.str()), QString::fromUtf8(file.readAll())};
  }
  QAction* action(PhotoPage& page, const QString& text) {
    for (const ActionGroup& group : page.action_groups())
      for (QAction* each : group.actions)
        if (each != nullptr && each->text() == text) return each;
    return nullptr;
  }
  QPoint on_sheet(PhotoPage& page, double x_mm, double y_mm) {
    const auto px = page.document().sheet()->sheet.placement.px_from_mm({x_mm, y_mm});
    return page.view().widget_from_photo({px.x, px.y}).toPoint();
  }

  static colorlib::Region small_ellipse() {
    colorlib::Region region;
    region.id = "spot";
    region.kind = colorlib::RegionKind::spot;
    region.shape = colorlib::EllipseShape{100, 65, 5, 5};
    return region;
  }
  /// A place in a region, mm, that is no handle of it.
  static std::array<double, 2> inner_place(const colorlib::Region& region) {
    const auto [left, top, right, bottom] = region.bounds();
    for (double part = 0.5; part > 0.1; part -= 0.05)
      if (region.contains(left + part * (right - left), top + part * (bottom - top)))
        return {left + part * (right - left), top + part * (bottom - top)};
    return {left, top};
  }
  static int chosen_row(PhotoPage& page) {
    const auto tables = page.findChildren<QTableView*>();
    for (const QTableView* table : tables)
      if (table->model() == &page.region_model())
        return table->selectionModel()->selectedRows().value(0).row();
    return -2;
  }

  OwnHome home_;

 private slots:
  void reading_equals_the_command_line() {
    const DemoPhoto demo = demo_photo(home_);
    MainWindow window;
    window.show();
    QVERIFY(open_and_read(window, demo.photo, demo.reference));
    PhotoPage& page = window.photo_page();
    const CommandLine told = command_line(demo);
    // To the last printed digit: the line of the summary is on the panel.
    const QString line = page.reading_panel().lab_text();
    QVERIFY2(line.startsWith(QStringLiteral("L* ")), qPrintable(line));
    QVERIFY2(told.text.contains(line), qPrintable(line + QStringLiteral(" not in\n") + told.text));
    QVERIFY2(told.text.contains(page.reading_panel().name_text()),
             qPrintable(page.reading_panel().name_text()));
    // And the whole record.
    page.setFocus();
    action(page, QStringLiteral("Copy as JSON"))->trigger();
    QVERIFY(wait_until([&] { return QApplication::clipboard()->text() == told.json; }, 10'000));
    action(page, QStringLiteral("Copy as text"))->trigger();
    QVERIFY(wait_until([&] { return QApplication::clipboard()->text().contains(line); }, 10'000));
  }

  void a_view_that_moved_looks_as_if_painted_anew() {
    const DemoPhoto demo = demo_photo(home_);
    MainWindow window;
    window.resize(1280, 720);
    window.show();
    QVERIFY(open_and_read(window, demo.photo, demo.reference));
    PhotoView& view = window.photo_page().view();
    const auto at_rest = [&] {
      return wait_until([&] { return view.complete() && !view.tiles().working(); });
    };
    for (const double turned : {0., 17.}) {
      view.fit();
      view.rotate_by(turned);
      for (const double nearer : {1.9, 3.}) {
        view.zoom_by(nearer);
        for (const Qt::Key key : {Qt::Key_Right, Qt::Key_Down, Qt::Key_Down, Qt::Key_Left, Qt::Key_Up}) {
          QTest::keyClick(&view, key);
          view.repaint();  // while tiles are still on their way
        }
        QVERIFY(at_rest());
        const QImage moved = view.grab().toImage();
        view.set_rendering(colorlib::PhotoRendering::calibrated);
        view.set_rendering(colorlib::PhotoRendering::as_taken);
        view.repaint();  // asks for the tiles
        QVERIFY(at_rest());
        const QImage anew = view.grab().toImage();
        QCOMPARE(moved.size(), anew.size());
        int other = 0;
        for (int r = 0; r < anew.height(); ++r)
          for (int c = 0; c < anew.width(); ++c) {
            const QColor a = moved.pixelColor(c, r), b = anew.pixelColor(c, r);
            other += std::max({std::abs(a.red() - b.red()), std::abs(a.green() - b.green()),
                               std::abs(a.blue() - b.blue())}) > 3;
          }
        // Smoothing adds up along a row from where drawing began, which rounds otherwise; so do the edges of
        // turned tiles.
        const int most = turned == 0 ? 0 : moved.width() * moved.height() / 10'000;
        QVERIFY2(other <= most,
                 qPrintable(QStringLiteral("%1 pixels, turned %2, %3").arg(other).arg(turned).arg(nearer)));
      }
      view.rotate_by(-turned);
    }
  }

  void advice_follows_from_what_is_missing() {
    // With an unmeasured sheet no lamp shortens the longest bar.
    const ReadingGrounds all, unmeasured{false, true}, unsaid{true, false};
    const QString fit = QStringLiteral("lack-of-fit"), glint = QStringLiteral("glint");
    QVERIFY(budget_part_cure(fit, all).contains(QStringLiteral("lamps")));
    QVERIFY(!budget_part_cure(fit, all).contains(QStringLiteral("stated")));
    QVERIFY(budget_part_cure(fit, unmeasured).contains(QStringLiteral("measured values")));
    QVERIFY(!budget_part_cure(glint, unmeasured).contains(QStringLiteral("measured values")));
    // What nobody said costs one click, a better lamp more.
    QVERIFY(budget_part_cure(fit, unsaid).contains(QStringLiteral("light stated")));
    QVERIFY(budget_part_cure(fit, unsaid).contains(QStringLiteral("lamps")));
    QCOMPARE(budget_part_cure(glint, unsaid), budget_part_cure(glint, all));
  }

  void a_masstone_equals_the_command_line() {
    const DemoPhoto demo = demo_photo(home_);
    MainWindow window;
    window.show();
    QVERIFY(open_and_read(window, demo.photo, demo.reference));
    PhotoPage& page = window.photo_page();
    QVERIFY(page.reading_panel().layer_text().isEmpty());
    PhotoSetup setup = page.document().setup();
    setup.masstone = true;
    page.document().undo_stack().push(new SetupCommand(page.document(), QStringLiteral("masstones"), setup));
    QVERIFY(wait_until([&] {
      return page.document().readings_are_current() && !page.reading_panel().layer_text().isEmpty();
    }));
    const CommandLine told = command_line(demo, {"--masstone"});
    // Whatever the layer allows, both say the same: a colour to the last digit, or why there is none.
    const ShownReading* shown = page.current_reading();
    QVERIFY(shown != nullptr && shown->layer.has_value());
    const QString line = shown->layer->refused
                             ? shown->layer->problem
                             : page.reading_panel().layer_text().section(QLatin1Char('\n'), 1, 1);
    QVERIFY(page.reading_panel().layer_text().contains(line));
    QVERIFY2(QString(told.text).simplified().contains(line.simplified()),
             qPrintable(line + QStringLiteral(" not in\n") + told.text));
    action(page, QStringLiteral("Copy as JSON"))->trigger();
    QVERIFY(wait_until([&] { return QApplication::clipboard()->text() == told.json; }, 10'000));
    page.document().undo_stack().undo();
    QVERIFY(wait_until([&] {
      return page.document().readings_are_current() && page.reading_panel().layer_text().isEmpty();
    }));
  }

  void saying_the_light_equals_the_command_line() {
    const DemoPhoto demo = demo_photo(home_);
    MainWindow window;
    window.show();
    QVERIFY(open_and_read(window, demo.photo, demo.reference));
    PhotoPage& page = window.photo_page();
    const QString unsaid = page.reading_panel().lab_text();
    const auto* bars = page.reading_panel().findChild<BudgetBars*>();
    QVERIFY(bars->accessibleDescription().contains(QStringLiteral("light stated")));
    QVERIFY(bars->heightForWidth(150) > bars->heightForWidth(1500));  // advice is wrapped, not cut off
    QComboBox* light = nullptr;
    for (QComboBox* each : window.findChildren<QComboBox*>())
      if (each->accessibleName() == QStringLiteral("Light of the photo")) light = each;
    QVERIFY(light != nullptr);
    light->setCurrentIndex(light->findData(QStringLiteral("lamp")));
    emit light->activated(light->currentIndex());
    QVERIFY(wait_until(
        [&] { return page.document().readings_are_current() && page.reading_panel().lab_text() != unsaid; }));
    QVERIFY(!bars->accessibleDescription().contains(QStringLiteral("light stated")));
    const CommandLine told = command_line(demo, {"--light", "lamp"});
    QVERIFY2(told.text.contains(page.reading_panel().lab_text()),
             qPrintable(page.reading_panel().lab_text() + QStringLiteral(" not in\n") + told.text));
    page.setFocus();
    action(page, QStringLiteral("Copy as JSON"))->trigger();
    QVERIFY(wait_until([&] { return QApplication::clipboard()->text() == told.json; }, 10'000));
    page.document().undo_stack().undo();
    QVERIFY(wait_until(
        [&] { return page.document().readings_are_current() && page.reading_panel().lab_text() == unsaid; }));
    QCOMPARE(light->currentIndex(), 0);
  }

  void draws_reads_undoes_exports() {
    const DemoPhoto demo = demo_photo(home_);
    MainWindow window;
    window.show();
    QVERIFY(open_and_read(window, demo.photo, demo.reference));
    PhotoPage& page = window.photo_page();
    PhotoDocument& document = page.document();
    const auto found = document.regions().regions.items.size();
    QVERIFY(found >= 1);

    QTest::keyClick(&page.view(), Qt::Key_F3);
    QCOMPARE(page.view().tool(), DrawingTool::ellipse);
    QTest::mousePress(&page.view(), Qt::LeftButton, {}, on_sheet(page, 95, 60));
    QTest::mouseMove(&page.view(), on_sheet(page, 100, 65));
    QTest::mouseRelease(&page.view(), Qt::LeftButton, {}, on_sheet(page, 103, 68));
    QCOMPARE(document.regions().regions.items.size(), found + 1);
    const QString drawn = page.view().selected();
    QVERIFY(wait_until([&] { return document.readings_are_current(); }));
    const ShownReading* reading = document.reading_of(drawn);
    QVERIFY(reading != nullptr);
    QVERIFY(!reading->reading.refused);
    const auto first = reading->reading.lab;

    // Moved by the mouse: one step to undo, whatever the number of events.
    QTest::keyClick(&page.view(), Qt::Key_F2);
    const int steps = document.undo_stack().index();
    QTest::mousePress(&page.view(), Qt::LeftButton, {}, on_sheet(page, 99, 64));
    for (int mm = 1; mm <= 12; ++mm) QTest::mouseMove(&page.view(), on_sheet(page, 99 + mm, 64));
    QTest::mouseRelease(&page.view(), Qt::LeftButton, {}, on_sheet(page, 111, 64));
    QCOMPARE(document.undo_stack().index(), steps + 1);
    QVERIFY(wait_until([&] { return document.readings_are_current(); }));
    QVERIFY(document.reading_of(drawn)->reading.lab != first);
    QTest::keyClick(&page.view(), Qt::Key_Z, Qt::ControlModifier);
    QVERIFY(wait_until([&] { return document.readings_are_current(); }));
    QVERIFY(document.reading_of(drawn)->reading.lab == first);

    // By the keyboard alone: move, reshape, duplicate, kind, rename, remove, undo everything.
    page.view().setFocus();
    QTest::keyClick(&page.view(), Qt::Key_Right, Qt::ShiftModifier);
    QTest::keyClick(&page.view(), Qt::Key_Right, Qt::AltModifier);
    action(page, QStringLiteral("Duplicate"))->trigger();
    QCOMPARE(document.regions().regions.items.size(), found + 2);
    RegionModel& model = page.region_model();
    QVERIFY(model.setData(model.index(model.row_of(drawn), RegionModel::id), QStringLiteral("cap edge")));
    QVERIFY(model.row_of(QStringLiteral("cap edge")) >= 0);
    QCOMPARE(page.view().selected(), QStringLiteral("cap edge"));  // chosen under its new name, too
    action(page, QStringLiteral("Remove"))->trigger();
    QCOMPARE(document.regions().regions.items.size(), found + 1);
    while (document.undo_stack().canUndo()) document.undo_stack().undo();
    QCOMPARE(document.regions().regions.items.size(), found);
    while (document.undo_stack().canRedo()) document.undo_stack().redo();
    QCOMPARE(document.regions().regions.items.size(), found + 1);

    // Exported as a record that the library reads, text with cautions, a picture.
    QVERIFY(wait_until([&] { return document.readings_are_current(); }));
    const QString record = home_.path(QStringLiteral("out.json")),
                  text = home_.path(QStringLiteral("out.txt")),
                  picture = home_.path(QStringLiteral("out.png"));
    QSignalSpy exported(&document, &PhotoDocument::exported);
    for (const auto& [file, kind] :
         {std::pair{record, ExportKind::record}, {text, ExportKind::text}, {picture, ExportKind::picture}}) {
      document.export_to(file, kind);
      QVERIFY(exported.wait(20'000));
    }
    const auto parsed = colorlib::read_record(record.toStdString());
    QVERIFY(parsed);
    QCOMPARE(parsed->readings.size(), found + 1);
    QFile words(text);
    QVERIFY(words.open(QIODevice::ReadOnly) &&
            QString::fromUtf8(words.readAll()).contains(QStringLiteral("Caution")));
    QVERIFY(!QImage(picture).isNull());
  }

  void a_click_chooses_and_moves_nothing() {
    const DemoPhoto demo = demo_photo(home_);
    MainWindow window;
    window.show();
    QVERIFY(open_and_read(window, demo.photo, demo.reference));
    PhotoPage& page = window.photo_page();
    PhotoDocument& document = page.document();
    const QPoint shake(2, 1);
    add_region(document, small_ellipse());  // an edit, so that the work is no longer as it was saved
    QVERIFY(!document.undo_stack().isClean());
    const int steps = document.undo_stack().index();
    for (int time = 1; time <= 2; ++time) {  // not chosen yet, then chosen
      const QPoint at = on_sheet(page, 100, 65);
      QTest::mousePress(&page.view(), Qt::LeftButton, {}, at);
      QTest::mouseMove(&page.view(), at + shake);
      QTest::mouseRelease(&page.view(), Qt::LeftButton, {}, at + shake);
      QCOMPARE(page.view().selected(), QStringLiteral("spot"));
      QCOMPARE(document.undo_stack().index(), steps);
      QCOMPARE(on_sheet(page, 100, 65), at);
    }
    // One that has begun to move follows the pointer, back to where it was as well.
    const QPoint at = on_sheet(page, 100, 65), far = on_sheet(page, 110, 65);
    QTest::mousePress(&page.view(), Qt::LeftButton, {}, at);
    QTest::mouseMove(&page.view(), far);
    QCOMPARE(document.undo_stack().index(), steps + 1);
    QVERIFY(document.regions().regions.items.back().bounds()[0] > small_ellipse().bounds()[0] + 5);
    QTest::mouseMove(&page.view(), at);
    QTest::mouseRelease(&page.view(), Qt::LeftButton, {}, at);
    QVERIFY(std::abs(document.regions().regions.items.back().bounds()[0] - small_ellipse().bounds()[0]) <
            0.01);
  }

  void a_drag_moves_the_photo_until_a_region_is_chosen() {
    const DemoPhoto demo = demo_photo(home_);
    MainWindow window;
    window.show();
    QVERIFY(open_and_read(window, demo.photo, demo.reference));
    PhotoPage& page = window.photo_page();
    PhotoDocument& document = page.document();
    const auto inside = inner_place(document.regions().regions.items.front());
    const auto before = document.regions().regions.items.front().bounds();
    const auto drag = [&] {
      const QPoint from = on_sheet(page, inside[0], inside[1]);
      QTest::mousePress(&page.view(), Qt::LeftButton, {}, from);
      for (int step = 1; step <= 4; ++step) QTest::mouseMove(&page.view(), from + QPoint(10 * step, 0));
      QTest::mouseRelease(&page.view(), Qt::LeftButton, {}, from + QPoint(40, 0));
      return on_sheet(page, inside[0], inside[1]) - from;
    };
    QCOMPARE(
        page.view().selected(),
        QString::fromStdString(document.regions().regions.items.front().id));  // by itself: shown, not held
    QCOMPARE(drag(), QPoint(40, 0));
    QCOMPARE(document.undo_stack().index(), 0);
    QVERIFY(document.regions().regions.items.front().bounds() == before);
    QTest::mouseClick(&page.view(), Qt::LeftButton, {}, on_sheet(page, inside[0], inside[1]));
    QCOMPARE(document.undo_stack().index(), 0);
    QCOMPARE(drag(), QPoint(0, 0));
    QCOMPARE(document.undo_stack().index(), 1);
    QVERIFY(document.regions().regions.items.front().bounds()[0] > before[0]);
  }

  void labels_of_regions_on_one_spot_stay_apart() {
    const DemoPhoto demo = demo_photo(home_);
    MainWindow window;
    window.show();
    QVERIFY(open_and_read(window, demo.photo, demo.reference));
    PhotoPage& page = window.photo_page();
    for (const char* name : {"spot", "spot2", "spot3"}) {
      colorlib::Region region = small_ellipse();
      region.id = name;
      add_region(page.document(), std::move(region));
    }
    const auto labels = page.view().region_labels();
    QCOMPARE(labels.size(), page.document().regions().regions.items.size());
    QVERIFY(labels.back().text.startsWith(QStringLiteral("spot3")));
    for (std::size_t i = 0; i < labels.size(); ++i) {
      QVERIFY(!labels[i].box.isEmpty());
      for (std::size_t j = 0; j < i; ++j)
        QVERIFY2(!labels[i].box.intersects(labels[j].box), qPrintable(labels[i].text));
    }
    QVERIFY(labels.back().box.top() - labels[labels.size() - 3].box.top() < 60);  // near what they name
  }

  void labels_keep_off_one_another_and_off_every_region() {
    // A sheet with two grounds: on each a deposit, and the bare ground close beside it.
    const std::vector<LabelWanted> wanted{{{150, 150, 120, 120}, {130, 20}},
                                          {{150, 275, 120, 40}, {160, 20}},
                                          {{280, 150, 120, 120}, {130, 20}},
                                          {{280, 275, 120, 40}, {160, 20}}};
    const QRectF view(0, 0, 560, 460);
    const auto boxes = label_boxes(wanted, view);
    QCOMPARE(boxes.size(), wanted.size());
    for (std::size_t i = 0; i < boxes.size(); ++i) {
      QCOMPARE(boxes[i].size(), wanted[i].size);
      QVERIFY(view.contains(boxes[i]));
      for (const LabelWanted& each : wanted) QVERIFY(!boxes[i].intersects(each.region));
      for (std::size_t j = 0; j < i; ++j) QVERIFY(!boxes[i].intersects(boxes[j]));
      const QPointF way = boxes[i].center() - wanted[i].region.center();
      QVERIFY2(std::hypot(way.x(), way.y()) < 200, qPrintable(QString::number(i)));  // near what it names
    }
    // Far more regions on one spot than there are places: still apart.
    const auto crowd = label_boxes(std::vector<LabelWanted>(90, wanted.front()), view);
    for (std::size_t i = 0; i < crowd.size(); ++i)
      for (std::size_t j = 0; j < i; ++j) QVERIFY(!crowd[i].intersects(crowd[j]));
  }

  void draws_polygons_by_hand_and_grows() {
    const DemoPhoto demo = demo_photo(home_);
    MainWindow window;
    window.show();
    QVERIFY(open_and_read(window, demo.photo, demo.reference));
    PhotoPage& page = window.photo_page();
    PhotoDocument& document = page.document();
    const auto found = document.regions().regions.items.size();
    action(page, QStringLiteral("Polygon"))->trigger();
    for (const auto& corner : {std::pair{90.0, 60.0}, {110.0, 60.0}, {105.0, 72.0}})
      QTest::mouseClick(&page.view(), Qt::LeftButton, {}, on_sheet(page, corner.first, corner.second));
    QTest::keyClick(&page.view(), Qt::Key_Return, Qt::ShiftModifier);
    QCOMPARE(document.regions().regions.items.size(), found + 1);
    action(page, QStringLiteral("By hand"))->trigger();
    QTest::mousePress(&page.view(), Qt::LeftButton, {}, on_sheet(page, 100, 62));
    for (int i = 1; i < 20; ++i)
      QTest::mouseMove(&page.view(),
                       on_sheet(page, 100 + 8 * std::sin(0.33 * i), 70 - 8 * std::cos(0.33 * i)));
    QTest::mouseRelease(&page.view(), Qt::LeftButton, {}, on_sheet(page, 100, 62));
    QCOMPARE(document.regions().regions.items.size(), found + 2);
    action(page, QStringLiteral("Grow from here"))->trigger();
    const auto bounds = document.regions().regions.items.front().bounds();
    const auto& deposit = document.regions().regions.items.front();
    double x = (bounds[0] + bounds[2]) / 2, y = bounds[1] + (bounds[3] - bounds[1]) / 4;
    QVERIFY(deposit.contains(x, y));
    Preferences().grow_tolerance.set(12);
    QTest::mouseClick(&page.view(), Qt::LeftButton, {}, on_sheet(page, x, y));
    QVERIFY(wait_until([&] { return document.regions().regions.items.size() == found + 3; }));
    QVERIFY(document.regions().regions.items.back().contains(x, y));
    const QString grown = QString::fromStdString(document.regions().regions.items.back().id);
    QCOMPARE(page.view().selected(), grown);
    QCOMPARE(chosen_row(page), page.region_model().row_of(grown));
    QVERIFY(wait_until([&] { return document.readings_are_current(); }));
    for (const auto& each : document.readings()) QVERIFY2(!each.reading.refused, each.reading.id.c_str());

    // Regions survive a file.
    const QString file = home_.path(QStringLiteral("regions.json"));
    QSignalSpy exported(&document, &PhotoDocument::exported);
    document.save_regions(file);
    QVERIFY(exported.wait(10'000));
    action(page, QStringLiteral("Find specimens again"))->trigger();
    QVERIFY(wait_until([&] { return document.readings_are_current(); }));
    QCOMPARE(document.regions().regions.items.size(), found);
    document.load_regions(file);
    QVERIFY(wait_until([&] { return document.regions().regions.items.size() == found + 3; }));
  }

  void pointing_tells_colour_and_name() {
    const DemoPhoto demo = demo_photo(home_);
    MainWindow window;
    window.show();
    QVERIFY(open_and_read(window, demo.photo, demo.reference));
    PhotoPage& page = window.photo_page();
    QTest::mouseMove(&page.view(), on_sheet(page, 100, 63));
    QVERIFY(wait_until([&] { return page.magnifier().text().startsWith(QStringLiteral("L* ")); }, 10'000));
    QVERIFY(page.magnifier().text().contains(QStringLiteral("Munsell")));
  }

  void corners_by_hand_lead_to_the_same_colour() {
    const DemoPhoto demo = demo_photo(home_);
    MainWindow window;
    window.show();
    QVERIFY(open_and_read(window, demo.photo, demo.reference));
    PhotoPage& page = window.photo_page();
    PhotoDocument& document = page.document();
    const auto by_markers = document.readings().front().reading.lab;
    action(page, QStringLiteral("Place sheet by its corners"))->setChecked(true);
    const auto corner = document.sheet()->sheet.corners_px[0];
    const QPoint at = page.view().widget_from_photo({corner.x, corner.y}).toPoint();
    QTest::mousePress(&page.view(), Qt::LeftButton, {}, at);
    QTest::mouseMove(&page.view(), at + QPoint(1, 1));
    QTest::mouseRelease(&page.view(), Qt::LeftButton, {}, at + QPoint(1, 1));
    QVERIFY(document.setup().corners.has_value());
    QVERIFY(wait_until([&] {
      return document.readings_are_current() && document.sheet() &&
             document.sheet()->sheet.markers_found == 0;
    }));
    const auto by_hand = document.readings().front().reading.lab;
    // Patch edges pull the sheet into place again: far closer than the uncertainty of about 1.
    QVERIFY(std::abs(by_hand.l - by_markers.l) < 0.5 && std::abs(by_hand.a - by_markers.a) < 0.5 &&
            std::abs(by_hand.b - by_markers.b) < 0.5);
  }

  void wrong_files_become_issues() {
    MainWindow window;
    window.show();
    PhotoPage& page = window.photo_page();
    QFile nonsense(home_.path(QStringLiteral("no photo.jpg")));
    QVERIFY(nonsense.open(QIODevice::WriteOnly));
    nonsense.write("this is no photo");
    nonsense.close();
    page.open(nonsense.fileName());
    QVERIFY(wait_until([&] { return page.issue_model().rowCount() == 1; }, 10'000));
    QVERIFY(page.issue_model()
                .index(0, IssueModel::message)
                .data()
                .toString()
                .contains(QStringLiteral("no photo.jpg")));
    QVERIFY(QApplication::activeModalWidget() == nullptr);
    QImage blank(400, 300, QImage::Format_RGB32);
    blank.fill(Qt::gray);
    const QString no_sheet = home_.path(QStringLiteral("blank.png"));
    QVERIFY(blank.save(no_sheet));
    page.open(no_sheet);
    QVERIFY(
        wait_until([&] { return page.issue_model().rowCount() == 1 && page.document().photo(); }, 10'000));
    QCOMPARE(page.document().issues().front().code, QStringLiteral("chart-not-found"));
    QVERIFY(!page.document().issues().front().advice.isEmpty());
  }

  void a_label_longer_than_its_field_is_told() {
    DrawSheetParameters wanted;
    wanted.chart = QStringLiteral("frame-a5");
    wanted.print.label = "A5-03";
    const auto fits = write_sheet(home_.path(QStringLiteral("sheet.pdf")), wanted);
    QVERIFY(fits && !fits->label_shortened);
    wanted.print.label = "a label that says much more than the sheet has room for";
    const auto cut = write_sheet(home_.path(QStringLiteral("sheet.pdf")), wanted);
    QVERIFY(cut && cut->label_shortened);
  }

  void saved_work_comes_back() {
    const DemoPhoto demo = demo_photo(home_);
    const QString file = home_.path(QStringLiteral("work.tintfall"));
    {
      MainWindow window;
      window.show();
      QVERIFY(open_and_read(window, demo.photo, demo.reference));
      PhotoPage& page = window.photo_page();
      page.view().setFocus();
      QTest::keyClick(&page.view(), Qt::Key_F3);
      QTest::keyClick(&page.view(), Qt::Key_Return);
      QSignalSpy saved(&page.document(), &PhotoDocument::saved);
      page.document().save_work(file);
      QVERIFY(saved.wait(10'000));
      QVERIFY(page.document().undo_stack().isClean());
    }
    MainWindow window;
    window.show();
    PhotoDocument& document = window.photo_page().document();
    window.open(file);
    QVERIFY(wait_until([&] { return document.readings_are_current() && document.readings().size() == 2; }));
    QCOMPARE(document.setup().reference, demo.reference);
    QCOMPARE(document.work_path(), file);
  }
};

}  // namespace tintfall::viewer

QTEST_MAIN(tintfall::viewer::PhotoFlowTest)
#include "photo_flow_test.moc"
