// A narrow window, in both languages: every page fits, and what the user came for keeps its room.
#include <QApplication>
#include <QComboBox>
#include <QDir>
#include <QFileInfo>
#include <QGraphicsScene>
#include <QGraphicsTextItem>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QStackedWidget>
#include <QTabBar>
#include <QTabWidget>
#include <QTableView>
#include <QToolButton>
#include <tests/viewer/window/window_driver.hpp>
#include <viewer/document/document_commands.hpp>
#include <viewer/window/catalogue_page.hpp>
#include <viewer/window/change_curve.hpp>
#include <viewer/window/reading_panel.hpp>
#include <viewer/window/window_language.hpp>
#include <viewer/window/wrapping_row.hpp>

namespace tintfall::viewer {

class NarrowWindowTest : public QObject {
  Q_OBJECT

 private:
  static constexpr QSize narrow{900, 700};

  static void both_languages() {
    QTest::addColumn<QString>("language");
    QTest::newRow("English") << QStringLiteral("en");
    QTest::newRow("German") << QStringLiteral("de");
  }
  static WindowLanguage of_this_row() {
    QFETCH(QString, language);
    return WindowLanguage(language, QFileInfo(QStringLiteral(GERMAN_TRANSLATION)).absolutePath());
  }

  /// What a hand reaches for and does not see whole: cut off by the window's rim, or narrower than its words.
  static QStringList cut_off(const MainWindow& window) {
    QStringList found;
    for (const QWidget* widget : window.findChildren<QWidget*>()) {
      const bool button =
          qobject_cast<const QToolButton*>(widget) != nullptr && !widget->accessibleName().isEmpty();
      if (!widget->isVisible() || (!button && qobject_cast<const QComboBox*>(widget) == nullptr)) continue;
      const QRect place(widget->mapTo(&window, QPoint()), widget->size());
      const bool shortened = button && widget->width() < widget->minimumSizeHint().width();
      if (place.left() < 0 || place.right() >= window.width() || shortened)
        found.push_back(QStringLiteral("%1 from %2 to %3")
                            .arg(widget->accessibleName())
                            .arg(place.left())
                            .arg(place.right()));
    }
    return found;
  }

  static QTableView* table_of(const QWidget& page, const QAbstractItemModel& model) {
    for (QTableView* each : page.findChildren<QTableView*>())
      if (each->model() == &model) return each;
    return nullptr;
  }

  /// Whether the words of this column, and its swatch, are seen whole in every row.
  static bool seen_whole(const QTableView& table, int column) {
    const QAbstractItemView& cells = table;
    return table.model()->rowCount() > 0 && table.columnViewportPosition(column) >= 0 &&
           table.columnWidth(column) >= cells.sizeHintForColumn(column) &&
           table.columnViewportPosition(column) + table.columnWidth(column) <= table.viewport()->width();
  }

  OwnHome home_;

 private slots:
  void every_page_fits_a_narrow_window_data() { both_languages(); }
  void every_page_fits_a_narrow_window() {
    const WindowLanguage language = of_this_row();
    MainWindow window;
    window.resize(narrow);
    window.show();
    for (int page = 0; page < window.pages().count(); ++page) {
      window.pages().setCurrentIndex(page);
      QWidget& shown = *window.pages().currentWidget();
      const auto look = [&] {
        QTest::qWait(30);
        QVERIFY2(window.size() == narrow, qPrintable(QStringLiteral("%1: %2 x %3, the page %4 x %5")
                                                         .arg(shown.objectName())
                                                         .arg(window.width())
                                                         .arg(window.height())
                                                         .arg(shown.minimumSizeHint().width())
                                                         .arg(shown.minimumSizeHint().height())));
        QVERIFY2(cut_off(window).isEmpty(), qPrintable(cut_off(window).join(QStringLiteral("\n"))));
      };
      look();
      for (QTabWidget* tabs : shown.findChildren<QTabWidget*>())
        for (int tab = 0; tab < tabs->count(); ++tab) {
          tabs->setCurrentIndex(tab);
          look();
        }
    }
    qInfo("can be made %d x %d px small", window.minimumSizeHint().width(),
          window.minimumSizeHint().height());
  }

  void the_colour_of_a_photo_keeps_its_room_data() { both_languages(); }
  void the_colour_of_a_photo_keeps_its_room() {
    const WindowLanguage language = of_this_row();
    const DemoPhoto demo = demo_photo(home_);
    MainWindow window;
    window.resize(1024, 700);
    window.show();
    QVERIFY(open_and_read(window, demo.photo, demo.reference));
    PhotoPage& page = window.photo_page();
    QVERIFY(add_control(page));
    QTest::qWait(30);
    QCOMPARE(window.width(), 1024);
    const QTableView* table = table_of(page, page.region_model());
    for (const int column : {RegionModel::name, RegionModel::lab})
      QVERIFY2(seen_whole(*table, column), qPrintable(QString::number(table->columnWidth(column))));
    const QTabBar& tabs = *page.tabs().tabBar();
    for (int tab = 0; tab < tabs.count(); ++tab) {
      QVERIFY2(tabs.rect().contains(tabs.tabRect(tab)), qPrintable(tabs.tabText(tab)));
      QCOMPARE(tabs.tabToolTip(tab), tabs.tabText(tab));
    }
  }

  void what_is_said_of_a_reading_is_seen_whole_data() { both_languages(); }
  void what_is_said_of_a_reading_is_seen_whole() {
    const WindowLanguage language = of_this_row();
    const DemoPhoto demo = demo_photo(home_, "QH-02");  // an uneven deposit, whose thickest tenth is told
    MainWindow window;
    window.resize(narrow);
    window.show();
    QVERIFY(open_and_read(window, demo.photo, demo.reference));
    QTest::qWait(30);
    const ShownReading* reading = window.photo_page().current_reading();
    QVERIFY(reading != nullptr && reading->tenth);
    const ReadingPanel& panel = window.photo_page().reading_panel();
    QVERIFY(panel.parentWidget()->width() <= narrow.width() / 2);
    bool tenth_is_told = false;
    for (const QLabel* label : panel.findChildren<QLabel*>()) {
      if (!label->isVisible()) continue;
      tenth_is_told |= label->text().contains(reading->tenth->name + QStringLiteral(", ΔE00"));
      QVERIFY2(label->height() >= label->heightForWidth(label->width()), qPrintable(label->text()));
      const int right = label->mapTo(panel.parentWidget(), QPoint(label->width(), 0)).x();
      QVERIFY2(right <= panel.parentWidget()->width(), qPrintable(label->text()));
    }
    QVERIFY(tenth_is_told);
  }

  void the_colours_of_the_catalogue_keep_their_room_data() { both_languages(); }
  void the_colours_of_the_catalogue_keep_their_room() {
    const WindowLanguage language = of_this_row();
    Preferences().catalogue.set(home_.path(QStringLiteral("%1.db").arg(QTest::currentDataTag())));
    MainWindow window;
    window.resize(1024, 700);
    window.show();
    window.show_page(QStringLiteral("catalogue"));
    CataloguePage& page = window.catalogue_page();
    const QDir records(QStringLiteral(TINTFALL_SOURCE_FOLDER "/docs/demo/exchange_1/readings"));
    QStringList files;
    for (const QString& name : records.entryList({QStringLiteral("*.json")}))
      files.push_back(records.filePath(name));
    page.add_files(files);
    QVERIFY(wait_until([&] { return !page.busy() && page.hit_table().model()->rowCount() > 1; }));
    QTest::qWait(30);
    QCOMPARE(window.width(), 1024);
    for (const int column : {HitModel::name, HitModel::lab})
      QVERIFY2(seen_whole(page.hit_table(), column),
               qPrintable(QString::number(page.hit_table().columnWidth(column))));
  }

  void words_round_the_curve_are_whole_data() { both_languages(); }
  void words_round_the_curve_are_whole() {
    const WindowLanguage language = of_this_row();
    auto outcome = std::make_shared<SeriesOutcome>();
    outcome->record = std::make_shared<const colorlib::SeriesRecord>();
    CourseLine line;
    line.id = QStringLiteral("B1");
    for (int i = 0; i < 5; ++i) {
      CourseMark mark;
      mark.seconds = 10 * i;
      mark.change_de00 = 3 * i;
      mark.change_expanded = 1;
      line.marks.push_back(mark);
    }
    outcome->lines.push_back(line);
    ChangeCurve curve;
    curve.resize(400, 220);
    curve.show();
    curve.set_outcome(outcome);
    QTest::qWait(50);
    int words = 0;
    for (const QGraphicsItem* item : curve.scene()->items())
      if (const auto* text = qgraphicsitem_cast<const QGraphicsTextItem*>(item)) {
        words += text->isVisible() && text->toPlainText().contains(QStringLiteral("ΔE00"));
        QVERIFY2(!text->toPlainText().contains(QStringLiteral("...")), qPrintable(text->toPlainText()));
      }
    QVERIFY(words > 0);
  }

  void a_row_wraps_and_keeps_together_what_belongs_together() {
    QWidget holder;
    auto* row = new WrappingRow(&holder);
    std::vector<QWidget*> parts;
    const auto part = [&](int width) {
      parts.push_back(new QWidget);
      parts.back()->setFixedSize(width, 20);
      return parts.back();
    };
    row->addWidget(part(100));
    row->add_gap(10);
    row->add_together({part(60), part(60)});
    row->add_stretch();
    row->addWidget(part(50));
    holder.resize(400, 100);
    holder.show();
    QTest::qWait(10);
    for (const QWidget* each : parts) QCOMPARE(each->y(), parts.front()->y());
    QCOMPARE(parts.back()->geometry().right(), 399);  // the stretch stands before it
    QCOMPARE(row->heightForWidth(400), 20);
    holder.resize(180, 100);
    QTest::qWait(10);
    QVERIFY(parts[1]->y() >= 20);
    QCOMPARE(parts[1]->x(), 0);  // no gap before a line
    QCOMPARE(parts[2]->y(), parts[1]->y());
    QVERIFY(row->heightForWidth(180) > row->heightForWidth(400));
    QVERIFY(row->minimumSize().width() <= 130);
    // A field that may grow takes what is to spare, its label does not.
    auto* label = new QLabel(QStringLiteral("x"));
    auto* field = new QLineEdit;
    row->add_together({label, field});
    holder.resize(900, 100);
    QTest::qWait(10);
    QCOMPARE(label->width(), label->sizeHint().width());
    QVERIFY(field->width() > field->sizeHint().width());
  }
};

}  // namespace tintfall::viewer

QTEST_MAIN(tintfall::viewer::NarrowWindowTest)
#include "narrow_window_test.moc"
