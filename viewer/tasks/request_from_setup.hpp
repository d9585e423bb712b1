#pragma once
/// From what the user said to what colorlib is asked.

#include <viewer/tasks/photo_jobs.hpp>

namespace tintfall::viewer {

/// Charts, reference, corners and height; label and date of a printed sheet go into `said`. Errors: of those
/// files.
colorlib::Result<colorlib::ReadRequest> request_from_setup(PhotoSetup setup, SheetOutcome& said);

}  // namespace tintfall::viewer
