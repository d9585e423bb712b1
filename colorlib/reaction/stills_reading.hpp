#pragma once
/// The photos of a series, read one after another on all cores, a few in memory at a time.

#include <colorlib/base/progress.hpp>
#include <colorlib/base/result.hpp>
#include <colorlib/image/decode.hpp>
#include <colorlib/reaction/first_frame.hpp>
#include <colorlib/specimen/photo_reading.hpp>
#include <cstddef>
#include <filesystem>
#include <functional>
#include <variant>
#include <vector>

namespace colorlib {

/// What came of one photo. `photo` is null when the file could not be decoded.
struct StillOutcome {
  std::size_t index = 0;  ///< into the task's photos
  const Photo* photo = nullptr;
  PhotoReduction reduction;  ///< of `photo` against its file; places of `reading` in px are those of `photo`
  Result<PhotoReading> reading;
  FrameComparison comparison;  ///< with the first photo that could be read
};

/// Called once a photo, never two at a time, in the order in which readings finish. An error ends the work.
using StillSink = std::function<Result<std::monostate>(const StillOutcome&)>;

struct StillsTask {
  std::vector<std::filesystem::path> photos;
  std::vector<bool> skip;  ///< one a photo, or empty: photos whose reading is known already
  unsigned threads = 0;    ///< 0: as many as there are cores, at most `most_threads`
  /// A photo of 12 MP takes about 60 MB while it is read: four keep a series within 300 MB whatever its
  /// length.
  static constexpr unsigned most_threads = 4;
};

/// Reads every photo that is not skipped, and compares each with the first that could be read (which is
/// therefore read anew even when it is skipped). What moved on the sheet is followed; a photo that shows
/// something else than the first is untrustworthy. JPEGs much finer than the regions and patches need are
/// decoded at half or a quarter of their size: a 12 MP photo of an A5 sheet keeps 4 px a mm. A photo that
/// cannot be read is handed to the sink like any other; what fails the series is the sink's to say. Progress
/// is reported as the share of all photos done. What the sink throws is thrown on, once every thread has
/// ended. Errors: cancelled, and what the sink returns.
Result<std::monostate> read_stills(const StillsTask& task, const ReadRequest& request, const Namer& namer,
                                   const StillSink& sink, Progress& progress);

}  // namespace colorlib
