// Records side by side: swatches, pairs, consensus, bias.
#include <QAbstractItemModelTester>
#include <QCheckBox>
#include <QDoubleSpinBox>
#include <QFile>
#include <colorlib/base/file_access.hpp>
#include <colorlib/records/record_json.hpp>
#include <tests/viewer/window/window_driver.hpp>
#include <viewer/window/color_plane.hpp>
#include <viewer/window/compare_page.hpp>

namespace tintfall::viewer {

class CompareFlowTest : public QObject {
  Q_OBJECT

 private:
  /// A record of one deposit, as another collector's program would have written it.
  QString record(const QString& item, const QString& collector, const colorlib::Lab& lab, double sd) {
    colorlib::Record record;
    record.subject.item = item.toStdString();
    record.subject.collector = collector.toStdString();
    record.photo.name = (item + collector + QString::number(lab.l)).toStdString() + ".jpg";
    colorlib::Reading reading;
    reading.id = "W1";
    reading.kind = colorlib::RegionKind::deposit;
    reading.pixels = 1000;
    reading.lab = lab;
    reading.lab_covariance = colorlib::Matrix3::diagonal(sd * sd, sd * sd, sd * sd);
    reading.lab_expanded = {2 * sd, 2 * sd, 2 * sd};
    reading.de00_expanded = 2 * sd;
    record.readings.push_back(reading);
    const QString file = home_.path(QStringLiteral("%1-%2-%3.json").arg(item, collector).arg(lab.l));
    if (!colorlib::write_file_atomically(file.toStdString(), colorlib::record_json(record)))
      qFatal("no record");
    return file;
  }

  OwnHome home_;

 private slots:
  void verdicts_follow_the_numbers() {
    MainWindow window;
    window.show();
    window.show_page(QStringLiteral("compare"));
    ComparePage& page = window.compare_page();
    const QAbstractItemModelTester pairs(&page.pair_model(),
                                         QAbstractItemModelTester::FailureReportingMode::QtTest);
    const QAbstractItemModelTester consensus(&page.consensus_model(),
                                             QAbstractItemModelTester::FailureReportingMode::QtTest);
    page.add_files({record("QH-03", "V", {42, 19, 29}, 0.3), record("QH-03", "P", {42.2, 19.1, 29.2}, 0.3),
                    record("QH-03", "Q", {50, 19, 29}, 0.3), record("QH-03", "H", {43, 20, 28}, 3)});
    QVERIFY(wait_until([&] { return page.outcome() != nullptr && page.outcome()->readings.size() == 4; },
                       20'000));
    QVERIFY(page.outcome()->comparison.has_value());
    QCOMPARE(page.pair_model().rowCount(), 4);
    QVERIFY(page.pair_model().agreement(0, 0) == nullptr);
    QCOMPARE(page.pair_model().agreement(0, 1)->verdict, colorlib::Verdict::same);
    QCOMPARE(page.pair_model().agreement(0, 2)->verdict, colorlib::Verdict::different);
    QCOMPARE(page.pair_model().agreement(0, 3)->verdict, colorlib::Verdict::undecided);
    QCOMPARE(page.pair_model().agreement(1, 0)->verdict, page.pair_model().agreement(0, 1)->verdict);
    QVERIFY(page.pair_model().index(0, 2).data().toString().startsWith(QStringLiteral("different")));
    QVERIFY(page.consensus_model().rowCount() == 5);
    // With a tolerance wider than the difference, different readings are the same.
    page.tolerance().setValue(15);
    QVERIFY(wait_until(
        [&] {
          return !page.lane().busy() && page.pair_model().agreement(0, 2)->verdict == colorlib::Verdict::same;
        },
        20'000));
  }

  void groups_what_cannot_be_told_apart() {
    MainWindow window;
    window.show();
    window.show_page(QStringLiteral("compare"));
    ComparePage& page = window.compare_page();
    page.add_files({record("QH-03", "V", {42, 19, 29}, 0.3), record("QH-03", "P", {42.2, 19.1, 29.2}, 0.3),
                    record("QH-03", "Q", {50, 19, 29}, 0.3)});
    QVERIFY(wait_until([&] { return page.outcome() != nullptr && page.outcome()->readings.size() == 3; },
                       20'000));
    QVERIFY(page.outcome()->readings[0].group == page.outcome()->readings[1].group);
    QVERIFY(page.outcome()->readings[0].group != page.outcome()->readings[2].group);
    page.findChild<QCheckBox*>()->setChecked(true);
  }

  void orders_and_leaves_out_what_cannot_be_read() {
    MainWindow window;
    window.show();
    window.show_page(QStringLiteral("compare"));
    ComparePage& page = window.compare_page();
    const QString broken = home_.path(QStringLiteral("broken.json"));
    QFile file(broken);
    QVERIFY(file.open(QIODevice::WriteOnly));
    file.write("{\"format\": 1}");
    file.close();
    page.add_files({record("QH-03", "V", {42, 19, 29}, 0.3), broken, record("QH-01", "V", {88, 2, 17}, 0.3)});
    QVERIFY(wait_until([&] { return page.outcome() != nullptr && page.outcome()->readings.size() == 2; },
                       20'000));
    QVERIFY(page.outcome()->problems.join(QString()).contains(QStringLiteral("broken.json")));
  }
};

}  // namespace tintfall::viewer

QTEST_MAIN(tintfall::viewer::CompareFlowTest)
#include "compare_flow_test.moc"
