// The window's own rooms call nothing of colorlib that computes: that is for jobs (viewer/tasks), which run
// on workers.
#include <QProcess>
#include <QRegularExpression>
#include <QTest>

namespace tintfall::viewer {

class ColorlibCallsTest : public QObject {
  Q_OBJECT

 private:
  /// Looks at values that are there already, maps one point or prints one number: constant time, no colour.
  static bool is_plain_look(const QString& symbol) {
    static const QStringList allowed{
        QStringLiteral("colorlib::Placement::px_from_mm("),
        QStringLiteral("colorlib::Placement::mm_from_px("),
        QStringLiteral("colorlib::Region::contains("),
        QStringLiteral("colorlib::Region::bounds("),
        QStringLiteral("colorlib::region_id_at"),
        QStringLiteral("colorlib::PolygonShape::loops("),
        QStringLiteral("colorlib::PhotoPyramid::width_px("),
        QStringLiteral("colorlib::PhotoPyramid::height_px("),
        QStringLiteral("colorlib::Calibration::~Calibration("),
        QStringLiteral("colorlib::Calibration::Calibration(colorlib::Calibration&&)"),
        QStringLiteral("colorlib::en_text[")};
    for (const QString& each : allowed)
      if (symbol.contains(each)) return true;
    return false;
  }

 private slots:
  void rooms_of_the_window_only_look_at_values() {
    QStringList objects = QStringLiteral(WINDOW_OBJECTS).split(QLatin1Char('|'), Qt::SkipEmptyParts);
    objects.removeIf(
        [](const QString& object) { return !object.endsWith(QLatin1String(".o")); });  // precompiled headers
    QVERIFY(objects.size() > 20);
    QProcess nm;
    nm.start(QStringLiteral("nm"),
             QStringList{QStringLiteral("-C"), QStringLiteral("-A"), QStringLiteral("--undefined-only")} +
                 objects);
    QVERIFY(nm.waitForFinished(60'000));
    QCOMPARE(nm.exitCode(), 0);
    QStringList calls;
    int lines = 0;
    static const QRegularExpression call(QStringLiteral("^(.*?): +U (colorlib::.*)$"));
    for (const QString& line : QString::fromUtf8(nm.readAllStandardOutput()).split(QLatin1Char('\n'))) {
      ++lines;
      const auto match = call.match(line);
      if (match.hasMatch() && !is_plain_look(match.captured(2)))
        calls.push_back(match.captured(1).section(QLatin1Char('/'), -2) + QStringLiteral(" calls ") +
                        match.captured(2));
    }
    QVERIFY(lines > 1000);
    QVERIFY2(calls.isEmpty(), qPrintable(calls.join(QLatin1Char('\n'))));
  }
};

}  // namespace tintfall::viewer

QTEST_GUILESS_MAIN(tintfall::viewer::ColorlibCallsTest)
#include "colorlib_calls_test.moc"
