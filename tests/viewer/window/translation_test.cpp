// The German translation: nothing missing, colorlib's sentences included, and it fits the window.
#include <QApplication>
#include <QTranslator>
#include <colorlib/base/cautions.hpp>
#include <colorlib/records/collection.hpp>
#include <colorlib/specimen/flags.hpp>
#include <tests/viewer/window/window_driver.hpp>
#include <viewer/document/photo_document.hpp>
#include <viewer/models/catalogue_models.hpp>
#include <viewer/translations/colorlib_sentences.hpp>
#include <viewer/window/stage_words.hpp>

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
    QVERIFY(translated(colorlib::caution_names));
    for (const auto& field : colorlib::collection_fields()) {
      const QString name = QString::fromUtf8(field.name.data(), static_cast<qsizetype>(field.name.size()));
      QVERIFY2(field_word(name) != name, qPrintable(name));
    }
    QCOMPARE(stage_words(QStringLiteral("12 of 17 photos")), QStringLiteral("12 von 17 Fotos"));
    for (const char* sentence : colorlib_sentences) QVERIFY2(translated(sentence), sentence);
  }

  void the_window_speaks_german_and_still_fits() {
    MainWindow window;
    window.show();
    QCOMPARE(window.action_groups().front().title, QStringLiteral("Datei"));
    for (const ActionGroup& group : window.action_groups())
      for (const QAction* action : group.actions)
        if (action != nullptr) QVERIFY2(!action->shortcut().isEmpty(), qPrintable(action->text()));
    QVERIFY2(window.minimumSizeHint().width() <= 1280 && window.minimumSizeHint().height() <= 720,
             qPrintable(QStringLiteral("%1 x %2").arg(window.minimumSizeHint().width()).arg(window.minimumSizeHint().height())));
  }
};

}  // namespace tintfall::viewer

QTEST_MAIN(tintfall::viewer::TranslationTest)
#include "translation_test.moc"
