#include <QCoreApplication>
#include <QDir>
#include <QFile>
#include <QStandardPaths>
#include <QUuid>
#include <viewer/document/recovery.hpp>
#include <viewer/tasks/error_words.hpp>

namespace tintfall::viewer {

namespace {

QString lock_of(const QString& file) { return file + QStringLiteral(".lock"); }

}  // namespace

Recovery::Recovery(PhotoDocument& document, const QString& folder, QObject* parent)
    : QObject(parent), document_(document), lane_(QStringLiteral("recovery")) {
  QDir().mkpath(folder);
  file_ =
      QDir(folder).filePath(QUuid::createUuid().toString(QUuid::WithoutBraces) + QStringLiteral(".tintfall"));
  lock_ = std::make_unique<QLockFile>(lock_of(file_));
  lock_->setStaleLockTime(0);  // only death makes it stale, not age
  lock_->tryLock(0);
  timer_.setSingleShot(true);
  timer_.setInterval(delay_ms);
  connect(&timer_, &QTimer::timeout, this, &Recovery::save_now);
  connect(&document_, &PhotoDocument::work_changed, this, [this] { timer_.start(); });
  connect(&document_, &PhotoDocument::saved, this, &Recovery::discard);
}

Recovery::~Recovery() {
  timer_.stop();
  TaskLane::wait_for_all();  // a write under way must not leave a file after the lock is gone
  discard();
}

QString Recovery::default_folder() {
  return QDir(QStandardPaths::writableLocation(QStandardPaths::AppLocalDataLocation))
      .filePath(QStringLiteral("recovery"));
}

QStringList Recovery::abandoned(const QString& folder) {
  QStringList files;
  for (const QFileInfo& info :
       QDir(folder).entryInfoList({QStringLiteral("*.tintfall")}, QDir::Files, QDir::Time)) {
    QLockFile lock(lock_of(info.filePath()));
    lock.setStaleLockTime(0);
    if (!lock.tryLock(0)) continue;  // its owner lives
    lock.unlock();
    files.push_back(info.filePath());
  }
  return files;
}

void Recovery::forget(const QString& file) {
  QFile::remove(file);
  QFile::remove(lock_of(file));
}

void Recovery::save_now() {
  if (document_.photo_path().isEmpty() || document_.undo_stack().isClean()) return;
  lane_.start(
      [work = document_.work(), file = file_](colorlib::Progress&) { return write_work(work, file); },
      [this](colorlib::Result<std::monostate> written) {
        if (written) return emit kept(file_);
        document_.add_issue({IssueWeight::problem,
                             QStringLiteral("cannot-write"),
                             tr("Unsaved work could not be kept: %1").arg(message_words(written.error())),
                             advice_words(written.error()),
                             {},
                             {},
                             1});
      });
}

void Recovery::discard() {
  timer_.stop();
  lane_.cancel();
  QFile::remove(file_);
}

}  // namespace tintfall::viewer
