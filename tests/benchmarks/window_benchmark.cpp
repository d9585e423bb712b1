// How the window feels while it works: the event loop's longest gap, how soon a stop is obeyed, frames a
// second of a 48 MP photo, and the memory all that takes.
//
//   window_benchmark [PHOTO.jpg]
//
// Runs on the offscreen platform unless QT_QPA_PLATFORM says otherwise. Nothing is asserted. Aims: gap 100
// ms, stop 200 ms, 30 frames a second, 1.2 GiB. Without a photo a 48 MP one is rendered first, by a process
// of its own, so that its memory does not count.
#include <fmt/format.h>

#include <QApplication>
#include <QElapsedTimer>
#include <QFile>
#include <QProcess>
#include <QTimer>
#include <algorithm>
#include <array>
#include <colorlib/chart/chart_definition.hpp>
#include <cstdio>
#include <cstdlib>
#include <tests/scenes/scenario.hpp>
#include <tests/scenes/scenario_reactions.hpp>
#include <tests/scenes/scene_picture.hpp>
#include <tests/viewer/window/window_driver.hpp>
#include <thread>
#include <viewer/window/series_page.hpp>

#include "tests/benchmarks/cost.hpp"

namespace {

using namespace tintfall::viewer;

constexpr int width_48_mp = 8000, series_frames = 120, rendered_frames = 12;

bool write(const QString& name, const std::string& bytes) {
  QFile file(name);
  return file.open(QIODevice::WriteOnly) &&
         file.write(bytes.data(), static_cast<qint64>(bytes.size())) == static_cast<qint64>(bytes.size());
}

int render(const QString& folder) {
  const auto chart = colorlib::find_chart("frame-a5");
  auto settings = colorlib::scenes::scenario_scene(colorlib::scenes::scenario_item("QH-03"),
                                                   colorlib::scenes::Condition::daylight_phone, 1, *chart);
  colorlib::scenes::set_picture_width(settings, width_48_mp);
  bool written =
      write(folder + QStringLiteral("/48mp.jpg"), colorlib::scenes::render(settings, *chart).jpeg_bytes);
  auto course = colorlib::scenes::scenario_series(colorlib::scenes::scenario_reaction("B1"), 3, 1200);
  course.seconds.clear();
  for (int i = 0; i < rendered_frames; ++i) course.seconds.push_back(5.0 * i - 5);
  const colorlib::scenes::SeriesScene series(course, *chart);
  for (int i = 0; i < series_frames; ++i) {
    // Ten times the same twelve pictures: reading them costs the same as reading others.
    const QString name = folder + QStringLiteral("/frame-%1.jpg").arg(i, 3, 10, QLatin1Char('0'));
    const int original = i % rendered_frames;
    written &=
        i < rendered_frames
            ? write(name, series.frame(static_cast<std::size_t>(i)).jpeg_bytes)
            : QFile::copy(folder + QStringLiteral("/frame-%1.jpg").arg(original, 3, 10, QLatin1Char('0')),
                          name);
  }
  written &= write(folder + QStringLiteral("/regions.json"), colorlib::regions_json(series.regions()));
  return written ? 0 : 1;
}

/// The longest time between two turns of the event loop.
class GapWatch : public QObject {
 public:
  GapWatch() {
    clock_.start();
    timer_.setTimerType(Qt::PreciseTimer);
    timer_.setInterval(1);
    connect(&timer_, &QTimer::timeout, this, [this] {
      gaps_.push_back(static_cast<double>(clock_.nsecsElapsed()) / 1e6);
      clock_.restart();
    });
    timer_.start();
  }
  void restart() {
    gaps_.clear();
    clock_.restart();
  }
  void print(const char* what) {
    std::sort(gaps_.begin(), gaps_.end());
    if (gaps_.empty()) return;
    fmt::print("{:<52} {:>8.1f} ms longest, {:.1f} ms for 99 % of {} turns\n", what, gaps_.back(),
               gaps_[gaps_.size() * 99 / 100], gaps_.size());
  }

 private:
  QElapsedTimer clock_;
  QTimer timer_;
  std::vector<double> gaps_;
};

/// Milliseconds from asking to the worker's end.
double stop_delay(TaskLane& lane, const std::function<void()>& stop) {
  bool ended = false;
  const auto connection = QObject::connect(&lane, &TaskLane::traced, [&](const JobTrace&) { ended = true; });
  QElapsedTimer clock;
  clock.start();
  stop();
  wait_until([&] { return ended; }, 60'000);
  QObject::disconnect(connection);
  return static_cast<double>(clock.nsecsElapsed()) / 1e6;
}

template <class Step>
void frames_per_second(PhotoView& view, const char* what, int count, Step step) {
  std::vector<double> times;
  QElapsedTimer clock;
  const double before_s = processor_s(RUSAGE_THREAD);
  for (int i = 0; i < count; ++i) {
    clock.restart();
    step(i);
    view.repaint();
    QApplication::processEvents();
    times.push_back(static_cast<double>(clock.nsecsElapsed()) / 1e6);
  }
  const double thread_s = processor_s(RUSAGE_THREAD) - before_s;
  clock.restart();
  wait_until([&] { return view.complete() && !view.tiles().working(); });
  const double sharp_ms = static_cast<double>(clock.nsecsElapsed()) / 1e6;
  std::sort(times.begin(), times.end());
  double sum = 0;
  for (const double t : times) sum += t;
  fmt::print(
      "{:<52} {:>8.0f} a second (median {:.1f} ms, 95 % {:.1f} ms; {:.1f} ms of this thread's processor "
      "each; sharp {:.0f} ms after the last)\n",
      what, 1000 * count / sum, times[times.size() / 2], times[times.size() * 95 / 100],
      1000 * thread_s / count, sharp_ms);
}

}  // namespace

int main(int argc, char** argv) {
  if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
  QApplication application(argc, argv);
  const QStringList arguments = QApplication::arguments();
  if (arguments.size() == 3 && arguments[1] == QLatin1String("--render")) return render(arguments[2]);
  const OwnHome home;
  const QString folder = home.path(QString());
  if (QProcess::execute(arguments[0], {QStringLiteral("--render"), folder}) != 0) return 1;
  const QString photo = arguments.size() > 1 ? arguments[1] : folder + QStringLiteral("/48mp.jpg");

  std::setvbuf(stdout, nullptr, _IOLBF, 0);
  std::array<double, 3> load{};
  if (getloadavg(load.data(), 3) > 0)
    fmt::print("{} cores; {:.1f} processes wanted one in the minute before\n",
               std::thread::hardware_concurrency(), load[0]);
  MainWindow window;
  window.resize(1280, 720);
  window.show();
  wait_until([] { return true; });
  QTest::qWait(200);
  GapWatch gaps;
  PhotoPage& page = window.photo_page();
  PhotoDocument& document = page.document();
  QElapsedTimer clock;
  clock.start();
  gaps.restart();
  if (!open_and_read(window, photo, {})) return 1;
  const auto& pyramid = document.photo()->pyramid;
  fmt::print("{} x {} px read and shown in {:.1f} s\n", pyramid.width_px(0), pyramid.height_px(0),
             static_cast<double>(clock.elapsed()) / 1000);
  gaps.print("event loop while the photo is opened and read");

  PhotoView& view = page.view();
  for (const auto rendering : {colorlib::PhotoRendering::as_taken, colorlib::PhotoRendering::calibrated}) {
    const bool calibrated = rendering == colorlib::PhotoRendering::calibrated;
    view.set_rendering(rendering);
    view.fit();
    wait_until([&] { return view.complete() && !view.tiles().working(); });
    gaps.restart();
    frames_per_second(view, calibrated ? "calibrated: zooming to pixels" : "as taken: zooming to pixels", 60,
                      [&](int) { view.zoom_by(1.06); });
    view.zoom_to_pixels();
    frames_per_second(view, calibrated ? "calibrated: panning at pixels" : "as taken: panning at pixels", 120,
                      [&](int i) { QTest::keyClick(&view, i % 40 < 20 ? Qt::Key_Right : Qt::Key_Left); });
    view.rotate_by(17);
    frames_per_second(
        view,
        calibrated ? "calibrated: panning, turned by 17 degrees" : "as taken: panning, turned by 17 degrees",
        120, [&](int i) { QTest::keyClick(&view, i % 40 < 20 ? Qt::Key_Down : Qt::Key_Up); });
    view.rotate_by(-17);
    gaps.print("event loop meanwhile");
  }

  double worst = 0;
  for (const int wait_ms : {30, 150, 300, 600, 900}) {
    page.open(photo);
    QTest::qWait(wait_ms);
    for (TaskLane* lane : document.lanes())
      if (lane->busy()) worst = std::max(worst, stop_delay(*lane, [&] { document.stop(); }));
  }
  fmt::print("{:<52} {:>8.1f} ms at most\n", "stopping the photo's work", worst);

  SeriesPage& series = window.series_page();
  window.show_page(QStringLiteral("reaction"));
  QStringList frames;
  for (int i = 0; i < series_frames; ++i)
    frames.push_back(folder + QStringLiteral("/frame-%1.jpg").arg(i, 3, 10, QLatin1Char('0')));
  const auto regions =
      colorlib::read_regions(std::filesystem::path((folder + QStringLiteral("/regions.json")).toStdString()));
  series.add_photos(frames);
  if (regions) series.use_regions(*regions, QStringLiteral("regions"));
  gaps.restart();
  clock.restart();
  series.read();
  wait_until([&] { return !series.lane().busy(); }, 600'000);
  fmt::print("series of {} frames read in {:.1f} s\n", series.outcome() ? series.outcome()->frames.size() : 0,
             static_cast<double>(clock.elapsed()) / 1000);
  gaps.print("event loop while the series is read");
  series.read();
  QTest::qWait(1500);
  fmt::print("{:<52} {:>8.1f} ms\n", "stopping the series",
             stop_delay(series.lane(), [&] { series.lane().cancel(); }));
  fmt::print("{:<52} {:>8.0f} MiB\n", "most memory", peak_mib());
  TaskLane::wait_for_all();
  return 0;
}
