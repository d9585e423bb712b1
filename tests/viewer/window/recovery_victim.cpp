// The program that recovery_test kills: works on a photo, prints "kept" once the work is kept, and waits.
#include <QApplication>
#include <cstdio>
#include <tests/viewer/window/window_driver.hpp>
#include <viewer/document/document_commands.hpp>

int main(int argc, char** argv) {
  using namespace tintfall::viewer;
  QApplication application(argc, argv);
  QApplication::setOrganizationName(QStringLiteral("tintfall"));
  QApplication::setApplicationName(QStringLiteral("tintfall-viewer"));
  const QStringList arguments = QApplication::arguments();
  MainWindow window;
  window.show();
  if (arguments.size() < 3 || !open_and_read(window, arguments[1], arguments[2])) return 1;
  PhotoPage& page = window.photo_page();
  duplicate_region(page.document(), page.view().selected());
  PhotoSetup setup = page.document().setup();
  setup.subject.item = "QH-03";
  page.document().undo_stack().push(new SetupCommand(page.document(), QStringLiteral("Describe"), setup));
  duplicate_region(page.document(), page.view().selected());
  QObject::connect(&page.recovery(), &Recovery::kept, [] {
    std::puts("kept");
    std::fflush(stdout);
  });
  return QApplication::exec();
}
