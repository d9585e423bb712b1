#include <fmt/format.h>

#include <algorithm>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/reaction/series_times.hpp>

namespace colorlib {
namespace {

/// "11:07:13.5" with a date put before it, as EXIF writes times.
std::optional<CaptureTime> time_from(std::string_view date, std::string_view clock) {
  if (clock.size() < 8) return {};
  std::string_view rest = clock.substr(8), fraction;
  if (!rest.empty() && (rest.front() == '.' || rest.front() == ',')) {
    const auto end = std::min(rest.find_first_not_of("0123456789", 1), rest.size());
    fraction = rest.substr(1, end - 1);
    rest = rest.substr(end);
    if (fraction.empty()) return {};
  }
  auto time = capture_time_from_exif(fmt::format("{} {}", date, clock.substr(0, 8)), fraction, rest);
  if (time && !rest.empty() && !time->zone_offset_minutes) return {};
  return time;
}

}  // namespace

std::optional<CaptureTime> capture_time_from_iso8601(std::string_view text) {
  text = trimmed(text);
  if (text.size() < 19 || text[4] != '-' || text[7] != '-' || (text[10] != 'T' && text[10] != ' ')) return {};
  return time_from(fmt::format("{}:{}:{}", text.substr(0, 4), text.substr(5, 2), text.substr(8, 2)),
                   text.substr(11));
}

Result<AppliedMoment> applied_moment_from(std::string_view text, const std::vector<std::string>& photos) {
  using Kind = AppliedMoment::Kind;
  text = trimmed(text);
  AppliedMoment moment;
  const auto slash = text.find_last_of('/');
  const std::string_view file = slash == std::string_view::npos ? text : text.substr(slash + 1);
  if (!text.empty() && std::find(photos.begin(), photos.end(), file) != photos.end()) {
    moment.kind = Kind::photo;
    moment.photo = file;
    return moment;
  }
  if (text == "0") {
    moment.kind = Kind::zero;
    return moment;
  }
  if (text == "found") {
    moment.kind = Kind::to_be_found;
    return moment;
  }
  if (text.size() > 1 && text.front() == '+')
    if (const auto seconds = number_from(text.substr(1)); seconds && *seconds >= 0) {
      moment.kind = Kind::seconds_after_first;
      moment.seconds = *seconds;
      return moment;
    }
  if (const auto clock = capture_time_from_iso8601(text)) {
    moment.kind = Kind::clock;
    moment.clock = *clock;
    return moment;
  }
  if (const auto clock = time_from("2000:01:01", text); clock && !clock->zone_offset_minutes) {
    moment.kind = Kind::clock_of_day;
    moment.clock = *clock;
    return moment;
  }
  return fail(
      ErrorCode::bad_call,
      fmt::format("The moment of application '{}' is neither a photo of the series nor a time.",
                  quotable(text)),
      "Name a photo of the series, or write for example +12.5 (seconds after the first photo), 11:07:13.5, "
      "2031-10-05T11:07:13.5+02:00, or found.");
}

}  // namespace colorlib
