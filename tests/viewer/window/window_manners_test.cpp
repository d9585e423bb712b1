// Manners: names for screen readers, keys, models, threads, appearance.
#include <QAbstractItemModelTester>
#include <QAccessible>
#include <QApplication>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QMenu>
#include <QRegularExpression>
#include <QScrollBar>
#include <QStackedWidget>
#include <QTabBar>
#include <QTabWidget>
#include <QThread>
#include <QToolButton>
#include <colorlib/base/cautions.hpp>
#include <new>
#include <stdexcept>
#include <tests/viewer/window/window_driver.hpp>
#include <viewer/document/document_commands.hpp>
#include <viewer/window/appearance.hpp>
#include <viewer/window/color_plane.hpp>
#include <viewer/window/magnifier.hpp>

namespace tintfall::viewer {

class WindowMannersTest : public QObject {
  Q_OBJECT

 private:
  /// Rows of tabs and editors of number fields: the focus lies on them, so screen readers say their names.
  static bool takes_keys(const QWidget* widget) {
    return qobject_cast<const QTabBar*>(widget) != nullptr ||
           qobject_cast<const QLineEdit*>(widget) != nullptr;
  }
  /// Parts that Qt makes inside its own widgets: what is asked for is the name of the whole.
  static bool inner_part(const QWidget* widget) {
    const QString name = widget->objectName();
    return (name.startsWith(QLatin1String("qt_")) && !takes_keys(widget)) ||
           name.startsWith(QLatin1String("ScrollLeft")) || name.startsWith(QLatin1String("ScrollRight")) ||
           qobject_cast<const QHeaderView*>(widget) || qobject_cast<const QScrollBar*>(widget) ||
           widget->inherits("QTableCornerButton") || widget->inherits("QSplitterHandle") ||
           widget->inherits("QComboBoxPrivateContainer") || widget->inherits("QMenuBarExtension") ||
           widget->inherits("QToolBarExtension");
  }
  static QString spoken_name(const QWidget* widget) {
    if (!widget->accessibleName().isEmpty()) return widget->accessibleName();
    if (QAccessibleInterface* face = QAccessible::queryAccessibleInterface(const_cast<QWidget*>(widget)))
      return face->text(QAccessible::Name);
    return {};
  }
  /// Plain holders (no focus, no paint of their own) need no name.
  static bool plain_holder(const QWidget* widget) {
    return widget->metaObject()->className() == QByteArray("QWidget") || widget->inherits("QStackedWidget");
  }

  OwnHome home_;

 private slots:
  void every_visible_widget_has_a_name() {
    const DemoPhoto demo = demo_photo(home_);
    MainWindow window;
    window.show();
    QVERIFY(open_and_read(window, demo.photo, demo.reference));
    QStringList nameless;
    int walked = 0;
    const auto walk = [&] {
      QTest::qWait(30);
      for (const QWidget* widget : window.findChildren<QWidget*>()) {
        if (!widget->isVisible() || inner_part(widget) || plain_holder(widget)) continue;
        ++walked;
        if (spoken_name(widget).isEmpty())
          nameless.push_back(QStringLiteral("%1 in %2")
                                 .arg(QLatin1String(widget->metaObject()->className()),
                                      QLatin1String(widget->parentWidget()->metaObject()->className())));
      }
    };
    for (int page = 0; page < window.pages().count(); ++page) {
      window.pages().setCurrentIndex(page);
      walk();
      for (QTabWidget* tabs : window.pages().currentWidget()->findChildren<QTabWidget*>())
        for (int tab = 0; tab < tabs->count(); ++tab) {
          tabs->setCurrentIndex(tab);
          walk();
        }
    }
    nameless.removeDuplicates();
    QVERIFY2(nameless.isEmpty(), qPrintable(nameless.join(QStringLiteral("\n"))));
    QVERIFY(walked > 100);
  }

  void tab_goes_through_the_page_buttons_then_through_the_page() {
    MainWindow window;
    window.resize(1280, 720);
    window.show();
    for (int page = 0; page < window.pages().count(); ++page) {
      window.pages().setCurrentIndex(page);
      QTest::qWait(30);
      QList<QWidget*> way;
      QWidget* first = nullptr;
      for (QToolButton* each : window.findChildren<QToolButton*>())
        if (first == nullptr && each->accessibleName().startsWith(QStringLiteral("Page: "))) first = each;
      QVERIFY(first != nullptr);
      for (QWidget* at = first; way.size() < 400;) {
        if (at->isVisible() && (at->focusPolicy() & Qt::TabFocus) != 0 && at->isEnabled() &&
            at->focusProxy() == nullptr)
          way.push_back(at);
        at = at->nextInFocusChain();
        if (at == first) break;
      }
      QVERIFY(way.size() >= window.pages().count());
      // Where the keys can stop there is a name, inside Qt's own widgets too.
      for (const QWidget* each : window.findChildren<QWidget*>())
        if (each->isVisible() && (each->focusPolicy() & Qt::TabFocus) != 0)
          QVERIFY2(!spoken_name(each).isEmpty(),
                   qPrintable(window.pages().currentWidget()->objectName() + QStringLiteral(": a ") +
                              QLatin1String(each->metaObject()->className()) + QStringLiteral(" in a ") +
                              QLatin1String(each->parentWidget()->metaObject()->className())));
      for (int i = 0; i < static_cast<int>(way.size()); ++i) {
        const bool button = way[i]->accessibleName().startsWith(QStringLiteral("Page: "));
        QVERIFY2(button == (i < window.pages().count()),
                 qPrintable(window.pages().currentWidget()->objectName() + QStringLiteral(": ") +
                            way[i]->accessibleName()));
      }
      // Down the page, and from left to right in a row: nothing stands wholly above and before what came
      // just before it.
      for (qsizetype i = 1; i < way.size(); ++i) {
        const QRect before(way[i - 1]->mapTo(&window, QPoint()), way[i - 1]->size()),
            now(way[i]->mapTo(&window, QPoint()), way[i]->size());
        QVERIFY2(
            now.right() >= before.left() || now.bottom() >= before.top(),
            qPrintable(window.pages().currentWidget()->objectName() + QStringLiteral(": ") +
                       way[i - 1]->accessibleName() + QStringLiteral(" then ") + way[i]->accessibleName()));
      }
    }
  }

  void pages_with_colours_carry_the_cautions() {
    MainWindow window;
    window.resize(1280, 720);
    window.show();
    // Words that are seen whole: the label is as high as they need.
    const auto seen = [&](std::string_view sentence) {
      const QString words = QString::fromUtf8(sentence.data(), static_cast<qsizetype>(sentence.size()));
      for (const QLabel* label : window.findChildren<QLabel*>())
        if (label->isVisible() && label->text().contains(words))
          return label->height() >= label->heightForWidth(label->width());
      return false;
    };
    for (const char* page : {"photo", "reaction", "compare", "catalogue"}) {
      window.show_page(QLatin1String(page));
      QTest::qWait(30);
      QVERIFY2(seen(colorlib::caution_safety), page);
      QCOMPARE(seen(colorlib::caution_reagents), QLatin1String(page) == QLatin1String("reaction"));
    }
    // One photo: as soon as a reagent spot is drawn.
    window.show_page(QStringLiteral("photo"));
    colorlib::Region spot;
    spot.kind = colorlib::RegionKind::spot;
    spot.shape = colorlib::EllipseShape{90, 60, 4, 4};
    add_region(window.photo_page().document(), std::move(spot));
    QVERIFY(wait_until([&] { return seen(colorlib::caution_reagents); }, 5'000));
    QVERIFY(seen(colorlib::caution_safety));
  }

  void every_action_has_a_key_of_its_own() {
    MainWindow window;
    QStringList keys;
    int actions = 0;
    for (const ActionGroup& group : window.action_groups())
      for (const QAction* each : group.actions) {
        if (each == nullptr) continue;
        ++actions;
        QVERIFY2(!each->shortcut().isEmpty(), qPrintable(each->text()));
        QVERIFY2(!keys.contains(each->shortcut().toString()),
                 qPrintable(each->text() + each->shortcut().toString()));
        keys.push_back(each->shortcut().toString());
      }
    QVERIFY(actions > 40);
  }

  void models_keep_the_rules() {
    const DemoPhoto demo = demo_photo(home_);
    MainWindow window;
    PhotoPage& page = window.photo_page();
    const auto mode = QAbstractItemModelTester::FailureReportingMode::QtTest;
    const QAbstractItemModelTester regions(&page.region_model(), mode), issues(&page.issue_model(), mode);
    CheckModel checks;
    const QAbstractItemModelTester of_checks(&checks, mode);
    window.show();
    QVERIFY(open_and_read(window, demo.photo, demo.reference));
    checks.set_checks(page.document().checks());
    QCOMPARE(checks.rowCount(), 10);
    duplicate_region(page.document(), page.view().selected());
    QVERIFY(wait_until([&] { return page.document().readings_are_current(); }));
    QCOMPARE(page.region_model().rowCount(), 2);
    page.document().clear_issues();
    QCOMPARE(page.issue_model().rowCount(), 0);
  }

  void no_job_runs_on_the_windows_thread_and_cancel_is_polled() {
    const DemoPhoto demo = demo_photo(home_);
    MainWindow window;
    PhotoPage& page = window.photo_page();
    QHash<QString, JobTrace> traces;
    const auto note = [&](const JobTrace& trace) {
      JobTrace& known = traces[trace.lane];
      known.on_window_thread |= trace.on_window_thread;
      known.cancel_polls += trace.cancel_polls;
    };
    for (TaskLane* lane : page.document().lanes()) connect(lane, &TaskLane::traced, this, note);
    connect(&page.magnifier().lane(), &TaskLane::traced, this, note);
    connect(&page.color_plane().lane(), &TaskLane::traced, this, note);
    connect(&page.view().tiles(), &TileStore::traced, this, note);
    window.show();
    QVERIFY(open_and_read(window, demo.photo, demo.reference));
    page.view().set_rendering(colorlib::PhotoRendering::calibrated);
    QTest::mouseMove(&page.view(), page.view().rect().center());
    const auto place = page.document().regions().regions.items.front().bounds();
    page.document().grow_from({(place[0] + place[2]) / 2, place[1] + (place[3] - place[1]) / 4}, 12,
                              colorlib::RegionKind::deposit);
    QVERIFY(wait_until([&] {
      return traces.contains(QStringLiteral("grow")) && traces.contains(QStringLiteral("probe")) &&
             traces.contains(QStringLiteral("names"));
    }));
    for (const char* lane : {"open", "sheet", "read", "grow", "probe", "names", "tile"}) {
      QVERIFY2(traces.contains(QLatin1String(lane)), lane);
      QVERIFY2(!traces[QLatin1String(lane)].on_window_thread, lane);
    }
    for (const char* lane : {"open", "sheet", "read", "grow", "probe"})
      QVERIFY2(traces[QLatin1String(lane)].cancel_polls > 0, lane);
  }

  void a_stopped_job_gives_no_answer() {
    const DemoPhoto demo = demo_photo(home_);
    MainWindow window;
    window.show();
    PhotoPage& page = window.photo_page();
    page.open(demo.photo);
    QVERIFY(wait_until([&] { return page.document().photo() != nullptr; }));
    page.document().stop();
    QTest::qWait(1500);
    QVERIFY(page.document().sheet() == nullptr);
    QVERIFY(page.document().readings().empty());
  }

  void a_photo_faster_than_the_screen_profile_waits_for_it() {
    const DemoPhoto demo = demo_photo(home_);
    PhotoDocument document;
    PhotoView view(document);
    view.resize(400, 300);
    document.open_photo(demo.photo, {});
    QVERIFY(wait_until([&] { return document.photo() != nullptr; }));
    QVERIFY(!view.grab().isNull());
    document.stop();
  }

  void late_answers_are_dropped() {
    TaskLane lane(QStringLiteral("test"));
    QList<int> answers;
    std::atomic<bool> hold{true};
    lane.start(
        [&](colorlib::Progress&) {
          while (hold) QThread::msleep(1);
          return 1;
        },
        [&](int answer) { answers.push_back(answer); });
    lane.start([](colorlib::Progress&) { return 2; }, [&](int answer) { answers.push_back(answer); });
    QVERIFY(wait_until([&] { return !answers.isEmpty(); }, 5000));
    hold = false;
    QTest::qWait(100);
    QCOMPARE(answers, QList<int>{2});
    // Where nothing may be lost, jobs wait for one another instead.
    TaskLane files(QStringLiteral("files"), TaskLane::Order::one_after_another);
    QList<int> written;
    hold = true;
    files.start(
        [&](colorlib::Progress&) {
          while (hold) QThread::msleep(1);
          return 1;
        },
        [&](int answer) { written.push_back(answer); });
    for (int i = 2; i <= 4; ++i)
      files.start([i](colorlib::Progress&) { return i; }, [&](int answer) { written.push_back(answer); });
    hold = false;
    QVERIFY(wait_until([&] { return written.size() == 4; }, 5000));
    QCOMPARE(written, (QList<int>{1, 2, 3, 4}));
    // A job that outlives its lane answers nobody.
    auto short_lived = std::make_unique<TaskLane>(QStringLiteral("short"));
    hold = true;
    short_lived->start(
        [&](colorlib::Progress&) {
          while (hold) QThread::msleep(1);
          return 3;
        },
        [&](int answer) { answers.push_back(answer); });
    short_lived.reset();
    hold = false;
    TaskLane::wait_for_all();
    QTest::qWait(20);
    QCOMPARE(answers, QList<int>{2});
  }

  void jobs_that_throw_end_in_an_error_and_nothing_else() {
    using colorlib::Result;
    TaskLane lane(QStringLiteral("test"), TaskLane::Order::one_after_another);
    QStringList told;
    const auto tell = [&](const Result<int>& answer) {
      told.push_back(answer ? QString::number(*answer) : QString::fromStdString(answer.error().message));
    };
    lane.start([](colorlib::Progress&) -> Result<int> { throw std::bad_alloc(); }, tell);
    // An answer that can hold no error is not given; the next job runs all the same.
    QTest::ignoreMessage(QtWarningMsg, QRegularExpression(QStringLiteral("^test: .*seven is even")));
    lane.start([](colorlib::Progress&) -> int { throw std::runtime_error("seven is even"); },
               [&](int) { told.push_back(QStringLiteral("an answer")); });
    lane.start([](colorlib::Progress&) -> Result<int> { return 7; }, tell);
    QVERIFY(wait_until([&] { return told.size() == 2 && !lane.busy(); }, 5000));
    QCOMPARE(told, (QStringList{QStringLiteral("The work needed more memory than there is."),
                                QStringLiteral("7")}));
  }

  void fits_a_small_screen_in_both_appearances() {
    for (const Appearance appearance : {Appearance::light, Appearance::dark}) {
      apply_appearance(appearance);
      MainWindow window;
      window.show();
      QVERIFY2(window.minimumSizeHint().width() <= 1280 && window.minimumSizeHint().height() <= 720,
               qPrintable(QStringLiteral("%1 x %2")
                              .arg(window.minimumSizeHint().width())
                              .arg(window.minimumSizeHint().height())));
      // Greys only: colour belongs to specimens.
      for (int role = 0; role < QPalette::NColorRoles; ++role)
        if (role != QPalette::Link && role != QPalette::LinkVisited && role != QPalette::NoRole)
          QCOMPARE(QApplication::palette().color(static_cast<QPalette::ColorRole>(role)).hsvSaturation(), 0);
    }
  }
};

}  // namespace tintfall::viewer

QTEST_MAIN(tintfall::viewer::WindowMannersTest)
#include "window_manners_test.moc"
