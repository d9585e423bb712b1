#include <QCoreApplication>
#include <viewer/tasks/window_wording.hpp>
#include <viewer/translations/colorlib_sentences.hpp>

namespace tintfall::viewer {

colorlib::Wording window_wording() {
  colorlib::Wording wording;
  for (const char* sentence : colorlib_sentences)
    wording.translate(sentence, QCoreApplication::translate("colorlib", sentence).toStdString());
  return wording;
}

}  // namespace tintfall::viewer
