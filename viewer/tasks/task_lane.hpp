#pragma once
/// Long work off the window's thread, one job at a time for each purpose.

#include <QMutex>
#include <QObject>
#include <QString>
#include <QThreadPool>
#include <atomic>
#include <colorlib/base/progress.hpp>
#include <colorlib/base/result.hpp>
#include <deque>
#include <functional>
#include <memory>
#include <type_traits>
#include <utility>

namespace tintfall::viewer {

/// What became of one job; tests and benchmarks listen to it.
struct JobTrace {
  QString lane;
  bool on_window_thread = false;
  int cancel_polls = 0;
  bool cancelled = false;
};

/// Runs jobs of one purpose ("read", "probe", ...). A new job cancels the one before, unless the lane's order
/// says otherwise; each has a token, and an answer with an old token is dropped. A job holds only what was
/// handed to it, so it may outlive the lane: its answer then goes nowhere. A job that throws, for want of
/// memory say, answers with an error where its result is a colorlib::Result; else the lane ends without an
/// answer.
class TaskLane : public QObject {
  Q_OBJECT
 public:
  enum class Order {
    newest_only,        ///< a new job cancels the one before
    one_after_another,  ///< for what must not be lost, as writing files: a new job waits for the one before
  };
  explicit TaskLane(QString name, Order order = Order::newest_only);
  ~TaskLane() override;

  /// `work(Progress&)` runs on a worker; `done(its result)` on the lane's thread, unless the job was
  /// superseded or cancelled.
  template <class Work, class Done>
  void start(Work work, Done done) {
    launch(
        [work = std::move(work), done = std::move(done)](colorlib::Progress& progress) mutable -> Delivery {
          auto outcome = std::make_shared<decltype(work(progress))>(answer_of(work, progress));
          return [outcome, done = std::move(done)]() mutable { done(std::move(*outcome)); };
        });
  }
  /// Asks the running job to stop; its answer is dropped. Jobs that wait are forgotten.
  void cancel();
  bool busy() const { return control_ != nullptr; }
  const QString& name() const { return name_; }
  /// Waits for every job of every lane; for the program's end and for tests.
  static void wait_for_all();

 signals:
  void began();
  void progressed(double fraction, const QString& stage);
  void ended();
  void traced(const tintfall::viewer::JobTrace& trace);

 private:
  using Delivery = std::function<void()>;
  template <class Work>
  static auto answer_of(Work& work, colorlib::Progress& progress) -> decltype(work(progress)) {
    if constexpr (std::is_constructible_v<decltype(work(progress)), tl::unexpected<colorlib::Error>>) {
      try {
        return work(progress);
      } catch (...) {
        return colorlib::fail(error_thrown());
      }
    } else {
      return work(progress);
    }
  }
  /// The exception that is being handled.
  static colorlib::Error error_thrown();
  struct Control;
  struct Mailbox;
  class JobProgress;
  using Job = std::function<Delivery(colorlib::Progress&)>;
  void launch(Job job);
  void receive(const std::shared_ptr<Control>& control, const Delivery& delivery, const JobTrace& trace);

  QString name_;
  Order order_;
  std::deque<Job> waiting_;
  std::shared_ptr<Control> control_;  ///< of the current job
  std::shared_ptr<Mailbox> mailbox_;
};

}  // namespace tintfall::viewer
