// What was not saved survives a program that is killed.
#include <QFile>
#include <QProcess>
#include <QRegularExpression>
#include <QTableView>
#include <csignal>
#include <tests/viewer/window/window_driver.hpp>
#include <viewer/document/document_commands.hpp>
#include <viewer/window/reading_panel.hpp>
#include <viewer/window/unsaved_work.hpp>

namespace tintfall::viewer {

class RecoveryTest : public QObject {
  Q_OBJECT

 private:
  OwnHome home_;

 private slots:
  void work_survives_kill_9() {
    const DemoPhoto demo = demo_photo(home_);
    // A program of its own opens the photo, draws two regions and says when they are kept; then it is killed.
    QProcess victim;
    victim.setProcessChannelMode(QProcess::ForwardedErrorChannel);
    victim.start(QStringLiteral(RECOVERY_VICTIM), {demo.photo, demo.reference});
    QVERIFY(victim.waitForStarted());
    QByteArray said;
    QVERIFY(wait_until([&] {
      victim.waitForReadyRead(50);
      said += victim.readAllStandardOutput();
      return said.contains("kept") || victim.state() == QProcess::NotRunning;
    }));
    QVERIFY2(said.contains("kept"), said.constData());
    // While it lives, its work is its own.
    QVERIFY(Recovery::abandoned(Recovery::default_folder()).isEmpty());
    ::kill(static_cast<pid_t>(victim.processId()), SIGKILL);
    QVERIFY(victim.waitForFinished());
    QCOMPARE(Recovery::abandoned(Recovery::default_folder()).size(), 1);

    MainWindow window;
    window.show();
    window.restore_session();
    PhotoDocument& document = window.photo_page().document();
    QVERIFY(wait_until([&] { return document.readings_are_current() && document.readings().size() == 3; }));
    QCOMPARE(document.setup().reference, demo.reference);
    QCOMPARE(document.setup().subject.item, std::string("QH-03"));
    bool told = false;
    for (const Issue& issue : document.issues()) told |= issue.code == QLatin1String("recovered");
    QVERIFY(told);
    // One of them is chosen, and the panel tells what was read of it.
    PhotoPage& page = window.photo_page();
    QVERIFY(document.reading_of(page.view().selected()) != nullptr);
    const QTableView* table = nullptr;
    for (const QTableView* each : page.findChildren<QTableView*>())
      if (each->model() == &page.region_model()) table = each;
    QCOMPARE(table->selectionModel()->selectedRows().value(0).row(),
             page.region_model().row_of(page.view().selected()));
    QVERIFY2(page.reading_panel().lab_text().startsWith(QStringLiteral("L* ")),
             qPrintable(page.reading_panel().name_text()));
    QVERIFY(Recovery::abandoned(Recovery::default_folder()).isEmpty());  // it is this window's now
    QVERIFY(document.has_unsaved_work());
    QVERIFY(QFile::exists(page.recovery().file()));
    page.unsaved_work().set_questions({[](const QString&) { return UnsavedAnswer::discard; }, {}});
    QVERIFY(window.close());
    QVERIFY(!QFile::exists(page.recovery().file()));
  }

  void an_end_without_an_answer_leaves_the_work() {
    const DemoPhoto demo = demo_photo(home_);
    {
      MainWindow window;
      window.show();
      QVERIFY(open_and_read(window, demo.photo, demo.reference));
      duplicate_region(window.photo_page().document(), window.photo_page().view().selected());
      QVERIFY(wait_until([&] { return QFile::exists(window.photo_page().recovery().file()); }, 10'000));
    }
    QCOMPARE(Recovery::abandoned(Recovery::default_folder()).size(), 1);
    MainWindow window;
    window.show();
    window.restore_session();
    PhotoDocument& document = window.photo_page().document();
    QVERIFY(wait_until([&] { return document.readings_are_current() && document.readings().size() == 2; }));
    // Saved, it needs no copy any more.
    QSignalSpy saved(&document, &PhotoDocument::saved);
    document.save_work(home_.path(QStringLiteral("again.tintfall")));
    QVERIFY(saved.wait(10'000));
    QVERIFY(!document.has_unsaved_work());
    QVERIFY(!QFile::exists(window.photo_page().recovery().file()));
    QVERIFY(window.close());
    QVERIFY(Recovery::abandoned(Recovery::default_folder()).isEmpty());
  }

  void an_orderly_end_leaves_nothing() {
    const DemoPhoto demo = demo_photo(home_);
    QString file;
    {
      MainWindow window;
      window.show();
      QVERIFY(open_and_read(window, demo.photo, demo.reference));
      duplicate_region(window.photo_page().document(), window.photo_page().view().selected());
      QVERIFY(wait_until(
          [&] {
            return window.photo_page().recovery().file().size() > 0 &&
                   QFile::exists(window.photo_page().recovery().file());
          },
          10'000));
      file = window.photo_page().recovery().file();
      window.photo_page().unsaved_work().set_questions(
          {[](const QString&) { return UnsavedAnswer::discard; }, {}});
      QVERIFY(window.close());
    }
    QVERIFY(!QFile::exists(file));
    QVERIFY(Recovery::abandoned(Recovery::default_folder()).isEmpty());
  }
};

}  // namespace tintfall::viewer

QTEST_MAIN(tintfall::viewer::RecoveryTest)
#include "recovery_test.moc"
