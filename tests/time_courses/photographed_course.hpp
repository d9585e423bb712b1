#pragma once
/// Time courses that are photographed: rendered as a hand-held phone's JPEGs under drifting light, read like
/// any series, and held against their truth.

#include <colorlib/naming/namer.hpp>
#include <colorlib/records/series_record.hpp>
#include <filesystem>
#include <vector>

#include "tests/scenes/series_scene.hpp"
#include "tests/time_courses/simulated_course.hpp"

namespace colorlib::time_courses {

/// What is rendered; `truth` holds the course's times, kind, and whether the frames can tell the kind.
struct PhotographedCourse {
  scenes::SeriesSettings settings;
  Course truth;
};

/// A course of a kind with everything else drawn at random: pale tissue, changes of dE00 6 and more, 10 to 20
/// frames whose gaps grow with the time, light and white balance that wander, a drop of water beside the
/// spot.
PhotographedCourse photographed_course(CourseKind kind, std::uint64_t seed);

/// The frames as `tintfall series` would keep them. With a folder, they are kept there as a journal's lines
/// and taken from there the next time. Throws std::runtime_error when nothing can be rendered.
std::vector<FrameRecord> photographed_frames(const PhotographedCourse& course, const Namer& namer,
                                             const std::filesystem::path& keep_in = {});

}  // namespace colorlib::time_courses
