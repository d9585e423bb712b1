#include <QAbstractSpinBox>
#include <QApplication>
#include <QFileDialog>
#include <QLineEdit>
#include <QMessageBox>
#include <utility>
#include <viewer/window/unsaved_work.hpp>
#include <viewer/window/work_ending.hpp>

namespace tintfall::viewer {

namespace {

/// A field hands over its words when it loses the focus.
void take_what_is_typed() {
  QWidget* field = QApplication::focusWidget();
  if (qobject_cast<QLineEdit*>(field) == nullptr && qobject_cast<QAbstractSpinBox*>(field) == nullptr) return;
  field->clearFocus();
  field->setFocus();
}

}  // namespace

UnsavedWork::UnsavedWork(PhotoDocument& document, QWidget* window) : QObject(window), document_(document) {
  questions_.keep = [window](const QString& photo) {
    QMessageBox box(QMessageBox::Question, tr("Unsaved work"),
                    tr("The work on '%1' is not saved.").arg(photo),
                    QMessageBox::Save | QMessageBox::Discard | QMessageBox::Cancel, window->window());
    box.setInformativeText(tr("Regions and what you said about the photo go with it unless they are saved."));
    box.setDefaultButton(QMessageBox::Save);
    switch (box.exec()) {
      case QMessageBox::Save:
        return UnsavedAnswer::save;
      case QMessageBox::Discard:
        return UnsavedAnswer::discard;
      default:
        return UnsavedAnswer::stay;
    }
  };
  questions_.file = [window](const QString& proposed) {
    return QFileDialog::getSaveFileName(window, tr("Save work"), proposed, tr("Saved work (*.tintfall)"));
  };
  // An earlier writing may still be under way, to another file.
  connect(&document_, &PhotoDocument::saved, this, [this](const QString& file) {
    if (file != writing_) return;
    if (const auto then = std::exchange(then_, nullptr)) settle(then);  // edits may have come meanwhile
  });
  connect(&document_, &PhotoDocument::save_failed, this, [this](const QString& file) {
    if (file == writing_) then_ = nullptr;
  });
}

void UnsavedWork::settle(std::function<void()> then) {
  then_ = nullptr;
  take_what_is_typed();
  if (!document_.has_unsaved_work()) return then();
  switch (questions_.keep(document_.title())) {
    case UnsavedAnswer::discard:
      return then();
    case UnsavedAnswer::stay:
      return;
    case UnsavedAnswer::save:
      if (save(false)) then_ = std::move(then);
  }
}

bool UnsavedWork::save(bool to_another_file) {
  QString file = document_.work_path();
  if (to_another_file || file.isEmpty()) file = questions_.file(document_.photo_path() + work_ending);
  if (file.isEmpty()) return false;
  writing_ = file;
  document_.save_work(file);
  return true;
}

}  // namespace tintfall::viewer
