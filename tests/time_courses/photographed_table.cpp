#include "tests/time_courses/photographed_table.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <colorlib/base/data_folder.hpp>
#include <stdexcept>
#include <thread>

#include "tests/time_courses/photographed_course.hpp"

namespace colorlib::time_courses {

std::vector<CourseFigures> photograph_courses(const std::vector<CourseKind>& kinds, int courses,
                                              std::uint64_t first_seed, bool print_misses,
                                              const std::filesystem::path& keep_in) {
  const auto namer = Namer::load(data_folder());
  if (!namer) throw std::runtime_error(namer.error().message);
  struct Done {
    Course truth;
    Result<Kinetics> fit = fail(ErrorCode::untrustworthy, "not read");
  };
  const std::size_t all = kinds.size() * static_cast<std::size_t>(courses);
  std::vector<Done> done(all);
  std::atomic<std::size_t> next{0};
  const auto work = [&] {
    for (std::size_t i = next++; i < all; i = next++) {
      const auto seed = first_seed + i % static_cast<std::size_t>(courses);
      const PhotographedCourse course =
          photographed_course(kinds[i / static_cast<std::size_t>(courses)], seed);
      done[i].truth = course.truth;
      const auto frames = photographed_frames(course, *namer, keep_in);
      const auto spots = spot_records(frames, true);
      if (spots.empty()) continue;
      if (spots[0].refused)
        done[i].fit = fail(*spots[0].refused);
      else
        done[i].fit = spots[0].kinetics;
    }
  };
  std::vector<std::thread> others;
  for (unsigned k = 1; k < std::clamp(std::thread::hardware_concurrency(), 1u, 8u); ++k)
    others.emplace_back(work);
  work();
  for (std::thread& other : others) other.join();
  std::vector<CourseFigures> rows;
  for (std::size_t i = 0; i < all; ++i) {
    const std::size_t at = i % static_cast<std::size_t>(courses);
    if (at == 0)
      rows.push_back({}),
          rows.back().name = std::string(course_kind_name(kinds[i / static_cast<std::size_t>(courses)]));
    add_course(done[i].truth, done[i].fit, first_seed + at, print_misses, rows.back());
  }
  return rows;
}

std::string photographed_page(int courses, std::uint64_t first_seed, const std::string& table) {
  return fmt::format(
      "# Times, intervals and kinds on photographed time courses\n\n"
      "{} series a kind, seeds {} on, written by `./run tests --full`. Each is rendered by the simulator as "
      "photos of a hand-held "
      "phone (1200 x 900 px JPEG, 4:2:0, its own tone curve, sharpening and noise; tilt, turn and distance "
      "change from photo to "
      "photo) under daylight whose strength, evenness and white balance wander by some ten per cent, with a "
      "drop of water and "
      "untreated tissue beside the spot, wet highlights and a printed sheet with print errors; then read and "
      "fitted as `tintfall "
      "series` does. Two photos before the drop, 10 to 20 after it, at gaps that grow with the time. Changes "
      "of \u0394E00 6 and "
      "more (10 and more with a second step).\n\n"
      "*near*: within 10 % or one frame interval of the truth, whichever is larger; a reaction that was not "
      "found counts as "
      "missed. *covered*: truth within the 95 % interval, or on the right side of a bound. \u00b1: median "
      "half width of the "
      "intervals. *right kind*: of those series whose frames can tell; a second step can be told when its "
      "colours differ by "
      "\u0394E00 4 or more within the series, and consecutive from fading when the share lost again is not "
      "within 0.1 of the "
      "limit of 0.15. *called a reaction*: has to be none of the last kind.\n\n"
      "The intervals hold scatter from frame to frame and, apart from it, what the calibration gets wrong "
      "along the path of "
      "colours (docs/explanation/reactions.md).\n\n{}",
      courses, first_seed, table);
}

}  // namespace colorlib::time_courses
