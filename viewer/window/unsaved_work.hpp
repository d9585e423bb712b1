#pragma once
/// The question before work is lost: save it, give it up, or stay.

#include <QObject>
#include <functional>
#include <viewer/document/photo_document.hpp>

namespace tintfall::viewer {

enum class UnsavedAnswer { save, discard, stay };

/// Asks only where there is something to lose.
class UnsavedWork : public QObject {
  Q_OBJECT
 public:
  /// What is asked; a test answers in the user's place.
  struct Questions {
    std::function<UnsavedAnswer(const QString& photo)> keep;
    std::function<QString(const QString& proposed)> file;  ///< to save to; empty: none was chosen
  };
  explicit UnsavedWork(PhotoDocument& document, QWidget* window);
  void set_questions(Questions questions) { questions_ = std::move(questions); }
  /// Asks and calls `then` once the work is saved or may go: at once when there is none. While the user
  /// stays, and when saving fails, it is not called.
  void settle(std::function<void()> then);
  /// Saves to the file of the work, or to one that is asked for. Returns whether it was begun.
  bool save(bool to_another_file);

 private:
  PhotoDocument& document_;
  Questions questions_;
  std::function<void()> then_;  ///< waits for the writing
  QString writing_;             ///< the file that was begun last
};

}  // namespace tintfall::viewer
