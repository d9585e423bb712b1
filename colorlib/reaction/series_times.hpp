#pragma once
/// When each photo of a series was taken, in seconds from a stated zero.

#include <colorlib/base/result.hpp>
#include <colorlib/image/capture_metadata.hpp>
#include <cstddef>
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace colorlib {

/// One photo (or video frame) of a series, in the order given by the caller.
struct TimedPhoto {
  std::string name;                     ///< file name without folder
  std::optional<CaptureTime> captured;  ///< as the camera wrote it
};

/// From where the times come.
enum class TimesSource {
  capture_times,  ///< the photos' own metadata
  times_file,     ///< a table of the user
  interval,       ///< file order and a stated interval
  stream,         ///< a video's own time stamps
};
std::string_view times_source_name(TimesSource source);

/// What stands at zero. The spelling in records: "applied", "photo", "first-photo", "times-file", "found".
enum class SeriesZero {
  first_photo,  ///< nothing was said
  applied,      ///< a clock time, or seconds after the first photo
  photo,        ///< a photo of the series
  times_file,   ///< the table counts from the application
  found,        ///< the first photo that shows the drop or the wound
};
std::string_view series_zero_name(SeriesZero zero);
/// Errors: unreadable_record for an unknown spelling.
Result<SeriesZero> series_zero_from(std::string_view name);

/// When the reagent was applied or the tissue was hurt, as the user says it.
struct AppliedMoment {
  enum class Kind { not_said, photo, clock, clock_of_day, seconds_after_first, zero, to_be_found };
  Kind kind = Kind::not_said;
  std::string photo;   ///< kind photo
  CaptureTime clock;   ///< kinds clock and clock_of_day (then only hour, minute, second hold)
  double seconds = 0;  ///< kind seconds_after_first
};

/// A photo's name, "2031-10-05T11:07:13.5+02:00", "11:07:13.5", "+12.5", "0" or "found". `photos` are the
/// names of the series; a name wins over every other meaning. A time without a date is the one nearest to the
/// first photo, on its day, the day before or the day after. Errors: bad_call.
Result<AppliedMoment> applied_moment_from(std::string_view text, const std::vector<std::string>& photos);

/// ISO 8601 date and time, with or without zone, seconds and their decimals; nothing when it is no such time.
std::optional<CaptureTime> capture_time_from_iso8601(std::string_view text);

/// Seconds by photo name.
using TimesTable = std::map<std::string, double>;
/// CSV with columns `photo` and `seconds`. Errors: unreadable_table: missing columns, no number, one photo
/// twice, two photos at one time, more than 100 000 rows.
Result<TimesTable> read_times_table(const std::filesystem::path& path);
Result<TimesTable> parse_times_table(std::string_view text, std::string name);

struct TimesRequest {
  std::optional<TimesTable> table;   ///< its seconds count from the application
  std::optional<double> interval_s;  ///< between photos in the order given; at most 366 days
  AppliedMoment applied;
};

struct SeriesTimes {
  TimesSource source = TimesSource::capture_times;
  SeriesZero zero = SeriesZero::first_photo;
  std::vector<std::size_t> order;    ///< indices of the photos by time, earliest first
  std::vector<double> seconds;       ///< of photo i (in the caller's order), from `zero`
  double resolution_s = 0;           ///< of the clock: 1 where sub-seconds are missing
  std::vector<std::string> remarks;  ///< clock jumps, zones, equal seconds: what was noticed and done
};

/// A zero that has to be found counts from the first photo until `shift_zero` is told where it lies.
/// Errors: bad_call (no times to be had, contradictory options, an interval that the photos' own clocks
/// contradict by more than their resolution and a tenth of it, an applied photo that is none of the series,
/// a time of day without a date that is more than 6 h from the first photo and not among the photos),
/// unreadable_table (photos missing from the table).
Result<SeriesTimes> series_times(const std::vector<TimedPhoto>& photos, const TimesRequest& request);

/// Moves the zero to `seconds` on the present scale.
void shift_zero(SeriesTimes& times, double seconds, SeriesZero zero);

/// Whether a moment of application that was stated can be meant. Errors: bad_call when no photo was taken
/// after it, or when the first was taken so long after it that it is rather another day's: by more than a day
/// and more than ten times what the series lasts.
Result<std::monostate> check_applied(const SeriesTimes& times);

}  // namespace colorlib
