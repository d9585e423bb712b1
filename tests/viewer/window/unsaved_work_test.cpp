// Work is not thrown away unasked: on closing, on opening another photo, on dropping one.
#include <QDir>
#include <QDragEnterEvent>
#include <QFile>
#include <QLineEdit>
#include <QMimeData>
#include <QSignalSpy>
#include <QTabWidget>
#include <QUndoStack>
#include <QUrl>
#include <tests/viewer/window/window_driver.hpp>
#include <viewer/document/document_commands.hpp>
#include <viewer/window/unsaved_work.hpp>

namespace tintfall::viewer {

class UnsavedWorkTest : public QObject {
  Q_OBJECT

 private:
  OwnHome home_;
  int asked_ = 0;

  /// Answers in the user's place from now on.
  void answer(MainWindow& window, UnsavedAnswer with, const QString& file = {}) {
    window.photo_page().unsaved_work().set_questions({[this, with](const QString&) {
                                                        ++asked_;
                                                        return with;
                                                      },
                                                      [file](const QString&) { return file; }});
  }
  /// A window with a photo and a region drawn on it, whose copy is kept.
  bool draw(MainWindow& window, const DemoPhoto& demo) {
    window.show();
    if (!open_and_read(window, demo.photo, demo.reference)) return false;
    PhotoPage& page = window.photo_page();
    page.view().setFocus();
    QTest::keyClick(&page.view(), Qt::Key_F3);
    QTest::keyClick(&page.view(), Qt::Key_Return);
    asked_ = 0;
    return wait_until([&] { return QFile::exists(page.recovery().file()); }, 10'000);
  }
  static void drop(PhotoPage& page, const QString& file) {
    QMimeData data;
    data.setUrls({QUrl::fromLocalFile(file)});
    QDragEnterEvent enter(QPoint(50, 50), Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier);
    QApplication::sendEvent(&page, &enter);
    QDropEvent event(QPointF(50, 50), Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier);
    QApplication::sendEvent(&page, &event);
  }

 private slots:
  void closing_asks_and_stays_when_told_so() {
    MainWindow window;
    QVERIFY(draw(window, demo_photo(home_)));
    answer(window, UnsavedAnswer::stay);
    QVERIFY(!window.close());
    QCOMPARE(asked_, 1);
    QVERIFY(window.isVisible());
    QVERIFY(QFile::exists(window.photo_page().recovery().file()));
    QCOMPARE(window.photo_page().document().regions().regions.items.size(), std::size_t{2});
    // Given up, it goes with its copy.
    answer(window, UnsavedAnswer::discard);
    QVERIFY(window.close());
    QCOMPARE(asked_, 2);
    QVERIFY(!QFile::exists(window.photo_page().recovery().file()));
  }

  void closing_saves_and_closes() {
    MainWindow window;
    QVERIFY(draw(window, demo_photo(home_)));
    const QString file = home_.path(QStringLiteral("kept.tintfall"));
    answer(window, UnsavedAnswer::save, {});  // no file is chosen
    window.close();
    QTest::qWait(50);
    QVERIFY(window.isVisible());
    answer(window, UnsavedAnswer::save, home_.path(QStringLiteral("no such folder/kept.tintfall")));
    window.close();
    PhotoDocument& document = window.photo_page().document();
    QSignalSpy failures(&document, &PhotoDocument::save_failed);
    QVERIFY(failures.wait(10'000));
    QVERIFY(window.isVisible() && document.has_unsaved_work());
    answer(window, UnsavedAnswer::save, file);
    window.close();
    QVERIFY(wait_until([&] { return !window.isVisible(); }, 10'000));
    QVERIFY(QFile::exists(file));
    QVERIFY(!QFile::exists(window.photo_page().recovery().file()));
    QCOMPARE(asked_, 3);
  }

  void another_photo_asks_first() {
    const DemoPhoto demo = demo_photo(home_), other = demo_photo(home_, "QH-05");
    MainWindow window;
    QVERIFY(draw(window, demo));
    PhotoPage& page = window.photo_page();
    PhotoDocument& document = page.document();
    answer(window, UnsavedAnswer::stay);
    window.open(other.photo);
    drop(page, other.photo);
    QCOMPARE(asked_, 2);
    QCOMPARE(document.photo_path(), demo.photo);
    QCOMPARE(document.regions().regions.items.size(), std::size_t{2});
    const QString file = home_.path(QStringLiteral("first.tintfall"));
    answer(window, UnsavedAnswer::save, file);
    drop(page, other.photo);
    QVERIFY(wait_until([&] { return document.photo_path() == other.photo; }, 10'000));
    QVERIFY(QFile::exists(file));
    QCOMPARE(asked_, 3);
    // Nothing was done with this one: nobody is asked.
    drop(page, file);
    QVERIFY(wait_until([&] { return document.work_path() == file && document.readings_are_current(); }));
    QCOMPARE(document.regions().regions.items.size(), std::size_t{2});
    QVERIFY(window.close());
    QCOMPARE(asked_, 3);
  }

  void what_was_done_and_undone_is_no_work() {
    MainWindow window;
    QVERIFY(draw(window, demo_photo(home_)));
    PhotoPage& page = window.photo_page();
    answer(window, UnsavedAnswer::stay);
    page.document().undo_stack().undo();
    QVERIFY(wait_until([&] { return !QFile::exists(page.recovery().file()); }, 10'000));
    QVERIFY(window.close());
    QCOMPARE(asked_, 0);
  }

  void words_still_being_typed_count() {
    const DemoPhoto demo = demo_photo(home_);
    MainWindow window;
    window.show();
    QVERIFY(open_and_read(window, demo.photo, demo.reference));
    PhotoPage& page = window.photo_page();
    page.tabs().setCurrentIndex(3);
    QLineEdit* item = nullptr;
    for (QLineEdit* each : page.findChildren<QLineEdit*>())
      if (each->accessibleName() == QStringLiteral("Item")) item = each;
    QVERIFY(item != nullptr);
    window.activateWindow();
    item->setFocus();
    QTest::keyClicks(item, QStringLiteral("QH-03"));
    asked_ = 0;
    answer(window, UnsavedAnswer::stay);
    QVERIFY(!window.close());
    QCOMPARE(asked_, 1);
    QCOMPARE(page.document().setup().subject.item, std::string("QH-03"));
  }
};

}  // namespace tintfall::viewer

QTEST_MAIN(tintfall::viewer::UnsavedWorkTest)
#include "unsaved_work_test.moc"
