#include <QApplication>
#include <QCommandLineParser>
#include <QLibraryInfo>
#include <QLocale>
#include <QTranslator>
#include <viewer/command/library_messages.hpp>
#include <viewer/settings/preferences.hpp>
#include <viewer/tasks/task_lane.hpp>
#include <viewer/window/appearance.hpp>
#include <viewer/window/main_window.hpp>

int main(int argc, char** argv) {
  using namespace tintfall::viewer;
  tintfall::leave_out_library_noise();
  QApplication application(argc, argv);
  QApplication::setOrganizationName(QStringLiteral("tintfall"));
  QApplication::setApplicationName(QStringLiteral("tintfall-viewer"));
  QApplication::setApplicationVersion(QStringLiteral(TINTFALL_VERSION));
  const Preferences preferences;
  const QString language = preferences.language.get();
  QTranslator own, qts;
  const QLocale locale = language.isEmpty() ? QLocale() : QLocale(language);
  if (own.load(locale, QStringLiteral("tintfall"), QStringLiteral("_"), QStringLiteral(":/translations"))) {
    QApplication::installTranslator(&own);
    if (qts.load(locale, QStringLiteral("qtbase"), QStringLiteral("_"),
                 QLibraryInfo::path(QLibraryInfo::TranslationsPath)))
      QApplication::installTranslator(&qts);
  }
  QCommandLineParser parser;
  parser.setApplicationDescription(QApplication::translate(
      "main", "Calibrated colours of fungal deposits, spot tests and bruises from a photograph"));
  parser.addHelpOption();
  parser.addVersionOption();
  parser.addPositionalArgument(QStringLiteral("file"),
                               QApplication::translate("main", "A photo or saved work to open"),
                               QStringLiteral("[file]"));
  parser.process(application);
  apply_appearance(appearance_from(preferences.appearance.get()));
  int status = 0;
  {
    MainWindow window;
    window.show();
    if (parser.positionalArguments().isEmpty())
      window.restore_session();
    else
      window.open(parser.positionalArguments().front());
    status = QApplication::exec();
  }
  TaskLane::wait_for_all();
  return status;
}
