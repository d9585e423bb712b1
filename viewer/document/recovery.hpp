#pragma once
/// Unsaved work, kept beside the user's files so that a crash costs at most the last seconds.

#include <QLockFile>
#include <QObject>
#include <QTimer>
#include <memory>
#include <viewer/document/photo_document.hpp>

namespace tintfall::viewer {

/// Writes a document's work into a folder a moment after each change, in a file of its own that this process
/// has locked. The file goes when the work is saved or given up, never by itself; what is left belongs to a
/// program that died.
class Recovery : public QObject {
  Q_OBJECT
 public:
  static constexpr int delay_ms = 1200;

  /// `folder` is made when it is missing.
  Recovery(PhotoDocument& document, const QString& folder, QObject* parent = nullptr);
  ~Recovery() override;
  /// The default folder: recovery/ in the application's data folder.
  static QString default_folder();
  /// Files that no living process holds, newest first.
  static QStringList abandoned(const QString& folder);
  const QString& file() const { return file_; }
  void save_now();
  void discard();  ///< the work was saved, or the user gave it up

 signals:
  void kept(const QString& file);

 private:
  void adopt(const QString& file);

  PhotoDocument& document_;
  QString file_;
  std::unique_ptr<QLockFile> lock_;
  bool given_up_ = false;  ///< since the last change
  QTimer timer_;
  TaskLane lane_;
};

}  // namespace tintfall::viewer
