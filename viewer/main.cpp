#include <QApplication>
#include <QCommandLineParser>
#include <algorithm>
#include <clocale>
#include <cstdio>
#include <cstdlib>
#include <viewer/command/exit_status.hpp>
#include <viewer/command/library_messages.hpp>
#include <viewer/settings/preferences.hpp>
#include <viewer/tasks/task_lane.hpp>
#include <viewer/window/appearance.hpp>
#include <viewer/window/main_window.hpp>
#include <viewer/window/window_language.hpp>

namespace {

using namespace tintfall::viewer;

/// The names by which settings are kept; an application has to exist.
void take_names() {
  QCoreApplication::setOrganizationName(QStringLiteral("tintfall"));
  QCoreApplication::setApplicationName(QStringLiteral("tintfall-viewer"));
  QCoreApplication::setApplicationVersion(QStringLiteral(TINTFALL_VERSION));
}

/// Reads the call; prints and ends the program where help, the version or something unknown is asked for.
void read_call(QCommandLineParser& parser) {
  parser.setApplicationDescription(QCoreApplication::translate(
      "main", "Calibrated colours of fungal deposits, spot tests and bruises from a photograph"));
  parser.addHelpOption();
  parser.addVersionOption();
  parser.addPositionalArgument(QStringLiteral("file"),
                               QCoreApplication::translate("main", "A photo or saved work to open"),
                               QStringLiteral("[file]"));
  if (!parser.parse(QCoreApplication::arguments())) {
    std::fprintf(stderr, "tintfall-viewer: %s\n", qPrintable(parser.errorText()));
    std::exit(tintfall::status_bad_call);
  }
  parser.process(*QCoreApplication::instance());
}

bool said(int argc, char** argv, std::initializer_list<const char*> words) {
  return std::any_of(argv + 1, argv + argc, [&](const char* argument) {
    return std::any_of(words.begin(), words.end(),
                       [&](const char* word) { return qstrcmp(argument, word) == 0; });
  });
}

/// Whether Qt has a screen to look for; without one it would abort with advice that does not help.
bool screen_is_named(int argc, char** argv) {
#if defined(Q_OS_UNIX) && !defined(Q_OS_DARWIN)
  return said(argc, argv, {"-platform", "--platform"}) || !qEnvironmentVariableIsEmpty("DISPLAY") ||
         !qEnvironmentVariableIsEmpty("WAYLAND_DISPLAY") || !qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM");
#else
  Q_UNUSED(argc);
  Q_UNUSED(argv);
  return true;
#endif
}

QString no_screen_sentence(const QString& cause) {
  return QCoreApplication::translate(
             "main",
             "The window has no screen to open on: %1. Start it in a desktop session, or read the photo "
             "with the command 'tintfall read'.")
      .arg(cause);
}

/// Stands in for Qt's messages while Qt looks for its screen: where Qt would abort, the call ends with one
/// sentence.
void answer_missing_screen(QtMsgType type, const QMessageLogContext& /*context*/, const QString& /*text*/) {
  if (type != QtFatalMsg) return;
  qInstallMessageHandler(nullptr);
  take_names();
  const WindowLanguage language(Preferences().language.get());
  QString named;
  for (const char* name : {"QT_QPA_PLATFORM", "WAYLAND_DISPLAY", "DISPLAY"})
    if (named.isEmpty()) named = qEnvironmentVariable(name);
  const QString cause = QCoreApplication::translate("main", "'%1' cannot be reached or used").arg(named);
  std::fprintf(stderr, "%s\n", qPrintable(no_screen_sentence(cause)));
  std::_Exit(tintfall::status_bad_call);
}

/// Answers a call that asks for words only, and any call where there is no screen.
int run_without_window(int argc, char** argv) {
  const QCoreApplication application(argc, argv);
  take_names();
  const WindowLanguage language(Preferences().language.get());
  QCommandLineParser parser;
  read_call(parser);
  const QString cause =
      QCoreApplication::translate("main", "DISPLAY, WAYLAND_DISPLAY and QT_QPA_PLATFORM are all unset");
  std::fprintf(stderr, "%s\n", qPrintable(no_screen_sentence(cause)));
  return tintfall::status_bad_call;
}

int run_window(int argc, char** argv) {
  const auto usual = qInstallMessageHandler(answer_missing_screen);
  const QApplication application(argc, argv);
  qInstallMessageHandler(usual);
  std::setlocale(LC_NUMERIC, "C");  // Qt took the desktop's; libraries read and write files' numbers by it
  take_names();
  const Preferences preferences;
  const WindowLanguage language(preferences.language.get());
  QCommandLineParser parser;
  read_call(parser);
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

}  // namespace

int main(int argc, char** argv) {
  tintfall::leave_out_library_noise();
  const bool words_only = said(argc, argv, {"-h", "--help", "-v", "--version"});
  return words_only || !screen_is_named(argc, argv) ? run_without_window(argc, argv) : run_window(argc, argv);
}
