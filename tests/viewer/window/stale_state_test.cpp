// What no longer holds goes: one region's refusal stays its own, problems and colours go with their cause.
#include <QUndoStack>
#include <algorithm>
#include <colorlib/records/record_json.hpp>
#include <tests/viewer/window/window_driver.hpp>
#include <viewer/document/document_commands.hpp>
#include <viewer/window/magnifier.hpp>

namespace tintfall::viewer {

class StaleStateTest : public QObject {
  Q_OBJECT

 private:
  static colorlib::Region ellipse(const char* id, double x_mm, double y_mm) {
    colorlib::Region region;
    region.id = id;
    region.kind = colorlib::RegionKind::control;
    region.shape = colorlib::EllipseShape{x_mm, y_mm, 4, 4};
    return region;
  }
  static bool settled(PhotoDocument& document) {
    return wait_until([&] { return document.readings_are_current(); });
  }
  static QStringList problems(const PhotoDocument& document) {
    QStringList found;
    for (const Issue& issue : document.issues())
      if (issue.weight == IssueWeight::problem) found.push_back(issue.region + issue.message);
    return found;
  }
  static QString colour_word(PhotoPage& page, int row) {
    return page.region_model().index(row, RegionModel::name).data().toString();
  }
  static void set_up(PhotoDocument& document, const std::function<void(PhotoSetup&)>& change) {
    PhotoSetup setup = document.setup();
    change(setup);
    document.undo_stack().push(new SetupCommand(document, QStringLiteral("change"), setup));
  }

  OwnHome home_;

 private slots:
  void a_region_off_the_sheet_is_refused_alone() {
    const DemoPhoto demo = demo_photo(home_);
    MainWindow window;
    window.show();
    QVERIFY(open_and_read(window, demo.photo, demo.reference));
    PhotoPage& page = window.photo_page();
    PhotoDocument& document = page.document();
    add_region(document, ellipse("inside", 100, 65));
    QVERIFY(settled(document));
    const auto lab = document.reading_of(QStringLiteral("inside"))->reading.lab;
    const auto before = problems(document);
    add_region(document, ellipse("far off", -20, -20));
    QVERIFY(settled(document));
    QCOMPARE(document.readings().size(), document.regions().regions.items.size());
    for (const ShownReading& each : document.readings())
      QCOMPARE(each.reading.refused.has_value(), each.reading.id == "far off");
    QVERIFY(document.reading_of(QStringLiteral("far off"))->reading.refused->code ==
            colorlib::ErrorCode::untrustworthy);  // as of every refused region
    QVERIFY(document.reading_of(QStringLiteral("inside"))->reading.lab == lab);
    QCOMPARE(problems(document).size(), before.size() + 1);
    QVERIFY2(problems(document).join(QLatin1Char('\n')).contains(QStringLiteral("outside the sheet")),
             qPrintable(problems(document).join(QLatin1Char('\n'))));
    QCOMPARE(colour_word(page, page.region_model().row_of(QStringLiteral("far off"))),
             QStringLiteral("no reading"));
    // The rest can still leave the window.
    QSignalSpy exported(&document, &PhotoDocument::exported);
    for (const auto& [name, kind] :
         {std::pair{"out.json", ExportKind::record}, {"out.png", ExportKind::picture}}) {
      document.export_to(home_.path(QLatin1String(name)), kind);
      QVERIFY(exported.wait(20'000));
    }
    const auto record = colorlib::read_record(home_.path(QStringLiteral("out.json")).toStdString());
    QVERIFY(record);
    QCOMPARE(std::count_if(record->readings.begin(), record->readings.end(),
                           [](const auto& reading) { return reading.refused.has_value(); }),
             1);
    // What was said of it goes with it.
    document.undo_stack().undo();
    QVERIFY(settled(document));
    QCOMPARE(problems(document), before);
  }

  void a_lost_sheet_leaves_neither_waiting_rows_nor_old_colours() {
    const DemoPhoto demo = demo_photo(home_);
    MainWindow window;
    window.show();
    QVERIFY(open_and_read(window, demo.photo, demo.reference));
    PhotoPage& page = window.photo_page();
    PhotoDocument& document = page.document();
    const auto px = document.sheet()->sheet.placement.px_from_mm({100, 63});
    QTest::mouseMove(&page.view(), page.view().widget_from_photo({px.x, px.y}).toPoint());
    QVERIFY(wait_until([&] { return page.magnifier().text().startsWith(QStringLiteral("L* ")); }, 10'000));
    const QString colour = page.magnifier().text();
    set_up(document, [](PhotoSetup& setup) { setup.chart = QStringLiteral("strip"); });
    QVERIFY(wait_until([&] { return document.sheet() == nullptr && !document.reading_is_coming(); }));
    QVERIFY(page.region_model().rowCount() > 0);
    QCOMPARE(colour_word(page, 0), QStringLiteral("no reading"));
    QVERIFY2(page.magnifier().text().contains(QStringLiteral("without a sheet")),
             qPrintable(page.magnifier().text()));
    document.undo_stack().undo();
    QVERIFY(settled(document));
    QVERIFY(colour_word(page, 0) != QStringLiteral("no reading"));
    QVERIFY(wait_until([&] { return page.magnifier().text() == colour; }, 10'000));
    QVERIFY2(problems(document).isEmpty(), qPrintable(problems(document).join(QLatin1Char('\n'))));
  }

  void a_corrected_reference_takes_its_problem_along() {
    const DemoPhoto demo = demo_photo(home_);
    MainWindow window;
    window.show();
    QVERIFY(open_and_read(window, demo.photo, demo.reference));
    PhotoDocument& document = window.photo_page().document();
    set_up(document, [&](PhotoSetup& setup) { setup.reference = demo.photo; });
    QVERIFY(wait_until([&] { return problems(document).size() == 1; }));
    set_up(document, [&](PhotoSetup& setup) { setup.reference = demo.reference; });
    QVERIFY(settled(document));
    QVERIFY2(problems(document).isEmpty(), qPrintable(problems(document).join(QLatin1Char('\n'))));
    // A file of regions that cannot be read, then one that can.
    const QString regions = home_.path(QStringLiteral("regions.json"));
    document.load_regions(home_.path(QStringLiteral("no such file.json")));
    QVERIFY(wait_until([&] { return problems(document).size() == 1; }));
    document.save_regions(regions);
    document.load_regions(regions);
    QVERIFY(wait_until([&] { return problems(document).isEmpty(); }));
  }
};

}  // namespace tintfall::viewer

QTEST_MAIN(tintfall::viewer::StaleStateTest)
#include "stale_state_test.moc"
