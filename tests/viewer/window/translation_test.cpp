// The German translation: nothing missing, colorlib's sentences included, and it fits the window.
#include <QApplication>
#include <QDirIterator>
#include <QFile>
#include <QFileInfo>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QRegularExpression>
#include <QStackedWidget>
#include <QTableView>
#include <QToolButton>
#include <QTranslator>
#include <cmath>
#include <colorlib/base/cautions.hpp>
#include <colorlib/base/data_folder.hpp>
#include <colorlib/chart/chart_definition.hpp>
#include <colorlib/naming/color_change.hpp>
#include <colorlib/reaction/reaction_bins.hpp>
#include <colorlib/records/collection.hpp>
#include <colorlib/specimen/flags.hpp>
#include <set>
#include <tests/viewer/window/window_driver.hpp>
#include <viewer/document/document_commands.hpp>
#include <viewer/document/photo_document.hpp>
#include <viewer/models/catalogue_models.hpp>
#include <viewer/models/remark_words.hpp>
#include <viewer/models/sentence_words.hpp>
#include <viewer/settings/figures.hpp>
#include <viewer/tasks/error_words.hpp>
#include <viewer/tasks/export_jobs.hpp>
#include <viewer/tasks/sheet_jobs.hpp>
#include <viewer/tasks/window_wording.hpp>
#include <viewer/translations/colorlib_sentences.hpp>
#include <viewer/translations/error_sentences.hpp>
#include <viewer/window/catalogue_page.hpp>
#include <viewer/window/guide_drawing.hpp>
#include <viewer/window/reading_panel.hpp>
#include <viewer/window/series_page.hpp>
#include <viewer/window/time_line.hpp>
#include <viewer/window/window_language.hpp>

namespace tintfall::viewer {

class TranslationTest : public QObject {
  Q_OBJECT

 private:
  OwnHome home_;
  QTranslator german_;

 private slots:
  void initTestCase() {
    QVERIFY(german_.load(QStringLiteral(GERMAN_TRANSLATION)));
    QVERIFY(QApplication::installTranslator(&german_));
  }

  void sentences_of_the_library_are_translated() {
    const auto translated = [](std::string_view text) {
      const QByteArray source(text.data(), static_cast<qsizetype>(text.size()));
      return QCoreApplication::translate("colorlib", source.constData()) != QString::fromUtf8(source);
    };
    for (const auto& flag : colorlib::known_flags()) QVERIFY2(translated(flag.advice), flag.code.c_str());
    QVERIFY(translated(colorlib::caution_safety));
    QVERIFY(translated(colorlib::caution_reagents));
    QVERIFY(translated(colorlib::caution_names));
    for (const auto& field : colorlib::collection_fields()) {
      const QString name = QString::fromUtf8(field.name.data(), static_cast<qsizetype>(field.name.size()));
      QVERIFY2(field_word(name) != name, qPrintable(name));
    }
    QCOMPARE(sentence_words(QStringLiteral("12 of 17 photos")), QStringLiteral("12 von 17 Fotos"));
    for (const char* sentence : colorlib_sentences) QVERIFY2(translated(sentence), sentence);
  }

  void errors_say_first_in_german_what_their_code_means() {
    std::set<QString> meanings;
    for (int i = 0; i <= static_cast<int>(colorlib::ErrorCode::cancelled); ++i) {
      const auto code = static_cast<colorlib::ErrorCode>(i);
      const std::string_view name = colorlib::code_name(code);
      const QString spelling = QString::fromUtf8(name.data(), static_cast<qsizetype>(name.size()));
      const QString meaning = QCoreApplication::translate("Errors", meaning_of(code));
      QVERIFY2(meaning != QLatin1String(meaning_of(code)), qPrintable(spelling));
      meanings.insert(meaning);
      const QString said = error_words({code, "Reading 'x.jpg': it is empty.", "Take it again."});
      QVERIFY2(said.startsWith(meaning) &&
                   said.contains(QStringLiteral("Einzelheiten (englisch): Reading 'x.jpg'")),
               qPrintable(said));
    }
    QCOMPARE(static_cast<int>(meanings.size()), static_cast<int>(colorlib::ErrorCode::cancelled) + 1);
    const colorlib::Error problem{colorlib::ErrorCode::unreadable_photo, "Reading 'x.jpg': it is empty.",
                                  "Fix the sheet to a stiff board."};
    QCOMPARE(advice_words(problem), QStringLiteral("Das Blatt auf eine steife Pappe kleben."));
    QCOMPARE(short_error_words(problem),
             QStringLiteral("Das Foto fehlt, ist leer, abgeschnitten, beschädigt oder zu groß."));
    QVERIFY(QApplication::removeTranslator(&german_));
    const QString in_english = message_words(problem);
    QVERIFY(QApplication::installTranslator(&german_));
    QCOMPARE(in_english, QStringLiteral("Reading 'x.jpg': it is empty."));
  }

  void sentences_of_errors_are_translated_and_still_said() {
    // Every sentence as its source has it, literals over several lines put together.
    static const QRegularExpression line_end(QStringLiteral("\"\\s*\\n\\s*\""));
    QString sources;
    for (const char* folder : {"/colorlib", "/viewer/command", "/viewer/tasks"})
      for (QDirIterator each(QLatin1String(TINTFALL_SOURCE_FOLDER) + QLatin1String(folder),
                             {QStringLiteral("*.cpp"), QStringLiteral("*.hpp")}, QDir::Files,
                             QDirIterator::Subdirectories);
           each.hasNext();) {
        QFile source(each.next());
        QVERIFY(source.open(QIODevice::ReadOnly));
        sources += QString::fromUtf8(source.readAll()).remove(line_end);
      }
    for (const char* sentence : error_sentences) {
      const QString words = QString::fromUtf8(sentence);
      QVERIFY2(sources.contains(QStringLiteral("\"%1\"").arg(words)), sentence);
      QVERIFY2(advice_words({colorlib::ErrorCode::bad_call, {}, sentence}) != words, sentence);
    }
    const colorlib::Error known{colorlib::ErrorCode::untrustworthy, "The place lies outside the photo.",
                                "Point inside the photo."};
    QCOMPARE(error_words(known), QStringLiteral("Die Stelle liegt außerhalb des Fotos. Zeige auf das Foto."));
  }

  void what_checks_measured_is_translated() {
    QCOMPARE(sentence_words(QStringLiteral("light differs by ΔE00 3.1 across the sheet")),
             QStringLiteral("Licht unterscheidet sich über das Blatt um ΔE00 3.1"));
    // Every clause, as its source has it.
    QFile source(QStringLiteral(TINTFALL_SOURCE_FOLDER "/colorlib/specimen/photo_checks.cpp"));
    QVERIFY(source.open(QIODevice::ReadOnly));
    const QString text = QString::fromUtf8(source.readAll());
    static const QRegularExpression composed(QStringLiteral("fmt::format\\(\\s*\"([^\"]+)\""));
    static const QRegularExpression figure(QStringLiteral("\\{[^}]*\\}"));
    QStringList clauses{QStringLiteral("kind not said"), QStringLiteral("taken to lie in the sheet's plane"),
                        QStringLiteral("not known; the uncertainty of L* allows for it")};
    for (const QString& clause : clauses) QVERIFY2(text.contains(clause), qPrintable(clause));
    for (auto found = composed.globalMatch(text); found.hasNext();) {
      const QString clause = found.next().captured(1);
      if (clause == QStringLiteral("you said {}"))
        for (const char* light : {"daylight", "lamp", "tube", "mixed"})
          clauses.push_back(QStringLiteral("you said %1").arg(QLatin1String(light)));
      else if (clause == QStringLiteral("values of the patches: {}"))
        for (const char* kind : {"measured", "transferred", "nominal"})
          clauses.push_back(QStringLiteral("values of the patches: %1").arg(QLatin1String(kind)));
      else
        clauses.push_back(QString(clause).replace(figure, QStringLiteral("12.3")));
    }
    QVERIFY(clauses.size() >= 18);
    for (const QString& clause : clauses) QVERIFY2(sentence_words(clause) != clause, qPrintable(clause));
  }

  void remarks_on_comparisons_are_translated() {
    // Every remark, as its source has it.
    static const QRegularExpression line_end(QStringLiteral("\"\\s*\\n\\s*\""));
    static const QRegularExpression sentence(QStringLiteral("\"([^\"]+\\.)\""));
    int remarks = 0;
    for (const auto& [file, from] : {std::pair{"comparison.cpp", "void add_remarks("},
                                     {"round_table.cpp", "std::vector<std::string> remarks_on("}}) {
      QFile source(QStringLiteral(TINTFALL_SOURCE_FOLDER "/colorlib/comparison/") + QLatin1String(file));
      QVERIFY(source.open(QIODevice::ReadOnly));
      QString text = QString::fromUtf8(source.readAll()).remove(line_end);
      text = text.mid(text.indexOf(QLatin1String(from)));
      text = text.left(text.indexOf(QStringLiteral("\n}\n")));
      for (auto found = sentence.globalMatch(text); found.hasNext(); ++remarks) {
        QString remark = found.next().captured(1);
        if (remark.startsWith(QStringLiteral("Item ")))
          remark = QStringLiteral("Item QH-03 mixes readings of different tissue: cap, stem 2.5.");
        else
          remark.replace(QStringLiteral("{}"), QStringLiteral("12"));
        QVERIFY2(remark_words(remark) != remark, qPrintable(remark));
        QVERIFY2(!remark_words(remark).contains(QLatin1Char('%')), qPrintable(remark_words(remark)));
      }
    }
    QVERIFY(remarks >= 7);
    QCOMPARE(
        remark_words(QStringLiteral("Item QH-03 mixes readings of different tissue: cap, stem 2.5.")),
        QStringLiteral("Fund QH-03 mischt Messungen mit verschiedenen Angaben (Gewebe): cap, stem 2.5."));
    QCOMPARE(remark_words(QStringLiteral("Said by nobody: 2.")), QStringLiteral("Said by nobody: 2."));
  }

  void remarks_on_courses_are_translated() {
    // Every remark of a fit, as its source has it.
    static const QRegularExpression line_end(QStringLiteral("\"\\s*\\n\\s*\""));
    static const QRegularExpression sentence(
        QStringLiteral("\"((?:[A-Z]|\\{\\})[^\"]*(?:left out|fitted|filled in|happened)[^\"]*\\.)\""));
    static const QRegularExpression figure(QStringLiteral("\\{:[^}]*\\}"));
    int remarks = 0;
    for (const char* file : {"kinetics.cpp", "corrected_path.cpp"}) {
      QFile source(QStringLiteral(TINTFALL_SOURCE_FOLDER "/colorlib/reaction/") + QLatin1String(file));
      QVERIFY(source.open(QIODevice::ReadOnly));
      const QString text = QString::fromUtf8(source.readAll())
                               .remove(line_end)
                               .replace(QStringLiteral("\\u0394"), QStringLiteral("\u0394"));
      for (auto found = sentence.globalMatch(text); found.hasNext(); ++remarks) {
        const QString pattern = found.next().captured(1);
        QString remark = pattern;
        remark.replace(figure, QStringLiteral("7.5"));
        if (pattern.startsWith(QStringLiteral("{} frames")))
          remark.replace(QStringLiteral("{}"), QStringLiteral("Two"));
        else if (pattern.contains(QStringLiteral("stands out")) ||
                 pattern.startsWith(QStringLiteral("Control {}")))
          remark.replace(QStringLiteral("{}"), QStringLiteral("frame-05.jpg"));
        else
          remark.replace(QStringLiteral("{}"), QStringLiteral("12"));
        QVERIFY2(remark_words(remark) != remark, qPrintable(remark));
        QVERIFY2(!remark_words(remark).contains(QLatin1Char('%')), qPrintable(remark_words(remark)));
      }
    }
    QCOMPARE(remarks, 6);
    QCOMPARE(remark_words(QStringLiteral("frame-05.jpg stands out from all others and was left out.")),
             QStringLiteral("frame-05.jpg fällt aus allen anderen heraus und wurde weggelassen."));
  }

  void reasons_for_leaving_a_reading_out_are_translated() {
    QFile source(QStringLiteral(TINTFALL_SOURCE_FOLDER "/colorlib/comparison/compared_reading.cpp"));
    QVERIFY(source.open(QIODevice::ReadOnly));
    static const QRegularExpression reason(QStringLiteral("\"(It [^\"]+)\""));
    int reasons = 0;
    for (auto found = reason.globalMatch(QString::fromUtf8(source.readAll())); found.hasNext(); ++reasons) {
      const QString why =
          found.next().captured(1).replace(QStringLiteral("{}"), QStringLiteral("a 2.json#B"));
      QVERIFY2(remark_words(why) != why, qPrintable(why));
      QVERIFY2(!remark_words(why).contains(QStringLiteral("%1")), qPrintable(remark_words(why)));
    }
    QVERIFY(reasons >= 6);
  }

  void titles_of_sheets_are_translated() {
    const SheetLists lists = sheets_to_choose_from();
    const auto charts = colorlib::shipped_charts();
    QVERIFY(charts && !charts->empty());
    QCOMPARE(lists.charts.size(), charts->size());
    for (std::size_t i = 0; i < charts->size(); ++i)
      QVERIFY2(lists.charts[i].title != QString::fromStdString((*charts)[i].title),
               qPrintable(lists.charts[i].title));
  }

  void the_report_is_said_to_be_in_english() {
    const auto said = [] {
      MainWindow window;
      for (const QLabel* label : window.catalogue_page().findChildren<QLabel*>())
        if (label->text().startsWith(QStringLiteral("Der Bericht ist auf Englisch"))) return true;
      return false;
    };
    QVERIFY(said());
  }

  void words_in_drawings_are_translated() {
    static const QRegularExpression written(QStringLiteral(">([^<]*[A-Za-z][^<]*)</text>"));
    for (const QString& name : guide_drawings()) {
      QFile file(QStringLiteral(TINTFALL_SOURCE_FOLDER "/docs/pictures/%1.svg").arg(name));
      QVERIFY(file.open(QIODevice::ReadOnly));
      const QByteArray english = file.readAll();
      const QString german = QString::fromUtf8(in_words_of_the_window(english));
      auto found = written.globalMatch(QString::fromUtf8(english));
      QVERIFY(found.hasNext());
      while (found.hasNext()) {
        const QString words = found.next().captured(0);
        QVERIFY2(!german.contains(words), qPrintable(words));
      }
    }
  }

  void words_of_reactions_are_translated() {
    const colorlib::Wording wording = window_wording();
    const auto translated = [&](const std::string& phrase) { return wording.phrase(phrase) != phrase; };
    const auto bins = colorlib::ReactionBins::load(colorlib::data_folder());
    QVERIFY(bins);
    for (const auto& speed : bins->speeds()) QVERIFY2(translated(speed.word), speed.word.c_str());
    for (const auto& sign : bins->signs()) QVERIFY2(translated(sign.strength), sign.strength.c_str());
    // Every phrase that the sentence of a reaction is put together from, as its source has it.
    QFile source(QStringLiteral(TINTFALL_SOURCE_FOLDER "/colorlib/reaction/reaction_text.cpp"));
    QVERIFY(source.open(QIODevice::ReadOnly));
    static const QRegularExpression said(QStringLiteral("(?:phrase|led_to)\\(\\s*\"([^\"]+)\""));
    int phrases = 0;
    const QString text = QString::fromUtf8(source.readAll())
                             .replace(QStringLiteral("\\u0394"), QStringLiteral("\u0394"))
                             .replace(QStringLiteral("\\u00b1"), QStringLiteral("\u00b1"));
    for (auto found = said.globalMatch(text); found.hasNext(); ++phrases) {
      const std::string phrase = found.next().captured(1).toStdString();
      QVERIFY2(translated(phrase), phrase.c_str());
    }
    QVERIFY(phrases > 40);
    // Every way in which a colour can change, and by how much.
    const auto namer = colorlib::Namer::load(colorlib::data_folder());
    QVERIFY(namer);
    std::set<std::string> ways;
    for (const double step : {0.2, 1.5, 3., 7., 15., 40.})
      for (int degrees = 0; degrees < 360; degrees += 5)
        for (const double lighter : {-1., 0., 1.}) {
          const double angle = degrees * M_PI / 180;
          const colorlib::ColorState before{{50, 10, 10}, {}};
          const colorlib::ColorState after{
              {50 + lighter * step, 10 + step * std::cos(angle), 10 + step * std::sin(angle)}, {}};
          const auto change = colorlib::color_change(before, after, *namer);
          ways.insert(change.directions.begin(), change.directions.end());
          ways.insert(std::string(colorlib::strength_word(change.strength)));
        }
    ways.insert(std::string(colorlib::strength_word(colorlib::ChangeStrength::within_uncertainty)));
    QVERIFY(ways.size() >= 16);
    for (const std::string& way : ways) QVERIFY2(translated(way), way.c_str());
  }

  void the_word_for_looking_is_taken_in_german_too() {
    QCOMPARE(SeriesPage::applied_moment(QStringLiteral(" gefunden ")), QStringLiteral("found"));
    QCOMPARE(SeriesPage::applied_moment(QStringLiteral("found")), QStringLiteral("found"));
    QCOMPARE(SeriesPage::applied_moment(QStringLiteral("+12")), QStringLiteral("+12"));
  }

  void german_figures_are_shown_whole() {
    const DemoPhoto demo = demo_photo(home_);
    MainWindow window;
    window.resize(1280, 720);
    window.show();
    QVERIFY(open_and_read(window, demo.photo, demo.reference));
    PhotoPage& page = window.photo_page();
    QVERIFY(add_control(page));
    QTableView* table = nullptr;
    for (QTableView* each : page.findChildren<QTableView*>())
      if (each->model() == &page.region_model()) table = each;
    QVERIFY(table->isVisible());
    const QFontMetrics bold(table->horizontalHeader()->font());
    for (const int column : {RegionModel::name, RegionModel::lab}) {
      int widest = bold.horizontalAdvance(page.region_model().headerData(column, Qt::Horizontal).toString());
      for (int row = 0; row < page.region_model().rowCount(); ++row)
        widest = std::max(widest, table->fontMetrics().horizontalAdvance(
                                      page.region_model().index(row, column).data().toString()));
      QVERIFY2(table->columnWidth(column) >= widest + 4, qPrintable(QStringLiteral("column %1: %2 of %3 px")
                                                                        .arg(column)
                                                                        .arg(table->columnWidth(column))
                                                                        .arg(widest)));
      QVERIFY2(
          table->columnViewportPosition(column) + table->columnWidth(column) <= table->viewport()->width(),
          qPrintable(QString::number(column)));
    }
    const int words_px = table->columnWidth(RegionModel::name) - table->iconSize().width();
    QVERIFY2(words_px > table->fontMetrics().horizontalAdvance(QStringLiteral("strong brown")),
             qPrintable(QString::number(words_px)));
    QVERIFY(!table->wordWrap());
    // A long name of a region takes neither the words' room nor the figures'.
    rename_region(page.document(), page.region_model().row(1)->id, QStringLiteral("linker Rand des Hutes"));
    QVERIFY(wait_until([&] { return page.document().readings_are_current(); }));
    QVERIFY(table->columnWidth(RegionModel::lab) >
            table->fontMetrics().horizontalAdvance(
                page.region_model().index(1, RegionModel::lab).data().toString()));
    QVERIFY(table->columnViewportPosition(RegionModel::lab) + table->columnWidth(RegionModel::lab) <=
            table->viewport()->width());
  }

  void german_figures_have_commas() {
    QVERIFY(QApplication::removeTranslator(&german_));
    {
      const WindowLanguage german(QStringLiteral("de"),
                                  QFileInfo(QStringLiteral(GERMAN_TRANSLATION)).absolutePath());
      QCOMPARE(figure(0.4, 2), QStringLiteral("0,40"));
      QCOMPARE(figure(12345.6, 1), QStringLiteral("12345,6"));
      QCOMPARE(count_figure(86639), QStringLiteral("86.639"));
      QCOMPARE(sentence_words(QStringLiteral("light differs by ΔE00 3.1 across the sheet")),
               QStringLiteral("Licht unterscheidet sich über das Blatt um ΔE00 3,1"));
      QCOMPARE(with_figures(QStringLiteral("ΔE00 12.3 ± 0.4 in 5.0 s, IMG_1.2.jpg, 2.5YR, v1.2.3")),
               QStringLiteral("ΔE00 12,3 ± 0,4 in 5,0 s, IMG_1.2.jpg, 2.5YR, v1.2.3"));
      const DemoPhoto demo = demo_photo(home_);
      MainWindow window;
      window.show();
      QVERIFY(open_and_read(window, demo.photo, demo.reference));
      static const QRegularExpression in_english(QStringLiteral("(^|[ ±])-?\\d+\\.\\d"));
      PhotoPage& page = window.photo_page();
      QVERIFY2(page.reading_panel().lab_text().contains(QLatin1Char(',')) &&
                   !page.reading_panel().lab_text().contains(in_english),
               qPrintable(page.reading_panel().lab_text()));
      for (const int column : {RegionModel::name, RegionModel::lab})
        QVERIFY(!page.region_model().index(0, column).data().toString().contains(in_english));
      QVERIFY(page.region_model().index(0, RegionModel::lab).data().toString().contains(QLatin1Char(',')));
      // What leaves is written as the command writes it.
      QVERIFY(record_text(page.document().export_parameters()).find("\"lab\": [") != std::string::npos);
    }
    {
      const WindowLanguage unknown(QStringLiteral("fi"),
                                   QFileInfo(QStringLiteral(GERMAN_TRANSLATION)).absolutePath());
      QCOMPARE(figure(0.4, 2), QStringLiteral("0.40"));  // the window speaks English then
    }
    QVERIFY(QApplication::installTranslator(&german_));
  }

  void german_placeholders_are_whole() {
    MainWindow window;
    window.resize(1280, 720);
    window.show();
    for (const char* page : {"reaction", "settings", "photo"}) {
      window.show_page(QLatin1String(page));
      QTest::qWait(30);
      for (const QLineEdit* field : window.pages().currentWidget()->findChildren<QLineEdit*>())
        if (field->isVisible() && !field->placeholderText().isEmpty())
          QVERIFY2(field->fontMetrics().horizontalAdvance(field->placeholderText()) + 8 <= field->width(),
                   qPrintable(QStringLiteral("%1: %2 px").arg(field->placeholderText()).arg(field->width())));
    }
  }

  void german_words_on_the_time_line_are_whole() {
    TimeLine line;
    line.resize(900, 128);
    colorlib::SeriesRecord record;
    record.zero = colorlib::SeriesZero::first_photo;
    auto outcome = std::make_shared<SeriesOutcome>();
    outcome->record = std::make_shared<const colorlib::SeriesRecord>(std::move(record));
    for (const double seconds : {0., 10., 60., 120.}) {
      SeriesFrame frame;
      frame.seconds = seconds;
      outcome->frames.push_back(std::move(frame));
    }
    line.set_outcome(outcome);
    line.set_frame(3);
    const auto label = line.zero_label();
    QCOMPARE(label.text, QStringLiteral("auf den Tropfen ziehen"));
    QVERIFY(label.box.left() >= 0 && label.box.right() <= line.width());
    QVERIFY(label.box.width() >= line.fontMetrics().horizontalAdvance(label.text));
    line.set_frame(1);  // its time is written there, so that the one does not cover the other
    QVERIFY(line.zero_label().text.isEmpty());
  }

  void page_buttons_stay_where_they_are() {
    MainWindow window;
    window.show();
    const auto places = [&] {
      QTest::qWait(30);
      QList<QRect> found;
      for (const QToolButton* button : window.findChildren<QToolButton*>())
        if (button->accessibleName().startsWith(QStringLiteral("Seite: ")))
          found.push_back(button->geometry());
      return found;
    };
    window.show_page(QStringLiteral("photo"));
    const auto first = places();
    QCOMPARE(first.size(), window.pages().count());
    for (const char* page : {"reaction", "compare", "catalogue", "guide", "settings", "keys"}) {
      window.show_page(QLatin1String(page));
      QVERIFY2(places() == first, page);
    }
  }

  void the_window_speaks_german_and_still_fits() {
    MainWindow window;
    window.show();
    QCOMPARE(window.action_groups().front().title, QStringLiteral("Datei"));
    for (const ActionGroup& group : window.action_groups())
      for (const QAction* action : group.actions)
        if (action != nullptr) QVERIFY2(!action->shortcut().isEmpty(), qPrintable(action->text()));
    QVERIFY2(window.minimumSizeHint().width() <= 1280 && window.minimumSizeHint().height() <= 720,
             qPrintable(QStringLiteral("%1 x %2")
                            .arg(window.minimumSizeHint().width())
                            .arg(window.minimumSizeHint().height())));
  }
};

}  // namespace tintfall::viewer

QTEST_MAIN(tintfall::viewer::TranslationTest)
#include "translation_test.moc"
