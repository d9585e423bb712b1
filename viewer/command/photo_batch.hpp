#pragma once
/// Many photographs, read by several threads, told in their order.

#include <colorlib/base/progress.hpp>
#include <colorlib/base/result.hpp>
#include <colorlib/records/record.hpp>
#include <cstddef>
#include <functional>

namespace tintfall {

/// Reads photograph `i`; called from several threads at once.
using ReadPhotoAt =
    std::function<colorlib::Result<colorlib::Record>(std::size_t i, colorlib::Progress& progress)>;
/// Takes the result of photograph `i`; called from the caller's thread, in order, as soon as it and all
/// before it are there.
using TakeRecordAt = std::function<void(std::size_t i, colorlib::Result<colorlib::Record> result)>;

/// `jobs` >= 1 threads. When `progress` is cancelled, photographs under way stop and the rest is not begun:
/// their result is ErrorCode::cancelled. What `read` throws is that photograph's error; what `take` or
/// `progress` throws is thrown on, once every thread has ended.
void read_photos(std::size_t count, std::size_t jobs, const ReadPhotoAt& read, const TakeRecordAt& take,
                 colorlib::Progress& progress);

/// How many threads suit: one a core, at most 8, since a photograph of 12 million pixels takes about 250 MB.
std::size_t usual_jobs();

}  // namespace tintfall
