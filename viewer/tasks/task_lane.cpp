#include <QCoreApplication>
#include <QElapsedTimer>
#include <QMutexLocker>
#include <QThread>
#include <colorlib/base/worker_threads.hpp>
#include <viewer/tasks/quiet_thread.hpp>
#include <viewer/tasks/task_lane.hpp>

namespace tintfall::viewer {
namespace {

constexpr qint64 progress_interval_ms = 40;  // more often nobody sees

QThreadPool& pool() {
  static QThreadPool threads;
  static const bool set = [] {
    threads.setMaxThreadCount(std::max(3, QThread::idealThreadCount()));
    return true;
  }();
  Q_UNUSED(set);
  return threads;
}

}  // namespace

struct TaskLane::Control {
  std::atomic<bool> stop{false};
  std::atomic<int> polls{0};
};

/// Where a job leaves its answer; the lane takes itself out when it dies.
struct TaskLane::Mailbox {
  QMutex mutex;
  TaskLane* lane = nullptr;

  template <class Message>
  void post(Message message) {
    const QMutexLocker lock(&mutex);
    if (lane != nullptr) QMetaObject::invokeMethod(lane, std::move(message), Qt::QueuedConnection);
  }
};

class TaskLane::JobProgress : public colorlib::Progress {
 public:
  JobProgress(std::shared_ptr<Control> control, std::shared_ptr<Mailbox> mailbox)
      : control_(std::move(control)), mailbox_(std::move(mailbox)) {}

  void report(double fraction, std::string_view stage) override {
    if (clock_.isValid() && clock_.elapsed() < progress_interval_ms) return;
    clock_.start();
    const QString words = QString::fromUtf8(stage.data(), static_cast<qsizetype>(stage.size()));
    mailbox_->post([mailbox = mailbox_, control = control_, fraction, words] {
      if (mailbox->lane->control_ == control) emit mailbox->lane->progressed(fraction, words);
    });
  }
  bool cancelled() const override {
    ++control_->polls;
    return control_->stop;
  }

 private:
  std::shared_ptr<Control> control_;
  std::shared_ptr<Mailbox> mailbox_;
  QElapsedTimer clock_;
};

TaskLane::TaskLane(QString name, Order order)
    : name_(std::move(name)), order_(order), mailbox_(std::make_shared<Mailbox>()) {
  mailbox_->lane = this;
}

TaskLane::~TaskLane() {
  if (control_) control_->stop = true;
  const QMutexLocker lock(&mailbox_->mutex);
  mailbox_->lane = nullptr;
}

void TaskLane::cancel() {
  waiting_.clear();
  if (!control_) return;
  control_->stop = true;
  control_.reset();
  emit ended();
}

void TaskLane::launch(Job job) {
  if (control_ && order_ == Order::one_after_another) return waiting_.push_back(std::move(job));
  if (control_) control_->stop = true;
  const bool was_busy = busy();
  control_ = std::make_shared<Control>();
  if (!was_busy) emit began();
  pool().start([job = std::move(job), control = control_, mailbox = mailbox_, name = name_]() mutable {
    weigh_less();
    JobTrace trace{name, QThread::currentThread() == QCoreApplication::instance()->thread(), 0, false};
    JobProgress progress(control, mailbox);
    Delivery delivery;
    try {
      if (!control->stop) delivery = job(progress);
    } catch (...) {
      qWarning("%s: %s", qPrintable(name), error_thrown().message.c_str());
    }
    job = nullptr;  // what it held is freed here, not on the window's thread
    trace.cancel_polls = control->polls;
    trace.cancelled = control->stop;
    mailbox->post([mailbox, control, delivery = std::move(delivery), trace] {
      mailbox->lane->receive(control, delivery, trace);
    });
  });
}

void TaskLane::receive(const std::shared_ptr<Control>& control, const Delivery& delivery,
                       const JobTrace& trace) {
  emit traced(trace);
  if (control != control_) return;  // a late answer
  control_.reset();
  if (delivery) delivery();
  if (!control_ && !waiting_.empty()) {
    Job next = std::move(waiting_.front());
    waiting_.pop_front();
    launch(std::move(next));
  }
  if (!control_) emit ended();
}

colorlib::Error TaskLane::error_thrown() { return colorlib::error_in_flight("The work"); }

void TaskLane::wait_for_all() { pool().waitForDone(); }

}  // namespace tintfall::viewer
