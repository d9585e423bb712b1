#include <fmt/format.h>

#include <cmath>
#include <colorlib/records/json_fields_internal.hpp>
#include <colorlib/records/record_json.hpp>
#include <colorlib/records/series_record.hpp>

namespace colorlib {
namespace {

using Json = nlohmann::json;

/// Calls `take` with each object of a list and its place, until something is wrong.
template <class Take>
void each_object(JsonFields& fields, const Json& json, const char* key, const std::string& where,
                 const Take& take) {
  const Json* list = fields.list(json, key, where);
  for (std::size_t i = 0; list != nullptr && i < list->size() && !fields.problem(); ++i) {
    const std::string place = fmt::format("{}[{}]", JsonFields::path(where, key), i);
    if ((*list)[i].is_object())
      take((*list)[i], place);
    else
      fields.wrong(place, "must be an object in { }");
  }
}

double needed_number(JsonFields& fields, const Json& json, const char* key, const std::string& where) {
  const auto number = fields.number(json, key, where);
  if (!number) fields.missing(where, key);
  return number.value_or(0);
}

Lab needed_lab(JsonFields& fields, const Json& json, const char* key, const std::string& where) {
  const auto lab = fields.numbers<3>(json, key, where);
  if (!lab) fields.missing(where, key);
  return lab ? lab_from(*lab) : Lab{};
}

RegionKind kind_of(JsonFields& fields, const Json& json, const std::string& where) {
  const auto kind = region_kind_from(fields.text(json, "kind", where, true));
  if (!kind) fields.wrong(JsonFields::path(where, "kind"), "is no kind of region");
  return kind.value_or(RegionKind::other);
}

ColorState state_of(JsonFields& fields, const Json& json, const std::string& where) {
  ColorState state{needed_lab(fields, json, "lab", where), {}};
  const Json* rows = fields.list(json, "lab_covariance", where);
  const std::string place = JsonFields::path(where, "lab_covariance");
  if (rows != nullptr && rows->size() != 3) fields.wrong(place, "must be 3 lists of 3 numbers");
  for (std::size_t r = 0; rows != nullptr && r < 3 && !fields.problem(); ++r)
    if (const auto row = fields.numbers_of<3>((*rows)[r], place))
      for (std::size_t c = 0; c < 3; ++c)
        state.covariance(static_cast<int>(r), static_cast<int>(c)) = (*row)[c];
  return state;
}

TimeEstimate time_of(JsonFields& fields, const Json& json, const std::string& name,
                     const std::string& where) {
  TimeEstimate time;
  time.value_s = fields.number(json, (name + "_s").c_str(), where);
  if (const auto interval = json.find(name + "_interval_s");
      interval != json.end() && interval->is_array() && interval->size() == 2) {
    if ((*interval)[0].is_number()) time.low_s = (*interval)[0].get<double>();
    if ((*interval)[1].is_number()) time.high_s = (*interval)[1].get<double>();
  }
  return time;
}

/// Only shapes that `fitted_path` knows.
void read_curve(JsonFields& fields, const Json& json, const std::string& where, Kinetics& kinetics) {
  const Json* curve = fields.object(json, "curve", where);
  if (curve == nullptr) return;
  const std::string place = JsonFields::path(where, "curve");
  const Json *times = fields.list(*curve, "times", place), *colors = fields.list(*curve, "lab", place);
  const std::size_t times_count = times != nullptr ? times->size() : 0,
                    colors_count = colors != nullptr ? colors->size() : 0;
  const bool known = (times_count == 0 && (colors_count == 1 || colors_count == 2)) ||
                     (times_count == colors_count && (colors_count == 2 || colors_count == 3));
  if (!known) return fields.wrong(place, "has no known number of times and colours");
  for (std::size_t i = 0; i < times_count && !fields.problem(); ++i) {
    constexpr double most = 1e9;
    const double time = (*times)[i].is_number() ? (*times)[i].get<double>() : -1e99;
    if (std::abs(time) > most || (i > 0 && time <= 0))
      fields.wrong(place + ".times", "must be an onset in seconds and rates above 0");
    kinetics.curve_times.push_back(time);
  }
  for (std::size_t i = 0; i < colors_count && !fields.problem(); ++i)
    if (const auto color = fields.numbers_of<3>((*colors)[i], place + ".lab"))
      kinetics.curve_colors.push_back(*color);
}

Kinetics kinetics_of(JsonFields& fields, const Json& json, const std::string& where) {
  Kinetics kinetics;
  if (fields.text(json, "state", where, true) == "fitted") kinetics.state = KineticsState::fitted;
  const std::string model = fields.text(json, "model", where, true);
  for (const KineticModel known : {KineticModel::none, KineticModel::drift, KineticModel::first_order,
                                   KineticModel::consecutive, KineticModel::fading})
    if (kinetic_model_name(known) == model) kinetics.model = known;
  kinetics.onset = time_of(fields, json, "onset", where);
  kinetics.half_time = time_of(fields, json, "half_time", where);
  kinetics.change_de00 = needed_number(fields, json, "change_de00", where);
  kinetics.change_de00_expanded = needed_number(fields, json, "change_de00_expanded", where);
  kinetics.threshold_de00 = fields.number(json, "threshold_de00", where).value_or(0);
  each_object(fields, json, "phases", where, [&](const Json& part, const std::string& place) {
    ReactionPhase phase;
    for (const PhaseKind known :
         {PhaseKind::untreated, PhaseKind::peak, PhaseKind::plateau, PhaseKind::last_seen})
      if (phase_kind_name(known) == fields.text(part, "phase", place, true)) phase.kind = known;
    phase.seconds = needed_number(fields, part, "seconds", place);
    phase.color = state_of(fields, part, place);
    phase.change_de00 = needed_number(fields, part, "change_de00", place);
    kinetics.phases.push_back(phase);
  });
  each_object(fields, json, "path", where, [&](const Json& part, const std::string& place) {
    const double seconds = needed_number(fields, part, "seconds", place);
    if (!kinetics.seconds.empty() && seconds < kinetics.seconds.back())
      fields.wrong(place + ".seconds", "goes back in time");
    kinetics.seconds.push_back(seconds);
    kinetics.path.push_back(state_of(fields, part, place));
  });
  read_curve(fields, json, where, kinetics);
  if (const Json* bad = fields.list(json, "bad_frames", where))
    for (const Json& place : *bad)
      if (place.is_number_unsigned()) kinetics.bad_frames.push_back(place.get<std::size_t>());
  kinetics.remarks = fields.texts(json, "remarks", where);
  return kinetics;
}

FrameRecord frame_of(JsonFields& fields, const Json& json, const std::string& where) {
  FrameRecord frame;
  frame.photo = fields.text(json, "photo", where, true);
  frame.seconds = needed_number(fields, json, "seconds", where);
  frame.dropped = fields.error(json, "dropped", where);
  each_object(fields, json, "readings", where, [&](const Json& part, const std::string& place) {
    Reading reading;
    reading.id = fields.text(part, "id", place, true);
    reading.kind = kind_of(fields, part, place);
    reading.refused = fields.error(part, "refused", place);
    if (!reading.refused) reading.lab = needed_lab(fields, part, "lab", place);
    frame.record.readings.push_back(std::move(reading));
  });
  return frame;
}

/// Which frames a course was fitted to, by their times: both were written with the same rounding.
std::vector<std::size_t> frames_of(const SpotRecord& spot, const std::vector<FrameRecord>& frames) {
  std::vector<std::size_t> places;
  for (std::size_t i = 0; i < frames.size() && places.size() < spot.kinetics.seconds.size(); ++i)
    if (frames[i].seconds == spot.kinetics.seconds[places.size()] &&
        reading_of(frames[i], spot.id) != nullptr)
      places.push_back(i);
  return places;
}

SpotRecord spot_of(JsonFields& fields, const Json& json, const std::string& where,
                   const std::vector<FrameRecord>& frames) {
  SpotRecord spot;
  spot.id = fields.text(json, "id", where, true);
  spot.kind = kind_of(fields, json, where);
  spot.controls = fields.texts(json, "controls", where);
  spot.refused = fields.error(json, "refused", where);
  if (spot.refused) return spot;
  if (const Json* kinetics = fields.object(json, "kinetics", where))
    spot.kinetics = kinetics_of(fields, *kinetics, JsonFields::path(where, "kinetics"));
  else
    fields.missing(where, "kinetics");
  spot.verdict = fields.text(json, "verdict", where);
  spot.verdict_text = fields.text(json, "verdict_text", where);
  spot.sentence = fields.text(json, "sentence", where);
  spot.sign = fields.text(json, "sign", where);
  spot.warnings = fields.texts(json, "warnings", where);
  spot.frames = frames_of(spot, frames);
  if (!fields.problem() && spot.frames.size() != spot.kinetics.path.size())
    fields.wrong(JsonFields::path(where, "kinetics.path"), "has moments that are no frame's");
  return spot;
}

}  // namespace

Result<std::optional<SeriesRecord>> parse_series(std::string_view text, std::string_view name) {
  constexpr std::string_view what = "the series";
  const auto json = parse_json(text, name, what, ErrorCode::unreadable_record, RecordLimits::nesting);
  if (!json) return fail(json.error());
  if (!json->is_object() || !json->contains("spots")) return std::optional<SeriesRecord>();
  JsonFields fields(std::string(what), std::string(name), ErrorCode::unreadable_record,
                    "Use the file as 'tintfall series' wrote it.");
  SeriesRecord series;
  if (const auto zero = series_zero_from(fields.text(*json, "zero", "", true)))
    series.zero = *zero;
  else
    fields.wrong("zero", "is no zero of a series");
  if (const Json* protocol = fields.object(*json, "protocol", "")) {
    Json known = *protocol;
    known.erase("others");  // an object; a protocol file has such fields beside the known ones
    auto parsed =
        parse_protocol(known.dump(-1, ' ', false, Json::error_handler_t::replace), std::string(name));
    if (!parsed) return fail(parsed.error());
    series.protocol = std::move(*parsed);
  }
  each_object(fields, *json, "frames", "", [&](const Json& part, const std::string& place) {
    series.frames.push_back(frame_of(fields, part, place));
  });
  if (const Json* subject = fields.object(*json, "subject", ""))
    for (FrameRecord& frame : series.frames)
      frame.record.subject.item = fields.text(*subject, "item", "subject");
  each_object(fields, *json, "spots", "", [&](const Json& part, const std::string& place) {
    series.spots.push_back(spot_of(fields, part, place, series.frames));
  });
  if (fields.problem()) return fail(*fields.problem());
  return series;
}

}  // namespace colorlib
