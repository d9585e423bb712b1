// The catalogue in the window: adding what was read, searching, editing, removing, exporting, the report.
#include <QAbstractItemModelTester>
#include <QComboBox>
#include <QFile>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSet>
#include <QTabWidget>
#include <QTableView>
#include <QUndoStack>
#include <colorlib/base/file_access.hpp>
#include <colorlib/exports/catalogue_files.hpp>
#include <colorlib/records/record_json.hpp>
#include <tests/viewer/window/window_driver.hpp>
#include <viewer/document/document_commands.hpp>
#include <viewer/window/catalogue_page.hpp>
#include <viewer/window/compare_page.hpp>
#include <viewer/window/place_field.hpp>
#include <viewer/window/report_preview.hpp>

namespace tintfall::viewer {

class CatalogueFlowTest : public QObject {
  Q_OBJECT

 private:
  QString record(const QString& item, const QString& collector, const QString& tissue,
                 const colorlib::Lab& lab) {
    colorlib::Record record;
    record.subject.item = item.toStdString();
    record.subject.collector = collector.toStdString();
    record.subject.tissue = tissue.toStdString();
    record.photo.name = (item + QString::number(lab.l)).toStdString() + ".jpg";
    colorlib::Reading reading;
    reading.id = "W1";
    reading.kind = colorlib::RegionKind::deposit;
    reading.pixels = 1000;
    reading.lab = lab;
    reading.lab_covariance = colorlib::Matrix3::diagonal(0.1, 0.1, 0.1);
    reading.lab_expanded = {0.63, 0.63, 0.63};
    reading.de00_expanded = 0.7;
    record.readings.push_back(reading);
    const QString file = home_.path(QStringLiteral("%1-%2.json").arg(item).arg(lab.l));
    if (!colorlib::write_file_atomically(file.toStdString(), colorlib::record_json(record)))
      qFatal("no record");
    return file;
  }
  /// Three collections, four readings.
  void fill(CataloguePage& page) {
    QSignalSpy shown(&page, &CataloguePage::shown);
    page.add_files(
        {record(QStringLiteral("QH-01"), QStringLiteral("V"), QStringLiteral("cap"), {88, 2, 17}),
         record(QStringLiteral("QH-03"), QStringLiteral("V"), QStringLiteral("deposit"), {42, 19, 29}),
         record(QStringLiteral("QH-03"), QStringLiteral("P"), QStringLiteral("deposit"), {42.5, 19, 29}),
         record(QStringLiteral("QH-05"), QStringLiteral("P"), QStringLiteral("flesh"), {30, 4, 5})});
    QVERIFY(shown.wait(20'000));
    QVERIFY(wait_until([&] { return !page.busy(); }));
  }
  void begin(MainWindow& window, const QString& file) {
    Preferences().catalogue.set(home_.path(file));
    window.show();
    window.show_page(QStringLiteral("catalogue"));
    QVERIFY(wait_until(
        [&] { return window.catalogue_page().answer() != nullptr && !window.catalogue_page().busy(); },
        20'000));
  }
  static bool settled(CataloguePage& page, const std::function<bool()>& done) {
    return wait_until([&] { return !page.busy() && done(); }, 20'000);
  }

  OwnHome home_;

 private slots:
  void adds_the_reading_and_finds_it_by_its_colour() {
    const DemoPhoto demo = demo_photo(home_);
    MainWindow window;
    begin(window, QStringLiteral("first.db"));
    CataloguePage& page = window.catalogue_page();
    QVERIFY(!page.answer()->there);
    page.add_reading();
    QVERIFY(page.words().text().contains(QStringLiteral("no reading")));
    QVERIFY(open_and_read(window, demo.photo, demo.reference));
    window.show_page(QStringLiteral("catalogue"));
    page.add_reading();
    QVERIFY(page.words().text().contains(QStringLiteral("item")));  // which collection was not said
    PhotoDocument& document = window.photo_page().document();
    PhotoSetup setup = document.setup();
    setup.subject.item = "QH-03";
    document.undo_stack().push(
        new SetupCommand(document, QStringLiteral("say item"), setup, EditId::subject));
    page.text_field().setFocus();
    QTest::keyClick(&page.text_field(), Qt::Key_A, Qt::ControlModifier | Qt::AltModifier);
    QVERIFY(settled(page, [&] { return page.collection() != nullptr && page.hits().rowCount() == 1; }));
    QCOMPARE(page.collection()->number, QStringLiteral("QH-03"));
    QCOMPARE(page.records().rowCount(), 1);
    // The same record again is known.
    page.add_reading();
    QVERIFY(settled(page, [&] { return page.words().text().startsWith(QStringLiteral("Already there")); }));
    QCOMPARE(page.hits().rowCount(), 1);
    // What is added is what the photo's page shows; it is found by that colour, at distance 0.
    fill(page);
    page.look_like_the_reading();
    QVERIFY(settled(page, [&] {
      return page.answer()->readings.size() >= 1 && !page.answer()->readings.front().distance.isEmpty();
    }));
    const CatalogueHitShown& first = page.answer()->readings.front();
    QCOMPARE(first.distance, QStringLiteral("0.0"));
    QVERIFY(first.lab.startsWith(window.photo_page().current_reading()->lab[0]));
    for (std::size_t i = 1; i < page.answer()->readings.size(); ++i) {
      QVERIFY(page.answer()->readings[i].hit.de00 >= page.answer()->readings[i - 1].hit.de00);
      QVERIFY(page.answer()->readings[i].hit.de00 <= 5);
    }
    page.any_color();
    QVERIFY(settled(page, [&] { return page.answer()->readings.size() == 5; }));
  }

  void searches_as_one_types() {
    MainWindow window;
    begin(window, QStringLiteral("second.db"));
    CataloguePage& page = window.catalogue_page();
    const auto mode = QAbstractItemModelTester::FailureReportingMode::QtTest;
    const QAbstractItemModelTester hits(&page.hits(), mode), collections(&page.collections(), mode),
        fields(&page.fields(), mode), records(&page.records(), mode), changes(&page.changes(), mode);
    fill(page);
    QCOMPARE(page.hits().rowCount(), 4);
    QCOMPARE(page.collections().rowCount(), 3);
    QTest::keyClicks(&page.text_field(), QStringLiteral("QH-05"));
    QVERIFY(settled(page, [&] { return page.hits().rowCount() == 1; }));
    QCOMPARE(page.hits().index(0, HitModel::number).data().toString(), QStringLiteral("QH-05"));
    page.text_field().clear();
    QTest::keyClick(&page.text_field(), Qt::Key_Return);
    QVERIFY(settled(page, [&] { return page.hits().rowCount() == 4; }));
    QLineEdit* collector = nullptr;
    QLineEdit* tissue = nullptr;
    QLineEdit* from = nullptr;
    for (QLineEdit* each : page.findChildren<QLineEdit*>()) {
      if (each->accessibleName() == QStringLiteral("Collector")) collector = each;
      if (each->accessibleName() == QStringLiteral("Tissue")) tissue = each;
      if (each->accessibleName() == QStringLiteral("From")) from = each;
    }
    QVERIFY(collector != nullptr && tissue != nullptr && from != nullptr);
    QTest::keyClicks(collector, QStringLiteral("P"));
    QVERIFY(settled(page, [&] { return page.hits().rowCount() == 2; }));
    collector->clear();
    QTest::keyClicks(tissue, QStringLiteral("fle"));
    QVERIFY(settled(page, [&] { return page.hits().rowCount() == 1; }));
    tissue->clear();
    QTest::keyClicks(from, QStringLiteral("2031-13"));
    QTest::keyClick(from, Qt::Key_Return);
    QVERIFY(settled(page, [&] { return page.words().text().contains(QStringLiteral("2031-13")); }));
  }

  void edits_and_takes_back() {
    MainWindow window;
    begin(window, QStringLiteral("third.db"));
    CataloguePage& page = window.catalogue_page();
    fill(page);
    page.choose(QStringLiteral("QH-03"));
    QVERIFY(settled(page, [&] { return page.collection()->number == QStringLiteral("QH-03"); }));
    // By the keyboard: F2, type, Enter.
    const int row = page.fields().row_of(QStringLiteral("habitat"));
    QVERIFY(row >= 0);
    page.field_table().setFocus();
    page.field_table().setCurrentIndex(page.fields().index(row, FieldModel::value));
    QTest::keyClick(&page.field_table(), Qt::Key_F2);
    auto* editor = page.field_table().findChild<QLineEdit*>();
    QVERIFY(editor != nullptr);
    QTest::keyClicks(editor, QStringLiteral("under beech"));
    QTest::keyClick(editor, Qt::Key_Return);
    const auto value = [&](const char* name) {
      return page.fields()
          .index(page.fields().row_of(QLatin1String(name)), FieldModel::value)
          .data()
          .toString();
    };
    QVERIFY(settled(page, [&] { return value("habitat") == QStringLiteral("under beech"); }));
    QVERIFY(page.changes().rowCount() >= 1);
    // What cannot be right is not kept, and said.
    const QModelIndex collected =
        page.fields().index(page.fields().row_of(QStringLiteral("collected")), FieldModel::value);
    page.fields().setData(collected, QStringLiteral("last Tuesday"));
    QVERIFY(settled(page, [&] { return page.words().text().contains(QStringLiteral("last Tuesday")); }));
    QCOMPARE(value("collected"), QString());
    // Two edits one right after the other are both kept.
    page.fields().setData(collected, QStringLiteral("2031-10-05"));
    page.fields().setData(
        page.fields().index(page.fields().row_of(QStringLiteral("substrate")), FieldModel::value),
        QStringLiteral("litter"));
    QVERIFY(settled(page, [&] {
      return value("collected") == QStringLiteral("2031-10-05") &&
             value("substrate") == QStringLiteral("litter");
    }));
    page.take_back();
    QVERIFY(settled(page, [&] { return value("substrate").isEmpty(); }));
    page.take_back();
    page.take_back();
    QVERIFY(settled(page, [&] { return value("collected").isEmpty() && value("habitat").isEmpty(); }));
  }

  void a_place_is_kept_as_coarse_as_wanted() {
    MainWindow window;
    begin(window, QStringLiteral("fourth.db"));
    CataloguePage& page = window.catalogue_page();
    fill(page);
    page.choose(QStringLiteral("QH-01"));
    QVERIFY(settled(page, [&] { return page.collection()->number == QStringLiteral("QH-01"); }));
    PlaceField& place = page.place();
    const auto type = [&](const char* name, const QString& text) {
      for (QLineEdit* each : place.findChildren<QLineEdit*>())
        if (each->accessibleName() == QLatin1String(name)) {
          each->clear();
          QTest::keyClicks(each, text);
          return;
        }
      QFAIL(name);
    };
    page.details().setCurrentIndex(1);
    type("Site", QStringLiteral("Tansy Hollow"));
    type("Degrees north", QStringLiteral("51,23456"));
    QVERIFY(wait_until(
        [&] { return place.sentence().contains(QStringLiteral("latitude")); }));  // one of the two alone
    type("Degrees east", QStringLiteral("-2.34567"));
    auto* grid = place.findChild<QComboBox*>();
    grid->setCurrentIndex(grid->findData(0.1));
    emit grid->activated(grid->currentIndex());
    QVERIFY(wait_until([&] { return place.sentence().contains(QStringLiteral("51.2")); }));
    auto* keep = place.findChild<QPushButton*>();
    QTest::mouseClick(keep, Qt::LeftButton);
    QVERIFY(settled(page, [&] { return page.collection()->collection.place_coarseness_deg.has_value(); }));
    const colorlib::Collection& kept = page.collection()->collection;
    QCOMPARE(*kept.latitude_deg, 51.2);
    QCOMPARE(*kept.longitude_deg, -2.3);
    QVERIFY(*kept.coordinate_uncertainty_m > 5000);  // half the diagonal of 11 x 7 km
    QCOMPARE(kept.place, std::string("Tansy Hollow"));
  }

  void removes_so_that_it_can_be_brought_back() {
    MainWindow window;
    begin(window, QStringLiteral("fifth.db"));
    CataloguePage& page = window.catalogue_page();
    fill(page);
    page.choose(QStringLiteral("QH-05"));
    QVERIFY(settled(page, [&] { return page.collection()->number == QStringLiteral("QH-05"); }));
    page.remove_chosen();
    QVERIFY(settled(page, [&] { return page.hits().rowCount() == 3 && page.collection()->removed; }));
    page.bring_back();
    QVERIFY(settled(page, [&] { return page.hits().rowCount() == 4 && !page.collection()->removed; }));
    // One record of two.
    page.choose(QStringLiteral("QH-03"));
    QVERIFY(settled(page, [&] { return page.records().rowCount() == 2; }));
    page.details().setCurrentIndex(2);
    page.record_table().selectRow(0);
    page.record_table().setFocus();
    QTest::keyClick(&page.record_table(), Qt::Key_Delete, Qt::ShiftModifier);
    QVERIFY(settled(page, [&] { return page.hits().rowCount() == 3; }));
    QVERIFY(!page.collection()->removed);
    page.take_back();
    QVERIFY(settled(page, [&] { return page.hits().rowCount() == 4; }));
  }

  void exports_previews_and_compares() {
    MainWindow window;
    begin(window, QStringLiteral("sixth.db"));
    CataloguePage& page = window.catalogue_page();
    fill(page);
    for (const char* name : {"out.csv", "out.zip", "out.jsonl", "out.pdf"}) {
      const QString file = home_.path(QLatin1String(name));
      page.export_to(file);
      QVERIFY(settled(page, [&] { return QFile::exists(file) && page.words().text().contains(file); }));
    }
    const auto bytes = colorlib::read_file(home_.path(QStringLiteral("out.jsonl")).toStdString(),
                                           "the export", colorlib::ErrorCode::unreadable_table, 1 << 20);
    QVERIFY(bytes.has_value());
    const auto back = colorlib::imported(*bytes, "out.jsonl");
    QVERIFY(back.has_value());
    QCOMPARE(back->size(), std::size_t{3});
    page.show_report();
    QVERIFY(settled(page, [&] { return page.report().page_count() == 3; }));
    page.show_list();
    page.lists().setCurrentIndex(0);
    page.hit_table().selectAll();
    QVERIFY(settled(page, [] { return true; }));
    page.put_side_by_side();
    ComparePage& compare = window.compare_page();
    QVERIFY(wait_until(
        [&] { return compare.outcome() != nullptr && compare.outcome()->readings.size() == 4; }, 20'000));
    QVERIFY(compare.isVisible());
    QVERIFY(compare.outcome()->comparison.has_value());
  }

  void no_database_work_on_the_windows_thread() {
    MainWindow window;
    begin(window, QStringLiteral("seventh.db"));
    CataloguePage& page = window.catalogue_page();
    QSet<QString> lanes;
    for (TaskLane* lane : page.lanes())
      connect(lane, &TaskLane::traced, this, [&](const JobTrace& trace) {
        QVERIFY2(!trace.on_window_thread, qPrintable(trace.lane));
        lanes.insert(trace.lane);
      });
    fill(page);
    page.show_report();
    QVERIFY(settled(page, [] { return true; }));
    for (const char* lane : {"catalogue", "catalogue adding", "collection", "catalogue export"})
      QVERIFY2(lanes.contains(QLatin1String(lane)), lane);
  }
};

}  // namespace tintfall::viewer

QTEST_MAIN(tintfall::viewer::CatalogueFlowTest)
#include "catalogue_flow_test.moc"
