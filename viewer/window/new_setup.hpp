#pragma once
/// What is taken to hold for a photo of which nothing was said yet.

#include <viewer/tasks/photo_jobs.hpp>

namespace tintfall::viewer {

/// By the settings as they are now.
PhotoSetup setup_of_new_photos();

}  // namespace tintfall::viewer
