#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/image/capture_metadata.hpp>

namespace colorlib {
namespace {

/// Days from 1970-01-01 in the Gregorian calendar, by counting leap days before 1 March of the year.
long days_from_date(int year, int month, int day) {
  const long shifted_year = month <= 2 ? year - 1L : year;
  const long month_from_march = (month + 9) % 12;
  const long leap_days = shifted_year / 4 - shifted_year / 100 + shifted_year / 400;
  const long day_of_year = (153 * month_from_march + 2) / 5 + day - 1;
  return 365 * shifted_year + leap_days + day_of_year - 719468;
}

/// Exactly `digits` digits at `at`, or nothing.
std::optional<int> digits_at(std::string_view text, std::size_t at, std::size_t digits) {
  if (text.size() < at + digits) return {};
  int value = 0;
  const char* end = text.data() + at + digits;
  for (const char* c = text.data() + at; c != end; ++c) {
    if (*c < '0' || *c > '9') return {};
    value = 10 * value + (*c - '0');
  }
  return value;
}

int days_in_month(int year, int month) {
  constexpr int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  const bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
  return days[month - 1] + (month == 2 && leap ? 1 : 0);
}

/// EXIF pads with blanks and NULs.
std::string_view without_padding(std::string_view text) {
  while (!text.empty() && (text.back() == '\0' || text.back() == ' ')) text.remove_suffix(1);
  return trimmed(text);
}

std::optional<int> zone_minutes(std::string_view text) {
  if (text == "Z") return 0;
  if (text.size() != 6 || (text[0] != '+' && text[0] != '-') || text[3] != ':') return {};
  const auto hours = digits_at(text, 1, 2), minutes = digits_at(text, 4, 2);
  if (!hours || !minutes || *hours > 14 || *minutes > 59) return {};
  return (text[0] == '-' ? -1 : 1) * (60 * *hours + *minutes);
}

}  // namespace

std::string CaptureTime::iso8601() const {
  std::string text = fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:", year, month, day, hour, minute);
  if (subsecond_digits > 0)
    text += fmt::format("{:0{}.{}f}", second, 3 + subsecond_digits, subsecond_digits);
  else
    text += fmt::format("{:02}", static_cast<int>(second));
  if (zone_offset_minutes) {
    const int offset = std::abs(*zone_offset_minutes);
    text += fmt::format("{}{:02}:{:02}", *zone_offset_minutes < 0 ? '-' : '+', offset / 60, offset % 60);
  }
  return text;
}

double CaptureTime::seconds() const {
  const double in_own_clock = 86400.0 * static_cast<double>(days_from_date(year, month, day)) +
                              3600.0 * hour + 60.0 * minute + second;
  return in_own_clock - 60.0 * zone_offset_minutes.value_or(0);
}

std::optional<CaptureTime> capture_time_from_exif(std::string_view date_time, std::string_view subseconds,
                                                  std::string_view zone_offset) {
  const std::string_view text = without_padding(date_time);
  if (text.size() != 19 || text[4] != ':' || text[7] != ':' || text[10] != ' ' || text[13] != ':' ||
      text[16] != ':')
    return {};
  const auto year = digits_at(text, 0, 4), month = digits_at(text, 5, 2), day = digits_at(text, 8, 2);
  const auto hour = digits_at(text, 11, 2), minute = digits_at(text, 14, 2), second = digits_at(text, 17, 2);
  if (!year || !month || !day || !hour || !minute || !second) return {};
  if (*year < 1 || *month < 1 || *month > 12 || *day < 1 || *day > days_in_month(*year, *month)) return {};
  if (*hour > 23 || *minute > 59 || *second > 60) return {};

  CaptureTime time{*year, *month, *day, *hour, *minute, static_cast<double>(*second), 0, {}};
  const std::string_view fraction = without_padding(subseconds);
  constexpr std::size_t digits_of_a_nanosecond = 9;
  const std::size_t digits = std::min(fraction.size(), digits_of_a_nanosecond);
  if (digits > 0)
    if (const auto value = digits_at(fraction, 0, digits)) {
      time.second += *value / std::pow(10.0, static_cast<double>(digits));
      time.subsecond_digits = static_cast<int>(digits);
    }
  time.zone_offset_minutes = zone_minutes(without_padding(zone_offset));
  return time;
}

}  // namespace colorlib
