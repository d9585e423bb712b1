#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/base/median.hpp>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/image/photo_files.hpp>
#include <colorlib/reaction/series_times.hpp>
#include <numeric>
#include <set>

namespace colorlib {
namespace {

constexpr double hour_s = 3600;
constexpr double day_s = 24 * hour_s;
constexpr double longest_interval_s = 366 * day_s;
constexpr double times_as_long = 10;          ///< the longest wait before a series, in its own lengths
constexpr double sure_of_day_s = 6 * hour_s;  ///< a time of day this near the first photo has one date only
constexpr double near_hour_s = 120;     ///< a step this near to whole hours looks like a clock that was set
constexpr double rare_step_share = 30;  ///< and is this many times the usual step

/// A camera clock in one zone: what to subtract from, so that differences are true.
struct Clock {
  std::vector<double> seconds;  ///< since 1970, one a photo
  bool zoned = false;           ///< zones are known and removed
};

std::string zone_text(int minutes) {
  return fmt::format("{}{:02}:{:02}", minutes < 0 ? '-' : '+', std::abs(minutes) / 60,
                     std::abs(minutes) % 60);
}

/// Every photo on one clock. Photos that say no zone are taken to be in the zone of the others.
Clock one_clock(const std::vector<TimedPhoto>& photos, std::vector<std::string>& remarks) {
  std::set<int> zones;
  std::size_t without = 0;
  for (const TimedPhoto& photo : photos) {
    if (photo.captured->zone_offset_minutes)
      zones.insert(*photo.captured->zone_offset_minutes);
    else
      ++without;
  }
  if (zones.size() > 1)
    remarks.push_back(
        fmt::format("The photos name {} time zones, from {} to {}; differences were taken in universal time.",
                    zones.size(), zone_text(*zones.begin()), zone_text(*zones.rbegin())));
  if (!zones.empty() && without > 0)
    remarks.push_back(fmt::format("{} of {} photos name no time zone; the zone {} of the others was assumed.",
                                  without, photos.size(), zone_text(*zones.begin())));
  Clock clock;
  clock.zoned = !zones.empty();
  for (const TimedPhoto& photo : photos) {
    CaptureTime time = *photo.captured;
    if (!time.zone_offset_minutes && !zones.empty()) time.zone_offset_minutes = *zones.begin();
    clock.seconds.push_back(time.seconds());
  }
  return clock;
}

/// "2.5 s", "604 s", "26 h", "9131 days".
std::string span_text(double seconds) {
  if (seconds < 99.5) return fmt::format("{:.3g} s", seconds);
  if (seconds < 2 * hour_s) return fmt::format("{:.0f} s", seconds);
  if (seconds < 3 * day_s) return fmt::format("{:.0f} h", seconds / hour_s);
  return fmt::format("{:.0f} days", seconds / day_s);
}

double median_step(const std::vector<double>& sorted) {
  std::vector<double> steps;
  for (std::size_t i = 1; i < sorted.size(); ++i) steps.push_back(sorted[i] - sorted[i - 1]);
  return median(std::move(steps));
}

/// Clocks that were set while the series ran: back, which the numbers in the file names betray, or forward by
/// whole hours.
void note_clock_jumps(const std::vector<TimedPhoto>& photos, const std::vector<double>& seconds,
                      const std::vector<std::size_t>& by_time, std::vector<std::string>& remarks) {
  std::vector<std::size_t> by_name(photos.size());
  std::iota(by_name.begin(), by_name.end(), 0);
  std::stable_sort(by_name.begin(), by_name.end(), [&](std::size_t a, std::size_t b) {
    return counts_before(photos[a].name, photos[b].name);
  });
  int back = 0;
  for (std::size_t i = 1; i < by_name.size(); ++i) {
    const double step = seconds[by_name[i]] - seconds[by_name[i - 1]];
    if (step >= 0 || back++ > 0) continue;
    remarks.push_back(
        fmt::format("From '{}' to '{}' the clock goes back by {}: the photos were put in the order of "
                    "their clock. If it was "
                    "set in between, give the times with --times.",
                    photos[by_name[i - 1]].name, photos[by_name[i]].name, span_text(-step)));
  }
  if (back > 1) remarks.push_back(fmt::format("It goes back {} times in all.", back));
  std::vector<double> sorted;
  for (const std::size_t i : by_time) sorted.push_back(seconds[i]);
  const double usual = median_step(sorted);
  for (std::size_t i = 1; i < sorted.size(); ++i) {
    const double step = sorted[i] - sorted[i - 1], hours = std::round(step / hour_s);
    if (hours >= 1 && std::abs(step - hours * hour_s) < near_hour_s &&
        step > rare_step_share * std::max(usual, 1.0))
      remarks.push_back(
          fmt::format("Between '{}' and '{}' lie {:.0f} s, nearly {:.0f} h and far more than the usual "
                      "{}: was the clock set? "
                      "If so, give the times with --times.",
                      photos[by_time[i - 1]].name, photos[by_time[i]].name, step, hours, span_text(usual)));
  }
}

/// Photos of one whole second, in the order of their names, are spread over it; all others keep their time.
void spread_equal_seconds(const std::vector<TimedPhoto>& photos, std::vector<double>& seconds,
                          SeriesTimes& times) {
  std::map<double, std::vector<std::size_t>> groups;
  std::size_t whole = 0;
  for (std::size_t i = 0; i < photos.size(); ++i) {
    groups[seconds[i]].push_back(i);
    whole += photos[i].captured->subsecond_digits == 0;
  }
  std::size_t shared = 0;
  for (auto& [second, group] : groups) {
    if (group.size() == 1) continue;
    shared += group.size();
    std::stable_sort(group.begin(), group.end(), [&](std::size_t a, std::size_t b) {
      return counts_before(photos[a].name, photos[b].name);
    });
    if (photos[group.front()].captured->subsecond_digits > 0) continue;
    for (std::size_t k = 0; k < group.size(); ++k)
      seconds[group[k]] += static_cast<double>(k) / static_cast<double>(group.size());
  }
  if (whole > 0) {
    times.resolution_s = 1;
    times.remarks.push_back(fmt::format(
        "{} of {} photos name whole seconds only: their times are good to a second.", whole, photos.size()));
  }
  if (shared > 0)
    times.remarks.push_back(fmt::format(
        "{} photos share their second with another; they were spread over it in the order of their names.",
        shared));
}

/// The date of a time of day is the one that brings it nearest to the first photo, which may be the day
/// before or after its own; where two are about as near, it has to be said. `first_s`, `last_s`: of the
/// photos.
Result<double> nearest_day(const CaptureTime& on_first_date, double first_s, double last_s,
                           std::vector<std::string>& remarks) {
  const double same_day_s = on_first_date.seconds();
  double nearest_s = same_day_s;
  for (const double day : {-day_s, day_s})
    if (std::abs(same_day_s + day - first_s) < std::abs(nearest_s - first_s)) nearest_s = same_day_s + day;
  const bool between_photos = nearest_s >= first_s && nearest_s <= last_s;
  const std::string clock =
      fmt::format("{:02}:{:02}:{:02}", on_first_date.hour, on_first_date.minute, on_first_date.second);
  if (!between_photos && std::abs(nearest_s - first_s) > sure_of_day_s)
    return fail(
        ErrorCode::bad_call,
        fmt::format("The moment of application, {}, is more than {} from the first photo on each day, "
                    "so its date cannot be told.",
                    clock, span_text(sure_of_day_s)),
        "Say the date too, for example --applied 2031-10-05T11:07:13.");
  if (nearest_s != same_day_s)
    remarks.push_back(
        fmt::format("The moment of application, {}, was taken as of the day {} the first photo.", clock,
                    nearest_s < same_day_s ? "before" : "after"));
  return nearest_s;
}

Result<double> clock_zero(const AppliedMoment& applied, const std::vector<TimedPhoto>& photos,
                          const Clock& clock, SeriesTimes& times) {
  CaptureTime moment = applied.clock;
  const std::size_t first = times.order.front();
  const CaptureTime& shown = *photos[first].captured;
  if (applied.kind == AppliedMoment::Kind::clock_of_day) {
    moment.year = shown.year, moment.month = shown.month, moment.day = shown.day;
    moment.zone_offset_minutes = shown.zone_offset_minutes;
    if (clock.zoned && !moment.zone_offset_minutes)
      for (const TimedPhoto& photo : photos)
        if (photo.captured->zone_offset_minutes) {
          moment.zone_offset_minutes = photo.captured->zone_offset_minutes;
          break;
        }
    return nearest_day(moment, times.seconds[first], times.seconds[times.order.back()], times.remarks);
  }
  if (clock.zoned && !moment.zone_offset_minutes) {
    moment.zone_offset_minutes = shown.zone_offset_minutes;
    times.remarks.push_back("The moment of application names no time zone; that of the photos was taken.");
  } else if (!clock.zoned && moment.zone_offset_minutes) {
    moment.zone_offset_minutes.reset();
    times.remarks.push_back(
        "The photos name no time zone; the moment of application was taken as the camera's clock showed it.");
  }
  return moment.seconds();
}

/// An interval beside clocks is taken where they agree with it, or stand still and so say nothing: how
/// evenly a person or a timer keeps an interval is a tenth of it, and a hundredth of the whole.
Result<std::monostate> check_interval(const std::vector<TimedPhoto>& photos, double interval_s,
                                      SeriesTimes& times) {
  constexpr double uneven_share = 0.1, drift_share = 0.01;
  std::vector<TimedPhoto> clocked;
  std::vector<double> stated_s;
  bool whole_seconds = false;
  for (std::size_t i = 0; i < photos.size(); ++i) {
    if (!photos[i].captured) continue;
    clocked.push_back(photos[i]);
    stated_s.push_back(static_cast<double>(i) * interval_s);
    whole_seconds |= photos[i].captured->subsecond_digits == 0;
  }
  if (clocked.size() < 2) return std::monostate{};
  std::vector<std::string> unsaid;  // of zones: the clocks are not what counts
  const std::vector<double> clock_s = one_clock(clocked, unsaid).seconds;
  const auto [least, most] = std::minmax_element(clock_s.begin(), clock_s.end());
  if (*least == *most) {
    if (stated_s.back() - stated_s.front() > 1)
      times.remarks.push_back(
          "The photos' clocks all say the same moment; the interval stated was taken instead.");
    return std::monostate{};
  }
  for (std::size_t i = 1; i < clocked.size(); ++i) {
    const double stated = stated_s[i] - stated_s[0], shown = clock_s[i] - clock_s[0];
    const double allowed =
        std::max(whole_seconds ? 1.0 : 0.0, uneven_share * interval_s) + drift_share * std::abs(stated);
    if (std::abs(shown - stated) <= allowed) continue;
    return fail(
        ErrorCode::bad_call,
        fmt::format("An interval of {:g} s was stated, which puts '{}' {} after '{}'; by the photos' own "
                    "clock it was taken {} {} it, and an interval is for photos that do not say when they "
                    "were taken.",
                    interval_s, clocked[i].name, span_text(stated), clocked[0].name,
                    span_text(std::abs(shown)), shown < 0 ? "before" : "after"),
        "Leave the interval out; if the clock is wrong, give the times with --times T.csv.");
  }
  return std::monostate{};
}

tl::unexpected<Error> not_by_clock() {
  return fail(ErrorCode::bad_call,
              "--applied names a clock time, but the times of this series do not come from a clock.",
              "Name a photo, or the seconds after the first photo as +SECONDS.");
}

Result<std::monostate> set_zero(const std::vector<TimedPhoto>& photos, const AppliedMoment& applied,
                                const Clock* clock, SeriesTimes& times) {
  using Kind = AppliedMoment::Kind;
  const std::size_t first = times.order.front();
  double zero = times.seconds[first];
  switch (applied.kind) {
    case Kind::not_said:
    case Kind::zero:
    case Kind::to_be_found:
      break;
    case Kind::seconds_after_first:
      zero += applied.seconds;
      times.zero = SeriesZero::applied;
      break;
    case Kind::photo: {
      const auto found = std::find_if(photos.begin(), photos.end(),
                                      [&](const TimedPhoto& p) { return p.name == applied.photo; });
      if (found == photos.end())
        return fail(ErrorCode::bad_call,
                    fmt::format("--applied names '{}', which is no photo of the series.", applied.photo),
                    "Name one of the photos that are read.");
      zero = times.seconds[static_cast<std::size_t>(found - photos.begin())];
      times.zero = SeriesZero::photo;
      break;
    }
    case Kind::clock:
    case Kind::clock_of_day: {
      if (clock == nullptr) return not_by_clock();
      const auto moment = clock_zero(applied, photos, *clock, times);
      if (!moment) return fail(moment.error());
      zero = *moment;
      times.zero = SeriesZero::applied;
      break;
    }
  }
  for (double& t : times.seconds) t -= zero;
  return std::monostate{};
}

Result<std::monostate> take_table(const std::vector<TimedPhoto>& photos, const TimesTable& table,
                                  SeriesTimes& times) {
  times.source = TimesSource::times_file;
  for (const TimedPhoto& photo : photos) {
    const auto row = table.find(photo.name);
    if (row == table.end())
      return fail(ErrorCode::unreadable_table,
                  fmt::format("The times file has no row for the photo '{}'.", photo.name),
                  "Add it, or leave the photo out of the call.");
    times.seconds.push_back(row->second);
  }
  times.zero = SeriesZero::times_file;
  return std::monostate{};
}

void order_by_time(SeriesTimes& times) {
  times.order.resize(times.seconds.size());
  std::iota(times.order.begin(), times.order.end(), 0);
  std::stable_sort(times.order.begin(), times.order.end(),
                   [&](std::size_t a, std::size_t b) { return times.seconds[a] < times.seconds[b]; });
}

}  // namespace

std::string_view times_source_name(TimesSource source) {
  switch (source) {
    case TimesSource::capture_times:
      return "capture-times";
    case TimesSource::times_file:
      return "times-file";
    case TimesSource::interval:
      return "interval";
    case TimesSource::stream:
      return "stream";
  }
  return "";
}

std::string_view series_zero_name(SeriesZero zero) {
  switch (zero) {
    case SeriesZero::first_photo:
      return "first-photo";
    case SeriesZero::applied:
      return "applied";
    case SeriesZero::photo:
      return "photo";
    case SeriesZero::times_file:
      return "times-file";
    case SeriesZero::found:
      return "found";
  }
  return "";
}

Result<SeriesZero> series_zero_from(std::string_view name) {
  for (const SeriesZero zero : {SeriesZero::first_photo, SeriesZero::applied, SeriesZero::photo,
                                SeriesZero::times_file, SeriesZero::found})
    if (name == series_zero_name(zero)) return zero;
  return fail(ErrorCode::unreadable_record, fmt::format("'{}' is no zero of a series.", quotable(name)));
}

Result<SeriesTimes> series_times(const std::vector<TimedPhoto>& photos, const TimesRequest& request) {
  SeriesTimes times;
  if (photos.empty())
    return fail(ErrorCode::bad_call, "A series without photos was given.", "Name its photos.");
  if (request.table && request.interval_s)
    return fail(ErrorCode::bad_call, "Both a times file and an interval were given.",
                "Leave one of them out.");
  if (request.table && request.applied.kind != AppliedMoment::Kind::not_said &&
      request.applied.kind != AppliedMoment::Kind::zero)
    return fail(ErrorCode::bad_call,
                "--times counts from the application, and --applied says another moment.",
                "Leave --applied out, or write --applied 0.");
  if (!request.table && request.applied.kind == AppliedMoment::Kind::zero)
    return fail(ErrorCode::bad_call, "--applied 0 goes with --times only.",
                "Name the photo, the clock time or +SECONDS after the first photo.");

  std::optional<Clock> clock;
  if (request.table) {
    if (const auto taken = take_table(photos, *request.table, times); !taken) return fail(taken.error());
    order_by_time(times);
    return times;
  }
  if (request.interval_s) {
    if (!(*request.interval_s > 0 && *request.interval_s <= longest_interval_s))
      return fail(
          ErrorCode::bad_call,
          fmt::format("An interval of {:g} s was given; it must be above 0 and at most {:.0f} s (a year).",
                      *request.interval_s, longest_interval_s),
          "Say how many seconds lie between two photos.");
    if (const auto sound = check_interval(photos, *request.interval_s, times); !sound)
      return fail(sound.error());
    times.source = TimesSource::interval;
    for (std::size_t i = 0; i < photos.size(); ++i)
      times.seconds.push_back(static_cast<double>(i) * *request.interval_s);
    order_by_time(times);
  } else {
    for (const TimedPhoto& photo : photos)
      if (!photo.captured)
        return fail(ErrorCode::bad_call,
                    fmt::format("The photo '{}' does not say when it was taken.", photo.name),
                    "Give the times with --times T.csv, or --interval SECONDS when the photos were taken at "
                    "even intervals.");
    clock = one_clock(photos, times.remarks);
    auto seconds = clock->seconds;
    times.seconds = seconds;
    order_by_time(times);
    note_clock_jumps(photos, seconds, times.order, times.remarks);
    spread_equal_seconds(photos, times.seconds, times);
    order_by_time(times);
  }
  if (const auto set = set_zero(photos, request.applied, clock ? &*clock : nullptr, times); !set)
    return fail(set.error());
  return times;
}

Result<std::monostate> check_applied(const SeriesTimes& times) {
  if (times.zero != SeriesZero::applied || times.order.empty()) return std::monostate{};
  constexpr const char* advice =
      "Say --applied with a photo of the series, a clock time with its date, or +SECONDS after the first "
      "photo.";
  const double first_s = times.seconds[times.order.front()], last_s = times.seconds[times.order.back()];
  if (last_s < 0)
    return fail(ErrorCode::bad_call,
                fmt::format("The moment of application lies {} after the last photo, so no photo shows what "
                            "followed it.",
                            span_text(-last_s)),
                advice);
  // A bruise may be looked at the day after, and a series of days may begin days after; a wrong year or zone
  // is far beyond both.
  const double longest_s = std::max(day_s, times_as_long * (last_s - first_s));
  if (first_s > longest_s)
    return fail(ErrorCode::bad_call,
                fmt::format("The moment of application lies {} before the first photo of a series that lasts "
                            "{}; at most {} can be meant.",
                            span_text(first_s), span_text(last_s - first_s), span_text(longest_s)),
                advice);
  return std::monostate{};
}

void shift_zero(SeriesTimes& times, double seconds, SeriesZero zero) {
  for (double& t : times.seconds) t -= seconds;
  times.zero = zero;
}

}  // namespace colorlib
