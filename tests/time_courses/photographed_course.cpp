#include "tests/time_courses/photographed_course.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/base/data_folder.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/reaction/first_frame.hpp>
#include <colorlib/reaction/kinetic_curves.hpp>
#include <fstream>
#include <stdexcept>

#include "tests/scenes/random.hpp"

namespace colorlib::time_courses {
namespace {

using scenes::Random;

constexpr int width_px = 1200;  // 1.1 MP: some 4.5 px a mm

double log_uniform(Random& random, double low, double high) {
  return low * std::pow(high / low, random.uniform());
}

bool can_be_made(const Lab& lab) {
  try {
    scenes::pigment_matching(lab, scenes::Pool::tuning);
    return true;
  } catch (const std::runtime_error&) {
    return false;
  }
}

/// A colour at a true distance of `low` to `high` from another, of which a spectrum can be made.
Lab reacted(Random& random, const Lab& from, double low, double high) {
  for (;;) {
    const Lab to{random.uniform(20, 85), random.uniform(-20, 40), random.uniform(-15, 60)};
    const double de00 = difference_ciede2000(from, to);
    if (de00 >= low && de00 <= high && can_be_made(to)) return to;
  }
}

/// Two frames before the drop, then frames whose gaps grow with the time.
std::vector<double> moments(Random& random, double first_gap_s, double growth, double end_s) {
  std::vector<double> seconds{-random.uniform(15, 40), -random.uniform(2, 8)};
  for (double t = random.uniform(0.2, 1) * first_gap_s; t < end_s;
       t += std::max(first_gap_s, growth * t) * random.uniform(0.85, 1.15))
    seconds.push_back(t);
  return seconds;
}

}  // namespace

PhotographedCourse photographed_course(CourseKind kind, std::uint64_t seed) {
  Random random(seed, 100 + static_cast<std::uint64_t>(kind));
  PhotographedCourse made;
  scenes::SeriesSettings& s = made.settings;
  s.seed = seed * 8 + static_cast<std::uint64_t>(kind);
  s.width_px = width_px;
  do s.tissue = {random.uniform(62, 84), random.uniform(1, 8), random.uniform(10, 28)};
  while (!can_be_made(s.tissue));
  s.wet_tissue = {s.tissue.l - random.uniform(2, 4.5), s.tissue.a + 0.2, s.tissue.b + 1};
  scenes::ReactionCourse& course = s.course;
  course.a = s.tissue;
  double end_s = 0, first_gap_s = 0, growth = 0.35;
  switch (kind) {
    case CourseKind::fast:
      course.onset_s = random.uniform(0.5, 4);
      course.half_s = log_uniform(random, 1.5, 10);
      course.b = reacted(random, course.a, 6, 45);
      first_gap_s = random.uniform(0.7, 1.5);
      end_s = course.onset_s + random.uniform(6, 12) * course.half_s;
      break;
    case CourseKind::slow:
      course.onset_s = random.uniform(5, 60);
      course.half_s = log_uniform(random, 20, 150);
      course.b = reacted(random, course.a, 6, 45);
      first_gap_s = random.uniform(5, 10);
      end_s = course.onset_s + random.uniform(4, 9) * course.half_s;
      break;
    case CourseKind::consecutive:
    case CourseKind::fading: {
      course.onset_s = random.uniform(1, 12);
      course.half_s = log_uniform(random, 4, 25);
      course.second_half_s = course.half_s * log_uniform(random, 6, 20);
      course.b = reacted(random, course.a, 10, 45);
      if (kind == CourseKind::consecutive) {
        course.c = reacted(random, course.b, 10, 40);
      } else {
        const double back = random.uniform(0.4, 0.9);
        do
          course.c = {course.b.l + back * (course.a.l - course.b.l),
                      course.b.a + back * (course.a.a - course.b.a) + random.normal(0, 1),
                      course.b.b + back * (course.a.b - course.b.b) + random.normal(0, 1)};
        while (!can_be_made(course.c));
      }
      first_gap_s = random.uniform(1, 3);
      growth = 0.4;
      end_s = course.onset_s + random.uniform(2, 4) * course.second_half_s;
      break;
    }
    case CourseKind::none:
      first_gap_s = random.uniform(1, 6);
      end_s = log_uniform(random, 60, 900);
      break;
  }
  s.seconds = moments(random, first_gap_s, growth, end_s);

  Course& truth = made.truth;
  truth.kind = kind;
  truth.series.seconds = s.seconds;
  truth.onset_s = course.onset_s;
  truth.half_time_s = course.half_s;
  truth.second_half_time_s = course.second_half_s;
  truth.untreated = course.a;
  truth.end = kind == CourseKind::none ? course.a : course.second_half_s > 0 ? course.c : course.b;
  for (const double t : s.seconds) truth.truth.push_back(course.lab_at(t));
  truth.model = kind == CourseKind::none ? KineticModel::none : KineticModel::first_order;
  if (course.second_half_s > 0) tell_second_step(truth);
  return made;
}

std::vector<FrameRecord> photographed_frames(const PhotographedCourse& course, const Namer& namer,
                                             const std::filesystem::path& keep_in) {
  const std::filesystem::path kept =
      keep_in.empty()
          ? std::filesystem::path()
          : keep_in / fmt::format("{}-{}.jsonl", static_cast<int>(course.truth.kind), course.settings.seed);
  std::vector<FrameRecord> frames;
  if (!kept.empty() && std::filesystem::exists(kept)) {
    std::ifstream stream(kept);
    for (std::string line; std::getline(stream, line);) {
      auto frame = parse_frame(line);
      if (!frame) throw std::runtime_error(frame.error().message);
      frame->seconds = course.settings.seconds.at(frames.size());
      frames.push_back(std::move(*frame));
    }
    return frames;
  }
  const auto chart = find_chart("frame-a5");
  if (!chart) throw std::runtime_error(chart.error().message);
  const scenes::SeriesScene series(course.settings, *chart);
  ReadRequest request;
  request.candidates = {*chart};
  request.regions = series.regions();
  std::optional<FirstFrame> first;
  std::string lines;
  for (std::size_t i = 0; i < series.frames(); ++i) {
    const scenes::Scene scene = series.frame(i);
    if (i == 0) request.reference_values = scene.reference;
    FrameRecord frame;
    frame.photo = series.file_name(i);
    Progress progress;
    auto reading = read_photo(scene.photo, request, namer, progress);
    if (reading) {
      if (!first) first.emplace(scene.photo, *reading, request);
      const FrameComparison comparison = first->compare(scene.photo, *reading, request, namer);
      if (comparison.untrusted)
        frame.dropped = comparison.untrusted;
      else
        frame.record = record_from(scene.photo, *reading, {});
    } else {
      frame.dropped = reading.error();
    }
    // As a series keeps it, rounding and all.
    const std::string line = frame_json(frame);
    lines += line + '\n';
    auto rounded = parse_frame(line);
    if (!rounded) throw std::runtime_error(rounded.error().message);
    rounded->seconds = course.settings.seconds[i];
    frames.push_back(std::move(*rounded));
  }
  if (!kept.empty()) std::ofstream(kept) << lines;
  return frames;
}

}  // namespace colorlib::time_courses
