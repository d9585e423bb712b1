/// A photo of another specimen among a course's: what the check of the controls finds, and what it costs
/// courses that hold none. TINTFALL_FULL=1 runs more and writes docs/results/stray_photos.md.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <array>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <string>
#include <vector>

#include "tests/time_courses/stray_photos.hpp"

namespace colorlib::time_courses {
namespace {

constexpr std::uint64_t first_seed = 7001;
constexpr std::array kinds = {CourseKind::fast, CourseKind::slow, CourseKind::consecutive, CourseKind::fading,
                              CourseKind::none};

struct Length {
  std::size_t frames;  ///< 0: all
  const char* name;
};

CleanFigures clean_figures(std::size_t frames) {
  CleanFigures all;
  for (const CourseKind kind : kinds) {
    const CleanFigures f = clean_courses(kind, 1000, first_seed, frames);
    all.courses += f.courses;
    all.photos += f.photos;
    all.lost += f.lost;
    all.too_many += f.too_many;
  }
  return all;
}

StrayFigures stray_figures(int courses, std::size_t frames) {
  std::vector<StrayFigures> rows;
  for (const CourseKind kind : kinds) rows.push_back(stray_courses(kind, courses, first_seed, frames, 15));
  return pooled(rows);
}

// Rough photos and drift that is not all alike are among them.
TEST(StrayPhotos, CoursesWithoutOneKeepTheirPhotos) {
  for (const std::size_t frames : {5u, 8u, 12u, 0u}) {
    const CleanFigures all = clean_figures(frames);
    std::printf("%zu frames (0: all), %d courses, seeds %llu on: %d of %d photos left out\n", frames,
                all.courses, static_cast<unsigned long long>(first_seed), all.lost, all.photos);
    // The chance that the limit stands for, a course; its scatter is not quite normal here.
    EXPECT_LE(all.lost, 0.001 * all.courses);
    EXPECT_EQ(all.too_many, 0);
  }
}

// Without the check a third of these courses are no reaction any more.
TEST(StrayPhotos, ReactionsStayReactions) {
  const bool full = std::getenv("TINTFALL_FULL") != nullptr;
  const int courses = full ? 60 : 8;
  std::string table = stray_table_head();
  for (const Length& length : {Length{8, "8 photos"}, Length{12, "12 photos"}, Length{0, "all photos"}}) {
    if (!full && length.frames == 0) continue;
    StrayFigures all = stray_figures(courses, length.frames);
    all.name = length.name;
    table += stray_table_row(all);
    EXPECT_GE(all.found, 0.94 * all.courses);
    EXPECT_GE(all.still_reactions, 0.95 * all.reactions);
    EXPECT_GE(all.same_kinds, 0.93 * all.courses);
    EXPECT_EQ(all.false_reactions, 0);
  }
  std::printf("%d courses a kind, seeds %llu on\n%s", courses, static_cast<unsigned long long>(first_seed),
              table.c_str());
  const char* folder = std::getenv("TINTFALL_RESULTS_DIR");
  if (!full || folder == nullptr) return;
  std::string clean = "| photos a course | courses | photos | left out |\n| --- | --- | --- | --- |\n";
  for (const Length& length : {Length{5, "5"}, Length{8, "8"}, Length{12, "12"}, Length{0, "all"}}) {
    const CleanFigures f = clean_figures(length.frames);
    clean += fmt::format("| {} | {} | {} | {} |\n", length.name, f.courses, f.photos, f.lost);
  }
  std::ofstream file(std::string(folder) + "/stray_photos.md");
  file << "# Photos of another specimen among simulated time courses\n\n"
       << fmt::format(
              "Courses as in [the table of times](kinetics.md), seeds {} on; fewer photos are some of "
              "theirs, spread over the course. ",
              first_seed)
       << "What the check of the controls does is said in [reactions over "
          "time](../explanation/reactions.md).\n\n"
       << "**Without a stray**: photos that are left out for their controls.\n\n"
       << clean
       << fmt::format(
              "\n**With one**: {} courses a kind, five kinds, pooled. In one photo, drawn at random but "
              "for an only one before the drop, spot and control show another specimen, \u0394E00 15 "
              "or more off: by chance the spot at the same stage, or with the colour of its control. "
              "*left out*: of the strays. *still a reaction*: of the courses that are one without the "
              "stray. *same kind*: as without it.\n\n",
              courses)
       << table << "\nWritten by `./run tests --full`.\n";
  EXPECT_TRUE(file.flush());
}

}  // namespace
}  // namespace colorlib::time_courses
