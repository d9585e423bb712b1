// A reaction in the window: read, scrubbed, its zero dragged, its strip and record written.
#include <QAbstractItemModel>
#include <QChart>
#include <QCompleter>
#include <QDir>
#include <QDragEnterEvent>
#include <QFile>
#include <QFileInfo>
#include <QJsonDocument>
#include <QJsonObject>
#include <QLabel>
#include <QLineEdit>
#include <QMimeData>
#include <QToolButton>
#include <QUrl>
#include <QValueAxis>
#include <algorithm>
#include <cmath>
#include <colorlib/base/file_access.hpp>
#include <colorlib/chart/chart_definition.hpp>
#include <colorlib/records/series_record.hpp>
#include <tests/scenes/scenario_reactions.hpp>
#include <tests/scenes/scene_picture.hpp>
#ifdef TINTFALL_VIDEO
#include <tests/colorlib/video/video_files.hpp>
#endif
#include <tests/support/eight_bit.hpp>
#include <tests/viewer/command/command_run.hpp>
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
  QString reference_;
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
    reference_ = home_.path(QStringLiteral("measured.txt"));
    const std::string values = colorlib::scenes::reference_text(series.frame(0), *chart);
    QVERIFY(colorlib::write_file_atomically(reference_.toStdString(), values));
  }

  void offers_reagents_but_no_highly_toxic_one() {
    MainWindow window;
    QStringList offered;
    for (const QLineEdit* line : window.series_page().findChildren<QLineEdit*>())
      if (const QCompleter* completer = line->completer())
        for (int row = 0; row < completer->model()->rowCount(); ++row)
          offered.push_back(completer->model()->index(row, 0).data().toString());
    QVERIFY(offered.contains(QStringLiteral("KOH")));
    QVERIFY(!offered.contains(QStringLiteral("phenol")));
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
    page.read();  // before the window knows its screen
    QVERIFY(
        wait_until([&] { return page.outcome() != nullptr && page.outcome()->frames.size() == 6; }, 120'000));
    QVERIFY(!seen.on_window_thread);
    QVERIFY(seen.cancel_polls > 0);
    const SeriesOutcome& outcome = *page.outcome();
    QCOMPARE(outcome.lines.size(), std::size_t{1});
    for (const SeriesFrame& frame : outcome.frames)
      QVERIFY2(!frame.picture.isNull(), qPrintable(frame.dropped));
    // KOH on this tissue darkens it by far more than the uncertainty: the curve rises.
    const auto& marks = outcome.lines.front().marks;
    QVERIFY(marks.back().change_de00 > 15);
    QVERIFY(marks.back().change_de00 > marks.back().change_expanded);
    QVERIFY(!page.curve().chart()->series().isEmpty());

    // Every tick is labelled with the number at which it stands.
    for (const QAbstractAxis* each : page.curve().chart()->axes()) {
      const auto* axis = qobject_cast<const QValueAxis*>(each);
      QVERIFY(axis != nullptr);
      const int decimals = axis->labelFormat().mid(2, 1).toInt();
      for (int tick = 0; tick < axis->tickCount(); ++tick) {
        const double at = axis->min() + tick * (axis->max() - axis->min()) / (axis->tickCount() - 1);
        QVERIFY2(std::abs(QString::number(at, 'f', decimals).toDouble() - at) < 1e-9,
                 qPrintable(QStringLiteral("%1 as %2").arg(at).arg(axis->labelFormat())));
      }
    }

    // The fit runs through the readings and its moments carry their intervals.
    const CourseLine& course = outcome.lines.front();
    QVERIFY(course.fit.size() > 100);
    QVERIFY(course.onset && course.half_time);
    QVERIFY(course.half_time->low_s <= course.half_time->seconds &&
            course.half_time->seconds <= course.half_time->high_s);
    for (const CourseMark& mark : marks) {
      const auto near =
          std::min_element(course.fit.begin(), course.fit.end(), [&](const auto& a, const auto& b) {
            return std::abs(a.first - mark.seconds) < std::abs(b.first - mark.seconds);
          });
      QVERIFY2(
          std::abs(near->second - mark.change_de00) < 4,
          qPrintable(
              QStringLiteral("%1 s: %2, fit %3").arg(mark.seconds).arg(mark.change_de00).arg(near->second)));
    }
    QVERIFY(page.words().text().contains(QStringLiteral("half done at")));
    // What happened is said as `tintfall series` says it.
    const colorlib::SpotRecord& spot = outcome.record->spots.front();
    QVERIFY2(spot.verdict == "positive", spot.verdict_text.c_str());
    QVERIFY2(page.words().text().contains(QString::fromStdString(spot.verdict_text + ". " + spot.sentence)),
             qPrintable(page.words().text()));

    // One plateau is one figure with its unit and coverage, in the whole course's line and in a frame's.
    const colorlib::Kinetics& kinetics = spot.kinetics;
    QVERIFY2(page.words().text().contains(QStringLiteral("A: change ΔE00 %1 ± %2 (k = 2)")
                                              .arg(kinetics.change_de00, 0, 'f', 1)
                                              .arg(kinetics.change_de00_expanded, 0, 'f', 1)),
             qPrintable(page.words().text()));
    const CourseMark& last = marks.back();
    QVERIFY2(last.words.contains(QStringLiteral("change ΔE00 ")) &&
                 last.words.contains(QStringLiteral(" (k = 2)")),
             qPrintable(last.words));
    QVERIFY2(last.change_expanded > 0.6 * kinetics.change_de00_expanded,
             qPrintable(QStringLiteral("%1 of the frame, %2 of the course")
                            .arg(last.change_expanded)
                            .arg(kinetics.change_de00_expanded)));
    QVERIFY(std::abs(last.change_de00 - kinetics.change_de00) <=
            last.change_expanded + kinetics.change_de00_expanded);

    // Scrubbing links line, pictures and words.
    TimeLine& line = page.time_line();
    line.setFocus();
    QTest::keyClick(&line, Qt::Key_Home);
    QCOMPARE(line.frame(), 0);
    QCOMPARE(page.before_after().after(), 0);
    QTest::keyClick(&line, Qt::Key_End);
    QCOMPARE(page.before_after().after(), 5);
    QVERIFY(page.words().text().contains(QStringLiteral("A at ")));
    QTest::mouseClick(&line, Qt::LeftButton, {},
                      QPoint(static_cast<int>(line.x_of(outcome.frames[3].seconds)), 92));
    QCOMPARE(line.frame(), 3);

    // The zero is dragged on the line; nothing is read again.
    const double second_s = outcome.frames[1].seconds;
    QTest::mousePress(&line, Qt::LeftButton, {}, QPoint(static_cast<int>(line.x_of(0)), 92));
    QTest::mouseMove(&line, QPoint(static_cast<int>(line.x_of(second_s)), 92));
    QTest::mouseRelease(&line, Qt::LeftButton, {}, QPoint(static_cast<int>(line.x_of(second_s)), 92));
    QVERIFY(wait_until([&] { return page.outcome()->frames.front().seconds < -1; }, 20'000));
    QVERIFY(page.outcome()->lines.front().marks.front().seconds < 0);
    QVERIFY(page.words().text().contains(QStringLiteral("after the drop")));

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

  void keeps_the_record_that_the_command_keeps() {
    const std::string regions = home_.path(QStringLiteral("regions.json")).toStdString();
    QVERIFY(colorlib::write_file_atomically(regions, colorlib::regions_json(regions_)));
    QCOMPARE(run_tintfall({"sheet", "add", "A5-03", "--chart", "frame-a5", "--printed", "2031-03-01"}).status,
             0);
    std::vector<std::string> call{"series"};
    for (const QString& photo : photos_) call.push_back(photo.toStdString());
    call.insert(call.end(), {"--sheet", "A5-03", "--regions", regions, "--applied", "+3", "--tissue", "cap",
                             "--state", "fresh", "--reagent", "KOH", "--json", "-"});
    const CommandRun run = run_tintfall(call);
    QVERIFY2(run.status == 0, run.err.c_str());

    SeriesParameters parameters;
    parameters.photos = photos_;
    parameters.setup.sheet = QStringLiteral("A5-03");
    parameters.setup.subject.tissue = "cap";
    parameters.setup.subject.state = "fresh";
    parameters.protocol.reagent = "KOH";
    parameters.regions = regions_;
    parameters.applied = QStringLiteral("+3");
    colorlib::Progress silent;
    const auto outcome = read_series(parameters, silent);
    QVERIFY2(outcome, outcome ? "" : outcome.error().message.c_str());
    const QByteArray kept = QByteArray::fromStdString(colorlib::series_json(*outcome->record));
    const QJsonObject tree = QJsonDocument::fromJson(kept).object();
    const QJsonObject sheet = tree[QStringLiteral("chart")].toObject();
    QCOMPARE(sheet[QStringLiteral("sheet")].toString(), QStringLiteral("A5-03"));
    QCOMPARE(sheet[QStringLiteral("printed")].toString(), QStringLiteral("2031-03-01"));
    QCOMPARE(tree[QStringLiteral("protocol")].toObject()[QStringLiteral("tissue")].toString(),
             QStringLiteral("cap"));
    QCOMPARE(kept.trimmed(), QByteArray::fromStdString(run.out).trimmed());
    run_tintfall({"sheet", "remove", "A5-03"});
  }

  void says_what_cannot_be_followed() {
    SeriesParameters parameters;
    parameters.photos = photos_;
    const auto refused = [&](std::initializer_list<const char*> options) {
      parameters.regions = {};
      for (const char* option : options)
        parameters.regions.items.push_back(
            *colorlib::region_from_option(option, colorlib::region_id_at(parameters.regions.items.size())));
      colorlib::Progress silent;
      const auto outcome = read_series(parameters, silent);
      return outcome ? std::string() : outcome.error().message;
    };
    QVERIFY(refused({"deposit@105,74,4", "control@78,74,4"}).find("follows a spot") != std::string::npos);
    QVERIFY(refused({"spot@105,74,4", "control@103,74,4"}).find("the same place") != std::string::npos);
  }

#ifdef TINTFALL_VIDEO
  void reads_a_video() {
    // Twelve seconds at eight frames a second, blended from rendered pictures of one steady camera.
    const auto chart = colorlib::find_chart("frame-a5");
    auto settings = colorlib::scenes::scenario_series(colorlib::scenes::scenario_reaction("R4"), 3, 960);
    settings.seconds = {-2, 1, 3, 6, 10};
    settings.hand_deg = 0;
    const colorlib::scenes::SeriesScene series(settings, *chart);
    std::vector<colorlib::Image8> pictures;
    for (std::size_t i = 0; i < series.frames(); ++i)
      pictures.push_back(colorlib::eight_bit(series.frame(i).photo));
    colorlib::VideoFileSettings file;
    file.width_px = pictures[0].columns / 2 * 2;
    file.height_px = pictures[0].rows / 2 * 2;
    const QString video = home_.path(QStringLiteral("reaction.mp4"));
    colorlib::VideoWriter writer(video.toStdString(), file);
    for (int i = 0; i < 96; ++i) {
      const double t = settings.seconds.front() + i / 8.0;
      std::size_t next = 1;
      while (next + 1 < pictures.size() && settings.seconds[next] < t) ++next;
      const double share = std::clamp(
          (t - settings.seconds[next - 1]) / (settings.seconds[next] - settings.seconds[next - 1]), 0.0, 1.0);
      colorlib::Image8 frame(file.height_px, file.width_px, 3);
      for (int r = 0; r < frame.rows; ++r)
        for (int k = 0; k < 3 * frame.columns; ++k)
          frame.at(r, 0)[k] = static_cast<std::uint8_t>(
              std::lround((1 - share) * pictures[next - 1].at(r, 0)[k] + share * pictures[next].at(r, 0)[k]));
      writer.add(frame, 125L * i);
    }
    writer.finish();
    MainWindow window;
    window.show();
    window.show_page(QStringLiteral("reaction"));
    SeriesPage& page = window.series_page();
    page.add_photos({video});
    page.use_regions(series.regions(), QStringLiteral("test"));
    QTest::qWait(50);
    page.read();
    QVERIFY(wait_until([&] { return !page.lane().busy(); }, 120'000));
    QVERIFY2(page.outcome() != nullptr, qPrintable(page.words().text()));
    const SeriesOutcome& outcome = *page.outcome();
    QVERIFY(outcome.frames.size() >= 5 && outcome.frames.size() < 96);  // the telling ones
    QCOMPARE(outcome.lines.size(), std::size_t{1});
    QVERIFY(outcome.lines.front().marks.back().change_de00 > 10);
    QVERIFY(std::any_of(outcome.frames.begin(), outcome.frames.end(),
                        [](const SeriesFrame& frame) { return !frame.picture.isNull(); }));
    QVERIFY(outcome.frames.back().seconds - outcome.frames.front().seconds > 8);
    // A video stands alone.
    page.add_photos(photos_);
    page.read();
    QVERIFY(wait_until([&] { return !page.lane().busy(); }, 60'000));
    QVERIFY2(page.words().text().contains(QStringLiteral("series of its own")),
             qPrintable(page.words().text()));
  }
#endif

  void a_dropped_folder_gives_its_photos_only() {
    MainWindow window;
    window.resize(1280, 720);
    window.show();
    window.show_page(QStringLiteral("reaction"));
    SeriesPage& page = window.series_page();
    const auto drop = [&](const QString& folder) {
      QMimeData data;
      data.setUrls({QUrl::fromLocalFile(folder)});
      // The window system begins a drag before it drops.
      QDragEnterEvent enter(QPoint(50, 50), Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier);
      QApplication::sendEvent(&page, &enter);
      QVERIFY(enter.isAccepted());
      QDropEvent event(QPointF(50, 50), Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier);
      QApplication::sendEvent(&page, &event);
    };
    const QString folder = home_.path(QStringLiteral("series"));
    QVERIFY(QDir().mkpath(folder));
    drop(folder);
    QVERIFY2(
        wait_until([&] { return page.words().text().contains(QStringLiteral("holds no photos")); }, 10'000),
        qPrintable(page.words().text()));
    for (const QString& photo : photos_)
      QVERIFY(QFile::copy(photo, folder + QLatin1Char('/') + QFileInfo(photo).fileName()));
    QFile note(folder + QStringLiteral("/notes.txt"));
    QVERIFY(note.open(QIODevice::WriteOnly) && note.write("not a photo") > 0);
    note.close();
    QVERIFY(QFile::copy(photos_.front(), folder + QStringLiteral("/a.jpg.overlay.png")));
    drop(folder);
    QVERIFY(wait_until([&] { return page.photos().size() == photos_.size(); }, 10'000));
  }

  void measured_values_of_the_settings_hold_without_an_open_photo() {
    MainWindow window;
    window.show();
    SeriesPage& page = window.series_page();
    window.show_page(QStringLiteral("reaction"));
    QVERIFY2(page.inputs().text().contains(QStringLiteral("nominal colours")),
             qPrintable(page.inputs().text()));
    window.show_page(QStringLiteral("settings"));
    Preferences().reference.set(reference_);
    window.show_page(QStringLiteral("reaction"));
    QVERIFY2(page.inputs().text().contains(QStringLiteral("measured values from measured.txt")),
             qPrintable(page.inputs().text()));
    page.add_photos(photos_);
    page.use_regions(regions_, QStringLiteral("test"));
    page.read();
    Preferences().reference.set({});
    QVERIFY(wait_until([&] { return !page.lane().busy(); }, 120'000));
    QVERIFY2(page.outcome() != nullptr, qPrintable(page.words().text()));
    QCOMPARE(page.outcome()->record->representative()->record.chart.reference_kind, std::string("measured"));
  }

  void stops_when_asked() {
    MainWindow window;
    window.show();
    window.show_page(QStringLiteral("reaction"));
    QTest::qWait(100);
    SeriesPage& page = window.series_page();
    QToolButton* stop = nullptr;
    for (QToolButton* each : window.findChildren<QToolButton*>())
      if (each->accessibleName() == QStringLiteral("Stop working")) stop = each;
    QVERIFY(stop != nullptr && !stop->isVisible());
    page.add_photos(photos_);
    page.use_regions(regions_, QStringLiteral("test"));
    page.read();
    QVERIFY(wait_until([&] { return !page.lane().busy(); }, 120'000));
    QVERIFY(page.outcome() != nullptr && !page.curve().chart()->series().isEmpty());
    QVERIFY(!stop->isVisible());
    page.read();
    QVERIFY(page.lane().busy() && stop->isVisible());
    QTest::mouseClick(stop, Qt::LeftButton);
    QVERIFY(!page.lane().busy() && !stop->isVisible());
    TaskLane::wait_for_all();
    QTest::qWait(50);
    // Said, and nothing of the reading before stands there as if it were the new one.
    QVERIFY(page.outcome() == nullptr);
    QVERIFY(page.curve().chart()->series().isEmpty());
    QVERIFY2(page.words().isVisible() && page.words().text().startsWith(QStringLiteral("Stopped")),
             qPrintable(page.words().text()));
  }
};

}  // namespace tintfall::viewer

QTEST_MAIN(tintfall::viewer::SeriesFlowTest)
#include "series_flow_test.moc"
