#include <fmt/format.h>
#include <glib.h>
#include <sys/random.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cmath>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/records/collection.hpp>
#include <cstdint>
#include <numbers>
#include <system_error>

namespace colorlib {
namespace {

constexpr std::size_t longest_text_bytes = 4000;
/// A layer that hides its ground has 100; two readings of Y put it a little above.
constexpr double highest_contrast_percent = 110;
/// Nothing in a collection is older; a slip of the pen (1031 for 2031) is. How far ahead is not judged by
/// today: clocks of cameras and computers are wrong by years.
constexpr int earliest_year = 1700, latest_year = 2099;

using C = Collection;

const std::vector<CollectionField> all_fields{
    {"number", FieldKind::text, &C::number, 0, 0, "the collection number on slip, print and photographs"},
    {"collector", FieldKind::text, &C::collector, 0, 0, "who collected it"},
    {"recorder", FieldKind::text, &C::recorder, 0, 0, "who wrote it down, if somebody else"},
    {"collected", FieldKind::time, &C::collected, 0, 0, "ISO 8601 date, or date and time with zone"},
    {"place", FieldKind::text, &C::place, 0, 0, "the site"},
    {"area", FieldKind::text, &C::area, 0, 0, "the larger area, which may always be told"},
    {"latitude_deg", FieldKind::number, &C::latitude_deg, -90, 90, "degrees north, WGS 84"},
    {"longitude_deg", FieldKind::number, &C::longitude_deg, -180, 180, "degrees east, WGS 84"},
    {"coordinate_uncertainty_m", FieldKind::number, &C::coordinate_uncertainty_m, 0, 1e7,
     "radius about the coordinates that holds the site"},
    {"place_coarseness_deg", FieldKind::number, &C::place_coarseness_deg, 0, 10,
     "grid that the coordinates were rounded to"},
    {"hide_place", FieldKind::yes_no, &C::hide_place, 0, 0, "yes: never export the site"},
    {"working_name", FieldKind::text, &C::working_name, 0, 0, "a name to work with"},
    {"named_by", FieldKind::text, &C::named_by, 0, 0, "who gave that name"},
    {"substrate", FieldKind::text, &C::substrate, 0, 0, "what it grew on"},
    {"habitat", FieldKind::text, &C::habitat, 0, 0, "surroundings, nearest trees"},
    {"tissue", FieldKind::text, &C::tissue, 0, 0, "which part: cap, stem, flesh, ..."},
    {"state", FieldKind::text, &C::state, 0, 0, "fresh, cold-stored, dried, ..."},
    {"since_picking_h", FieldKind::number, &C::since_picking_h, 0, 1e7, "hours since picking"},
    {"surface", FieldKind::text, &C::surface, 0, 0, "what received the deposit: foil, card, glass, ..."},
    {"deposit_began", FieldKind::time, &C::deposit_began, 0, 0, "when the cap was laid down"},
    {"deposit_ended", FieldKind::time, &C::deposit_ended, 0, 0, "when the cap was lifted"},
    {"deposit_covered", FieldKind::yes_no, &C::deposit_covered, 0, 0, "under a cover"},
    {"deposit_wetted", FieldKind::yes_no, &C::deposit_wetted, 0, 0, "a drop of water on the cap"},
    {"deposit_state", FieldKind::text, &C::deposit_state, 0, 0, "when read: fresh, air-dried, ..."},
    {"deposit_age_h", FieldKind::number, &C::deposit_age_h, 0, 1e7, "hours from lifting to photograph"},
    {"deposit_form", FieldKind::text, &C::deposit_form, 0, 0, "scraped heap, as fallen, ..."},
    {"thickness", FieldKind::text, &C::thickness, 0, 0, "thickness of the layer"},
    {"backings", FieldKind::text, &C::backings, 0, 0, "grounds it was photographed on"},
    {"contrast_ratio_percent", FieldKind::number, &C::contrast_ratio_percent, 0, highest_contrast_percent,
     "Y over black by Y over white"},
    {"contamination", FieldKind::text, &C::contamination, 0, 0, "soil, algae, a second species, ..."},
    {"permit", FieldKind::text, &C::permit, 0, 0, "permit or permission"},
    {"licence", FieldKind::text, &C::licence, 0, 0, "licence of the data"},
    {"remarks", FieldKind::text, &C::remarks, 0, 0, "anything else"},
};

tl::unexpected<Error> wrong(std::string what, std::string advice) {
  return fail(ErrorCode::bad_call, std::move(what), std::move(advice));
}

/// One line of well-formed text.
Result<std::string> one_line(std::string_view text) {
  text = trimmed(text);
  if (text.size() > longest_text_bytes)
    return wrong(fmt::format("it has {} bytes, at most {} are kept", text.size(), longest_text_bytes),
                 "Shorten it.");
  if (!g_utf8_validate(text.data(), static_cast<gssize>(text.size()), nullptr))
    return wrong(fmt::format("'{}' is no UTF-8 text", quotable(text)), "Save the file as UTF-8.");
  if (holds_control_character(text))
    return wrong(fmt::format("'{}' holds a control character", quotable(text)), "Take it out.");
  std::string line;
  for (const char c : text) {
    const bool blank = c == '\n' || c == '\r' || c == '\t';
    if (!blank)
      line += c;
    else if (!line.empty() && line.back() != ' ')
      line += ' ';
  }
  return line;
}

std::optional<int> digits(std::string_view text, std::size_t at, std::size_t count) {
  if (at + count > text.size()) return std::nullopt;
  int value = 0;
  for (std::size_t i = at; i < at + count; ++i) {
    if (text[i] < '0' || text[i] > '9') return std::nullopt;
    value = value * 10 + (text[i] - '0');
  }
  return value;
}

/// "", "Z" or "+hh:mm".
bool is_zone(std::string_view text) {
  if (text.empty() || text == "Z") return true;
  const auto hours = digits(text, 1, 2), minutes = digits(text, 4, 2);
  return text.size() == 6 && (text[0] == '+' || text[0] == '-') && text[3] == ':' && hours && *hours <= 14 &&
         minutes && *minutes < 60;
}

/// What follows the T: hh:mm, hh:mm:ss, hh:mm:ss.f, and a zone.
bool is_time_of_day(std::string_view text) {
  const auto hours = digits(text, 0, 2), minutes = digits(text, 3, 2);
  if (!hours || *hours > 23 || !minutes || *minutes > 59 || text[2] != ':') return false;
  text.remove_prefix(5);
  if (!text.empty() && text[0] == ':') {
    const auto seconds = digits(text, 1, 2);
    if (!seconds || *seconds > 60) return false;
    text.remove_prefix(3);
    if (!text.empty() && text[0] == '.') {
      const auto end = std::min(text.find_first_not_of("0123456789", 1), text.size());
      if (end < 2) return false;
      text.remove_prefix(end);
    }
  }
  return is_zone(text);
}

/// Minutes since 1 January of the year 1 of an ISO 8601 date and time, by its zone if it states one; nothing
/// when it has no time of day.
std::optional<long> minute_of(std::string_view time) {
  const auto year = digits(time, 0, 4), month = digits(time, 5, 2), day = digits(time, 8, 2),
             hour = digits(time, 11, 2), minute = digits(time, 14, 2);
  if (!year || !month || !day || !hour || !minute) return std::nullopt;
  GDate date;
  g_date_clear(&date, 1);
  g_date_set_dmy(&date, static_cast<GDateDay>(*day), static_cast<GDateMonth>(*month),
                 static_cast<GDateYear>(*year));
  long minutes = static_cast<long>(g_date_get_julian(&date)) * 1440 + *hour * 60 + *minute;
  const std::string_view zone = time.substr(std::min(time.find_first_of("+-", 16), time.size()));
  if (zone.size() == 6) {
    const long east = digits(zone, 1, 2).value_or(0) * 60 + digits(zone, 4, 2).value_or(0);
    minutes -= zone[0] == '-' ? -east : east;
  }
  return minutes;
}

bool has_zone(std::string_view time) {
  return time.ends_with('Z') || time.find_first_of("+-", std::min<std::size_t>(16, time.size())) != time.npos;
}

/// Whether one ISO 8601 time surely lies after the other: as far as both say, and to the day where only one
/// states its zone.
bool surely_after(std::string_view one, std::string_view other) {
  const auto minute = minute_of(one), other_minute = minute_of(other);
  constexpr long day_min = 1440;
  if (minute && other_minute)
    return *minute - *other_minute > (has_zone(one) == has_zone(other) ? 0 : day_min);
  const std::size_t said = std::min({one.size(), other.size(), std::string_view("2031-10-05").size()});
  return one.substr(0, said) > other.substr(0, said);
}

}  // namespace

const std::vector<CollectionField>& collection_fields() { return all_fields; }

const CollectionField* find_collection_field(std::string_view name) {
  const auto found = std::find_if(all_fields.begin(), all_fields.end(),
                                  [&](const CollectionField& field) { return field.name == name; });
  return found == all_fields.end() ? nullptr : &*found;
}

std::string field_text(const C& collection, const CollectionField& field) {
  if (const auto* text = std::get_if<std::string C::*>(&field.place)) return collection.*(*text);
  const auto& number = collection.*(std::get<std::optional<double> C::*>(field.place));
  return number ? fmt::format("{}", *number) : std::string();
}

Result<std::monostate> set_field(C& collection, const CollectionField& field, std::string_view text) {
  auto line = one_line(text);
  if (!line) return fail(line.error());
  if (field.kind == FieldKind::number) {
    auto& place = collection.*(std::get<std::optional<double> C::*>(field.place));
    if (line->empty()) {
      place.reset();
      return std::monostate{};
    }
    const auto number = number_from(*line);
    if (!number)
      return wrong(fmt::format("'{}' is no number", quotable(*line)), "Write it with a decimal point.");
    if (!(*number >= field.least && *number <= field.most))
      return wrong(fmt::format("{} is not between {} and {}", *number, field.least, field.most),
                   "Check value and unit.");
    place = *number == 0 ? 0.0 : *number;
    return std::monostate{};
  }
  if (!line->empty() && field.kind == FieldKind::time && !is_iso8601(*line))
    return wrong(fmt::format("'{}' is no ISO 8601 date or time", quotable(*line)),
                 "Write it like 2031-10-05 or 2031-10-05T11:07+02:00.");
  if (!line->empty() && field.kind == FieldKind::time)
    if (const int year = digits(*line, 0, 4).value_or(0); year < earliest_year || year > latest_year)
      return wrong(fmt::format("'{}' is of the year {}, none between {} and {}", quotable(*line), year,
                               earliest_year, latest_year),
                   "Check the year.");
  if (!line->empty() && field.kind == FieldKind::yes_no && *line != "yes" && *line != "no")
    return wrong(fmt::format("'{}' is neither yes nor no", quotable(*line)),
                 "Say yes or no, or leave it out.");
  collection.*(std::get<std::string C::*>(field.place)) = std::move(*line);
  return std::monostate{};
}

Result<std::monostate> check_collection(const C& collection) {
  if (trimmed(collection.number).empty())
    return wrong("A collection has no number.", "Give it the number on its slip, for example QH-03.");
  if (!collection.uid.empty() && !is_uid(collection.uid))
    return wrong(fmt::format("The collection '{}': uid '{}' is no urn:uuid.", quotable(collection.number),
                             quotable(collection.uid)),
                 "Leave it out to get a new one.");
  for (const CollectionField& field : all_fields) {
    const std::string text = field_text(collection, field);
    if (text.empty()) continue;
    C copy;
    if (const auto sound = set_field(copy, field, text); !sound)
      return wrong(fmt::format("The collection '{}': {} of {}.", quotable(collection.number),
                               sound.error().message, field.name),
                   sound.error().advice);
  }
  if (!collection.deposit_began.empty() && !collection.deposit_ended.empty() &&
      surely_after(collection.deposit_began, collection.deposit_ended))
    return wrong(fmt::format("The collection '{}': its deposit began on {}, after it ended on {}.",
                             quotable(collection.number), quotable(collection.deposit_began),
                             quotable(collection.deposit_ended)),
                 "Change them round, or correct one.");
  if (collection.latitude_deg.has_value() != collection.longitude_deg.has_value())
    return wrong(fmt::format("The collection '{}' has only one of latitude and longitude.",
                             quotable(collection.number)),
                 "Give both, or neither.");
  return std::monostate{};
}

bool is_iso8601(std::string_view text) {
  const auto year = digits(text, 0, 4);
  if (!year || *year == 0) return false;
  if (text.size() == 4) return true;
  const auto month = digits(text, 5, 2);
  if (text[4] != '-' || !month || *month < 1 || *month > 12) return false;
  if (text.size() == 7) return true;
  const auto day = digits(text, 8, 2);
  if (text[7] != '-' || !day ||
      !g_date_valid_dmy(static_cast<GDateDay>(*day), static_cast<GDateMonth>(*month),
                        static_cast<GDateYear>(*year)))
    return false;
  if (text.size() == 10) return true;
  return text[10] == 'T' && is_time_of_day(text.substr(11));
}

bool is_uid(std::string_view text) {
  constexpr std::string_view scheme = "urn:uuid:";
  return text.starts_with(scheme) && text.size() == scheme.size() + 36 &&
         g_uuid_string_is_valid(std::string(text.substr(scheme.size())).c_str());
}

std::string new_uid() {
  // From the system each time: a generator kept in memory would give a forked process the same numbers.
  std::array<std::uint32_t, 4> words{};
  // Up to 256 bytes: fails only where the system has no such call.
  if (::getentropy(words.data(), sizeof words) != 0)
    throw std::system_error(errno, std::generic_category(), "drawing random numbers from the system");
  words[1] = (words[1] & 0xFFFF0FFFu) | 0x00004000u;  // version 4
  words[2] = (words[2] & 0x3FFFFFFFu) | 0x80000000u;  // variant of RFC 4122
  return fmt::format("urn:uuid:{:08x}-{:04x}-{:04x}-{:04x}-{:04x}{:08x}", words[0], words[1] >> 16,
                     words[1] & 0xFFFF, words[2] >> 16, words[2] & 0xFFFF, words[3]);
}

void fill_blanks(C& collection, const C& from) {
  if (collection.uid.empty()) collection.uid = from.uid;
  for (const CollectionField& field : all_fields)
    if (field_text(collection, field).empty())
      std::visit([&](auto place) { collection.*place = from.*place; }, field.place);
}

void coarsen_place(C& collection, double grid_deg) {
  if (!collection.latitude_deg || !collection.longitude_deg) return;
  if (collection.place_coarseness_deg.value_or(0) >= grid_deg) return;
  const auto rounded = [&](double degrees) {
    // Divided by a whole number of steps a degree, so that 12.3 comes out as 12.3.
    const double steps = std::round(1 / grid_deg);
    return std::round(degrees * steps) / steps;
  };
  const double latitude = rounded(*collection.latitude_deg);
  constexpr double m_per_degree = 111'320;  // of a great circle, WGS 84's equator
  const double north_m = m_per_degree * grid_deg / 2;
  const double east_m = north_m * std::cos(latitude * std::numbers::pi / 180);
  collection.coordinate_uncertainty_m =
      std::ceil(collection.coordinate_uncertainty_m.value_or(0) + std::hypot(north_m, east_m));
  collection.latitude_deg = latitude;
  collection.longitude_deg = rounded(*collection.longitude_deg);
  collection.place_coarseness_deg = grid_deg;
}

void forget_coordinates(C& collection) {
  collection.latitude_deg.reset();
  collection.longitude_deg.reset();
  collection.coordinate_uncertainty_m.reset();
  collection.place_coarseness_deg.reset();
}

bool is_same_place_coarser(const C& coarse, const C& exact) {
  const double grid_deg = coarse.place_coarseness_deg.value_or(0);
  if (grid_deg <= exact.place_coarseness_deg.value_or(0)) return false;
  if (!coarse.latitude_deg || !coarse.longitude_deg || !exact.latitude_deg || !exact.longitude_deg)
    return false;
  // Half a cell, and a hair for a place on the line between two, which may have been rounded to either.
  const double farthest_deg = grid_deg / 2 + 1e-9;
  return std::abs(*coarse.latitude_deg - *exact.latitude_deg) <= farthest_deg &&
         std::abs(*coarse.longitude_deg - *exact.longitude_deg) <= farthest_deg;
}

C with_place(const C& collection, PlaceDetail detail) {
  C shown = collection;
  if (detail == PlaceDetail::exact) return shown;
  shown.place.clear();
  if (detail == PlaceDetail::none || collection.hide_place == "yes") {
    forget_coordinates(shown);
    if (detail == PlaceDetail::none) shown.area.clear();
  } else {
    coarsen_place(shown, coarse_grid_deg);
  }
  return shown;
}

}  // namespace colorlib
