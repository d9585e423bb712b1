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
    : QObject(parent),
      document_(document),
      lane_(QStringLiteral("recovery"), TaskLane::Order::one_after_another) {
  QDir().mkpath(folder);
  file_ =
      QDir(folder).filePath(QUuid::createUuid().toString(QUuid::WithoutBraces) + QStringLiteral(".tintfall"));
  lock_ = std::make_unique<QLockFile>(lock_of(file_));
  lock_->setStaleLockTime(0);  // only death makes it stale, not age
  lock_->tryLock(0);
  timer_.setSingleShot(true);
  timer_.setInterval(delay_ms);
  connect(&timer_, &QTimer::timeout, this, &Recovery::save_now);
  connect(&document_, &PhotoDocument::work_changed, this, [this] {
    given_up_ = false;
    timer_.start();
  });
  connect(&document_, &PhotoDocument::saved, this, &Recovery::save_now);  // or discards
  connect(&document_, &PhotoDocument::begun, this, &Recovery::discard);
  connect(&document_, &PhotoDocument::work_recovered, this, &Recovery::adopt);
}

Recovery::~Recovery() {
  timer_.stop();
  TaskLane::wait_for_all();  // a write under way must not leave a file after the lock is gone
  if (given_up_ || !document_.has_unsaved_work()) QFile::remove(file_);
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

void Recovery::adopt(const QString& file) {
  auto lock = std::make_unique<QLockFile>(lock_of(file));
  lock->setStaleLockTime(0);
  if (!lock->tryLock(0)) return;  // another window was faster
  file_ = file;
  lock_ = std::move(lock);
  given_up_ = false;
}

void Recovery::save_now() {
  if (!document_.has_unsaved_work()) return discard();
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
  given_up_ = true;
  QFile::remove(file_);
  if (lane_.busy())  // what is being written goes as well
    lane_.start([file = file_](colorlib::Progress&) { return QFile::remove(file); }, [](bool) {});
}

}  // namespace tintfall::viewer
