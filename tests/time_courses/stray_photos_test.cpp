/// A photo of another specimen among a course's: what the check of the controls finds, and what it costs
/// courses that hold none. TINTFALL_FULL=1 runs more.
#include <gtest/gtest.h>

#include <array>
#include <cstdio>
#include <cstdlib>

#include "tests/time_courses/stray_photos.hpp"

namespace colorlib::time_courses {
namespace {

constexpr std::uint64_t first_seed = 7001;
constexpr std::array kinds = {CourseKind::fast, CourseKind::slow, CourseKind::consecutive, CourseKind::fading,
                              CourseKind::none};

// Rough photos and drift that is not all alike are among them.
TEST(StrayPhotos, CoursesWithoutOneKeepTheirPhotos) {
  for (const std::size_t frames : {5u, 8u, 12u, 0u}) {
    CleanFigures all;
    for (const CourseKind kind : kinds) {
      const CleanFigures f = clean_courses(kind, 1000, first_seed, frames);
      all.courses += f.courses;
      all.photos += f.photos;
      all.lost += f.lost;
      all.too_many += f.too_many;
    }
    std::printf("%zu frames (0: all), %d courses, seeds %llu on: %d of %d photos left out\n", frames,
                all.courses, static_cast<unsigned long long>(first_seed), all.lost, all.photos);
    // The chance that the limit stands for, a course; its scatter is not quite normal here.
    EXPECT_LE(all.lost, 0.001 * all.courses);
    EXPECT_EQ(all.too_many, 0);
  }
}

// Without the check a third of these courses are no reaction any more.
TEST(StrayPhotos, ReactionsStayReactions) {
  std::printf("%s", stray_table_head().c_str());
  for (const std::size_t frames : {8u, 12u}) {
    std::vector<StrayFigures> rows;
    for (const CourseKind kind : kinds)
      rows.push_back(stray_courses(kind, std::getenv("TINTFALL_FULL") ? 60 : 8, first_seed, frames, 15));
    const StrayFigures all = pooled(rows);
    std::printf("%zu frames, seeds %llu on\n%s", frames, static_cast<unsigned long long>(first_seed),
                stray_table_row(all).c_str());
    EXPECT_GE(all.found, 0.94 * all.courses);
    EXPECT_GE(all.still_reactions, 0.95 * all.reactions);
    EXPECT_GE(all.same_kinds, 0.93 * all.courses);
    EXPECT_EQ(all.false_reactions, 0);
  }
}

}  // namespace
}  // namespace colorlib::time_courses
