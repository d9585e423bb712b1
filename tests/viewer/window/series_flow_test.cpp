// A reaction in the window: read, scrubbed, its zero dragged, its strip and record written.
#include <QChart>
#include <QFile>
#include <QJsonDocument>
#include <QJsonObject>
#include <QLabel>
#include <colorlib/chart/chart_definition.hpp>
#include <tests/scenes/scenario_reactions.hpp>
#include <tests/viewer/window/window_driver.hpp>
#include <viewer/window/before_after.hpp>
#include <viewer/window/change_curve.hpp>
#include <viewer/window/series_page.hpp>
#include <viewer/window/time_line.hpp>

namespace tintfall::viewer {

class SeriesFlowTest : public QObject {
  Q_OBJECT

 private:
  OwnHome home_;
  QStringList photos_;
  colorlib::Regions regions_;

 private slots:
  void initTestCase() {
    const auto chart = colorlib::find_chart("frame-a5");
    auto settings = colorlib::scenes::scenario_series(colorlib::scenes::scenario_reaction("R4"), 3, 900);
    settings.seconds = {-3, 2, 8, 20, 60, 120};
    const colorlib::scenes::SeriesScene series(settings, *chart);
    regions_ = series.regions();
    for (std::size_t i = 0; i < series.frames(); ++i) {
      photos_.push_back(home_.path(QString::fromStdString(series.file_name(i))));
      QFile file(photos_.back());
      QVERIFY(file.open(QIODevice::WriteOnly));
      const std::string bytes = series.frame(i).jpeg_bytes;
      file.write(bytes.data(), static_cast<qint64>(bytes.size()));
    }
  }

  void reads_scrubs_and_moves_zero() {
    MainWindow window;
    window.resize(1280, 720);
    window.show();
    window.show_page(QStringLiteral("reaction"));
    SeriesPage& page = window.series_page();
    QVERIFY(wait_until([&] { return true; }));
    JobTrace seen;
    connect(&page.lane(), &TaskLane::traced, this, [&](const JobTrace& trace) { seen = trace; });
    page.read();
    QVERIFY(!page.words().text().isEmpty());  // said what is missing, in place
    page.add_photos(photos_);
    page.use_regions(regions_, QStringLiteral("test"));
    QTest::qWait(50);
    page.read();
    QVERIFY(wait_until([&] { return page.outcome() != nullptr && page.outcome()->frames.size() == 6; }, 120'000));
    QVERIFY(!seen.on_window_thread);
    QVERIFY(seen.cancel_polls > 0);
    const SeriesOutcome& outcome = *page.outcome();
    QCOMPARE(outcome.lines.size(), std::size_t{1});
    for (const SeriesFrame& frame : outcome.frames) QVERIFY2(!frame.picture.isNull(), qPrintable(frame.dropped));
    // KOH on this tissue darkens it by far more than the uncertainty: the curve rises.
    const auto& marks = outcome.lines.front().marks;
    QVERIFY(marks.back().change_de00 > 15);
    QVERIFY(marks.back().change_de00 > marks.back().change_expanded);
    QVERIFY(!page.curve().chart()->series().isEmpty());

    // Scrubbing links line, pictures and words.
    TimeLine& line = page.time_line();
    line.setFocus();
    QTest::keyClick(&line, Qt::Key_Home);
    QCOMPARE(line.frame(), 0);
    QCOMPARE(page.before_after().after(), 0);
    QTest::keyClick(&line, Qt::Key_End);
    QCOMPARE(page.before_after().after(), 5);
    QVERIFY(page.words().text().contains(QStringLiteral("A at ")));
    QTest::mouseClick(&line, Qt::LeftButton, {}, QPoint(static_cast<int>(line.x_of(outcome.frames[3].seconds)), 92));
    QCOMPARE(line.frame(), 3);

    // The zero is dragged on the line; nothing is read again.
    const double second_s = outcome.frames[1].seconds;
    QTest::mousePress(&line, Qt::LeftButton, {}, QPoint(static_cast<int>(line.x_of(0)), 92));
    QTest::mouseMove(&line, QPoint(static_cast<int>(line.x_of(second_s)), 92));
    QTest::mouseRelease(&line, Qt::LeftButton, {}, QPoint(static_cast<int>(line.x_of(second_s)), 92));
    QVERIFY(wait_until([&] { return page.outcome()->frames.front().seconds < -1; }, 20'000));
    QVERIFY(page.outcome()->lines.front().marks.front().seconds < 0);

    // Strip and record.
    QSignalSpy written(&page, &SeriesPage::written);
    page.write_strip_to(home_.path(QStringLiteral("strip.png")));
    QVERIFY(written.wait(20'000));
    QVERIFY(QImage(home_.path(QStringLiteral("strip.png"))).width() > 600);
    page.write_record_to(home_.path(QStringLiteral("series.json")));
    QVERIFY(written.wait(20'000));
    QFile record(home_.path(QStringLiteral("series.json")));
    QVERIFY(record.open(QIODevice::ReadOnly));
    const QJsonObject tree = QJsonDocument::fromJson(record.readAll()).object();
    QCOMPARE(tree[QStringLiteral("format")].toString(), QStringLiteral("tintfall-record"));
    QVERIFY(tree.contains(QStringLiteral("frames")) && tree.contains(QStringLiteral("spots")));
  }

  void stops_when_asked() {
    MainWindow window;
    window.show();
    window.show_page(QStringLiteral("reaction"));
    QTest::qWait(100);
    SeriesPage& page = window.series_page();
    page.add_photos(photos_);
    page.use_regions(regions_, QStringLiteral("test"));
    page.read();
    QVERIFY(page.lane().busy());
    page.lane().cancel();
    QVERIFY(!page.lane().busy());
    TaskLane::wait_for_all();
    QTest::qWait(50);
    QVERIFY(page.outcome() == nullptr);
  }
};

}  // namespace tintfall::viewer

QTEST_MAIN(tintfall::viewer::SeriesFlowTest)
#include "series_flow_test.moc"
