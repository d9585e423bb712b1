// A printed sheet gets on the user's list from the window as by `tintfall sheet add`.
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTabWidget>
#include <QUndoStack>
#include <tests/viewer/window/window_driver.hpp>
#include <viewer/command/sheet_settings.hpp>
#include <viewer/window/add_sheet_dialog.hpp>

namespace tintfall::viewer {

class AddSheetTest : public QObject {
  Q_OBJECT

 private:
  OwnHome home_;

  template <class Widget>
  static Widget* named(QWidget& whole, const char* name) {
    for (Widget* each : whole.findChildren<Widget*>())
      if (each->accessibleName() == QLatin1String(name)) return each;
    return nullptr;
  }
  static std::vector<PrintedSheet> listed() {
    const auto file = sheet_settings_file();
    const auto sheets = read_sheets(*file);
    return sheets ? *sheets : std::vector<PrintedSheet>{};
  }

 private slots:
  void a_sheet_is_added_chosen_and_kept() {
    const DemoPhoto demo = demo_photo(home_);
    MainWindow window;
    window.show();
    QVERIFY(open_and_read(window, demo.photo, {}));
    PhotoPage& page = window.photo_page();
    page.tabs().setCurrentIndex(3);
    auto* sheets = named<QComboBox>(page, "Printed sheet from your list");
    auto* charts = named<QComboBox>(page, "Sheet in the photo");
    QVERIFY(sheets != nullptr && charts != nullptr);
    QVERIFY(wait_until([&] { return charts->count() > 3; }, 10'000));
    QCOMPARE(sheets->count(), 1);
    const int known = charts->count();
    QTest::mouseClick(named<QPushButton>(page, "Add a printed sheet to your list"), Qt::LeftButton);
    auto* dialog = page.findChild<AddSheetDialog*>();
    QVERIFY(dialog != nullptr && dialog->isVisible());
    // What cannot be used is not added, and said where it was typed.
    auto* label = named<QLineEdit>(*dialog, "Label of the sheet");
    auto* reference = named<QLineEdit>(*dialog, "File of measured values");
    auto* chart = named<QComboBox>(*dialog, "Chart of the sheet");
    QTest::keyClicks(label, QStringLiteral("A5-03"));
    chart->setCurrentIndex(chart->findData(QStringLiteral("frame-a5")));
    reference->setText(demo.photo);
    dialog->add();
    QVERIFY(wait_until([&] { return !dialog->words().isEmpty(); }, 10'000));
    QVERIFY(dialog->isVisible() && listed().empty());
    QTest::qWait(30);
    const auto* why = named<QLabel>(*dialog, "Why it could not be added");
    QVERIFY(why->isVisible() && why->height() >= why->heightForWidth(why->width()));
    reference->setText(demo.reference);
    dialog->add();
    QVERIFY(wait_until([&] { return sheets->count() == 2; }, 10'000));
    QCOMPARE(listed(),
             (std::vector<PrintedSheet>{{"A5-03", "frame-a5", demo.reference.toStdString(), std::string()}}));
    // It is the sheet of this photo now, and the list is not doubled.
    PhotoDocument& document = page.document();
    QCOMPARE(document.setup().sheet, QStringLiteral("A5-03"));
    QCOMPARE(sheets->currentText(), QStringLiteral("A5-03"));
    QCOMPARE(charts->count(), known);
    QVERIFY(wait_until([&] { return document.readings_are_current(); }));
    QVERIFY(document.sheet()->reference.kind == colorlib::ReferenceKind::measured);
    document.undo_stack().undo();
    QVERIFY(document.setup().sheet.isEmpty());
  }

  void a_label_that_is_taken_is_replaced_only_when_told() {
    SheetTyped typed{QStringLiteral("field"), QStringLiteral("strip"), {}, {}, false};
    QVERIFY(add_printed_sheet(typed));
    typed.chart = QStringLiteral("frame-a5");
    QVERIFY(!add_printed_sheet(typed));
    typed.replace = true;
    QVERIFY(add_printed_sheet(typed));
    QCOMPARE(listed().back().chart, std::string("frame-a5"));
  }
};

}  // namespace tintfall::viewer

QTEST_MAIN(tintfall::viewer::AddSheetTest)
#include "add_sheet_test.moc"
