// The program's own start: what it says where there is no screen.
#include <QProcess>
#include <tests/viewer/window/window_driver.hpp>
#include <viewer/command/exit_status.hpp>

namespace tintfall::viewer {

class ViewerStartTest : public QObject {
  Q_OBJECT

 private:
  struct Answer {
    int status = -1;
    QString out, err;
  };
  Answer start_without_screen(const QStringList& arguments, const QString& locale,
                              const QString& display = {}) {
    QProcess program;
    QProcessEnvironment environment = QProcessEnvironment::systemEnvironment();
    for (const char* name : {"DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM", "LANGUAGE", "LC_MESSAGES"})
      environment.remove(QLatin1String(name));
    for (const char* name : {"LANG", "LC_ALL"}) environment.insert(QLatin1String(name), locale);
    if (!display.isEmpty()) environment.insert(QStringLiteral("DISPLAY"), display);
    program.setProcessEnvironment(environment);
    program.start(QStringLiteral(TINTFALL_VIEWER), arguments);
    if (!program.waitForFinished(30'000) || program.exitStatus() != QProcess::NormalExit) return {};
    return {program.exitCode(), QString::fromUtf8(program.readAllStandardOutput()),
            QString::fromUtf8(program.readAllStandardError())};
  }

  OwnHome home_;

 private slots:
  void help_and_version_need_no_screen() {
    const Answer version = start_without_screen({QStringLiteral("--version")}, QStringLiteral("C.UTF-8"));
    QCOMPARE(version.status, 0);
    QVERIFY2(version.out.startsWith(QStringLiteral("tintfall-viewer ")), qPrintable(version.out));
    const Answer help = start_without_screen({QStringLiteral("--help")}, QStringLiteral("C.UTF-8"));
    QCOMPARE(help.status, 0);
    QVERIFY2(help.out.contains(QStringLiteral("[file]")), qPrintable(help.out));
  }

  void an_unknown_option_is_a_wrong_call() {
    const Answer answer = start_without_screen({QStringLiteral("--bogus")}, QStringLiteral("C.UTF-8"));
    QCOMPARE(answer.status, status_bad_call);
    QVERIFY2(answer.err.contains(QStringLiteral("bogus")), qPrintable(answer.err));
  }

  void without_a_screen_it_says_so() {
    const Answer english = start_without_screen({QStringLiteral("photo.jpg")}, QStringLiteral("C.UTF-8"));
    QCOMPARE(english.status, status_bad_call);
    QVERIFY2(english.err.contains(QStringLiteral("no screen")) &&
                 english.err.contains(QStringLiteral("WAYLAND_DISPLAY")),
             qPrintable(english.err));
    QCOMPARE(english.err.trimmed().count(QLatin1Char('\n')), 0);
    QVERIFY(english.out.isEmpty());
    const Answer german = start_without_screen({}, QStringLiteral("de_DE.UTF-8"));
    QCOMPARE(german.status, status_bad_call);
    QVERIFY2(german.err.contains(QStringLiteral("keinen Bildschirm")), qPrintable(german.err));
  }

  void a_screen_that_cannot_be_reached_is_named() {
    const QString nowhere = QStringLiteral("nowhere.invalid:7");
    const Answer english =
        start_without_screen({QStringLiteral("photo.jpg")}, QStringLiteral("C.UTF-8"), nowhere);
    QCOMPARE(english.status, status_bad_call);
    QVERIFY2(english.err.contains(QStringLiteral("no screen")) && english.err.contains(nowhere),
             qPrintable(english.err));
    QCOMPARE(english.err.trimmed().count(QLatin1Char('\n')), 0);
    const Answer german = start_without_screen({}, QStringLiteral("de_DE.UTF-8"), nowhere);
    QVERIFY2(german.err.contains(QStringLiteral("keinen Bildschirm")), qPrintable(german.err));
  }
};

}  // namespace tintfall::viewer

QTEST_MAIN(tintfall::viewer::ViewerStartTest)
#include "viewer_start_test.moc"
