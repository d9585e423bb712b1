#include <colorlib/records/json_fields_internal.hpp>
#include <colorlib/records/json_layout_internal.hpp>
#include <colorlib/records/record_json.hpp>
#include <colorlib/records/series_record.hpp>

namespace colorlib {
namespace {

using Json = nlohmann::ordered_json;

constexpr int seconds_decimals = 4, colour_decimals = 3, mm_decimals = 3, share_decimals = 4,
              covariance_digits = 6, curve_digits = 9;

Json triple(const Lab& lab) {
  return {rounded(lab.l, colour_decimals), rounded(lab.a, colour_decimals), rounded(lab.b, colour_decimals)};
}

Json matrix_part(const Matrix3& m) {
  Json rows = Json::array();
  for (int r = 0; r < 3; ++r) {
    Json row = Json::array();
    for (int c = 0; c < 3; ++c) row.push_back(rounded_significant(m(r, c), covariance_digits));
    rows.push_back(row);
  }
  return rows;
}

/// The readings of one frame without what is the same in all frames: the region and the budget.
Json frame_readings(const Record& record) {
  Json readings = Json::parse(record_json(record, -1))["readings"];
  for (Json& reading : readings) {
    reading.erase("region");
    reading.erase("budget");
  }
  return readings;
}

Json movements_part(const std::vector<RegionMovement>& movements) {
  Json list = Json::array();
  for (const RegionMovement& moved : movements)
    list.push_back({{"id", moved.id},
                    {"dx_mm", rounded(moved.movement.dx_mm, mm_decimals)},
                    {"dy_mm", rounded(moved.movement.dy_mm, mm_decimals)},
                    {"turn_deg", rounded(moved.movement.turn_deg, mm_decimals)},
                    {"quality", rounded(moved.movement.quality, mm_decimals)}});
  return list;
}

Json areas_part(const std::vector<ChangedArea>& areas) {
  Json list = Json::array();
  for (const ChangedArea& area : areas) {
    Json json;
    json["id"] = area.id;
    json["trusted"] = area.trusted;
    json["noise_de00"] = rounded(area.noise_de00, colour_decimals);
    json["tolerance_de00"] = rounded(area.tolerance_de00, colour_decimals);
    if (area.trusted) {
      json["area_mm2"] = rounded(area.area_mm2, mm_decimals);
      json["radius_mm"] = rounded(area.radius_mm, mm_decimals);
      json["centre_mm"] = {rounded(area.centre.x, mm_decimals), rounded(area.centre.y, mm_decimals)};
      json["ring"] = area.ring;
    }
    list.push_back(std::move(json));
  }
  return list;
}

void write_comparison(const FrameRecord& frame, Json& json) {
  if (!frame.movements.empty()) json["followed"] = movements_part(frame.movements);
  if (!frame.areas.empty()) json["changed"] = areas_part(frame.areas);
}

void read_comparison(JsonFields& fields, const nlohmann::json& json, FrameRecord& frame) {
  if (const auto* moves = fields.list(json, "followed", ""))
    for (const auto& item : *moves) {
      RegionMovement moved;
      moved.followed = true;
      moved.id = fields.text(item, "id", "followed", true);
      moved.movement.dx_mm = fields.number(item, "dx_mm", "followed").value_or(0);
      moved.movement.dy_mm = fields.number(item, "dy_mm", "followed").value_or(0);
      moved.movement.turn_deg = fields.number(item, "turn_deg", "followed").value_or(0);
      moved.movement.quality = fields.number(item, "quality", "followed").value_or(0);
      frame.movements.push_back(std::move(moved));
    }
  if (const auto* areas = fields.list(json, "changed", ""))
    for (const auto& item : *areas) {
      ChangedArea area;
      area.id = fields.text(item, "id", "changed", true);
      area.trusted = fields.truth(item, "trusted", "changed");
      area.noise_de00 = fields.number(item, "noise_de00", "changed").value_or(0);
      area.tolerance_de00 = fields.number(item, "tolerance_de00", "changed").value_or(0);
      area.area_mm2 = fields.number(item, "area_mm2", "changed").value_or(0);
      area.radius_mm = fields.number(item, "radius_mm", "changed").value_or(0);
      if (const auto centre = fields.numbers<2>(item, "centre_mm", "changed"))
        area.centre = {(*centre)[0], (*centre)[1]};
      area.ring = fields.truth(item, "ring", "changed");
      frame.areas.push_back(std::move(area));
    }
}

Json frame_part(const FrameRecord& frame) {
  Json json;
  json["photo"] = frame.photo;
  json["seconds"] = rounded(frame.seconds, seconds_decimals);
  if (frame.dropped) {
    json["dropped"] = error_object(*frame.dropped);
    json["readings"] = Json::array();
    return json;
  }
  if (!frame.record.photo.captured.empty()) json["captured"] = frame.record.photo.captured;
  json["check_de00_mean"] = rounded(frame.record.calibration.check_de00_mean, colour_decimals);
  json["readings"] = frame_readings(frame.record);
  write_comparison(frame, json);
  return json;
}

Json protocol_part(const Protocol& protocol) {
  Json json = Json::object();
  for (const ProtocolValue& value : said_in(protocol))
    json[std::string(value.name)] =
        value.number ? Json(rounded_significant(*value.number, 6)) : Json(value.text);
  for (const auto& [field, value] : protocol.others) json["others"][field] = value;
  return json;
}

/// "onset_s", "onset_expanded_s", its 95 % interval, or its bound.
void write_time(const TimeEstimate& time, const std::string& name, Json& json) {
  const auto seconds = [](const std::optional<double>& value) {
    return value ? rounded(*value, seconds_decimals) : Json();
  };
  json[name + "_s"] = seconds(time.value_s);
  json[name + "_expanded_s"] = seconds(time.expanded_s());
  if (time.low_s || time.high_s) json[name + "_interval_s"] = {seconds(time.low_s), seconds(time.high_s)};
  Json bound;
  if (time.less_than_s) bound["less_than"] = seconds(time.less_than_s);
  if (time.greater_than_s) bound["greater_than"] = seconds(time.greater_than_s);
  if (!bound.is_null()) json[name + "_bound_s"] = bound;
}

Json phases_part(const Kinetics& kinetics) {
  Json phases = Json::array();
  for (const ReactionPhase& phase : kinetics.phases)
    phases.push_back({{"phase", phase_kind_name(phase.kind)},
                      {"seconds", rounded(phase.seconds, seconds_decimals)},
                      {"lab", triple(phase.color.lab)},
                      {"lab_covariance", matrix_part(phase.color.covariance)},
                      {"change_de00", rounded(phase.change_de00, colour_decimals)}});
  return phases;
}

Json kinetics_part(const Kinetics& kinetics) {
  Json json;
  json["state"] = kinetics.state == KineticsState::fitted ? "fitted" : "described";
  json["model"] = kinetic_model_name(kinetics.model);
  write_time(kinetics.onset, "onset", json);
  write_time(kinetics.half_time, "half_time", json);
  write_time(kinetics.to_90, "to_90", json);
  write_time(kinetics.to_95, "to_95", json);
  if (kinetics.model == KineticModel::consecutive || kinetics.model == KineticModel::fading) {
    write_time(kinetics.second_half_time, "second_half_time", json);
    if (kinetics.swapped_middle) json["swapped_middle_lab"] = triple(*kinetics.swapped_middle);
  }
  if (kinetics.model == KineticModel::fading)
    json["faded_share"] = rounded(kinetics.faded_share, share_decimals);
  json["plateau_lab"] = kinetics.plateau ? triple(kinetics.plateau->lab) : Json();
  if (kinetics.plateau) json["plateau_lab_covariance"] = matrix_part(kinetics.plateau->covariance);
  json["change_de00"] = rounded(kinetics.change_de00, colour_decimals);
  json["change_de00_expanded"] = rounded(kinetics.change_de00_expanded, colour_decimals);
  json["threshold_de00"] = rounded(kinetics.threshold_de00, colour_decimals);
  json["control_change_de00"] = rounded(kinetics.control_change_de00, colour_decimals);
  json["repeatability_de00"] = rounded(kinetics.repeatability_de00, colour_decimals);
  json["phases"] = phases_part(kinetics);
  json["scores"] = Json::array();
  for (const ModelScore& score : kinetics.scores)
    json["scores"].push_back({{"model", kinetic_model_name(score.model)},
                              {"parameters", score.parameters},
                              {"aicc", rounded(score.aicc, 2)},
                              {"residual_de00", rounded(score.residual_de00, colour_decimals)}});
  json["path"] = Json::array();
  for (std::size_t i = 0; i < kinetics.path.size() && i < kinetics.seconds.size(); ++i)
    json["path"].push_back({{"seconds", rounded(kinetics.seconds[i], seconds_decimals)},
                            {"lab", triple(kinetics.path[i].lab)},
                            {"lab_covariance", matrix_part(kinetics.path[i].covariance)}});
  if (!kinetics.curve_colors.empty()) {
    Json curve;
    curve["times"] = Json::array();
    for (const double time : kinetics.curve_times)
      curve["times"].push_back(rounded_significant(time, curve_digits));
    curve["lab"] = Json::array();
    for (const Vector3& part : kinetics.curve_colors) curve["lab"].push_back(triple(lab_from(part)));
    json["curve"] = std::move(curve);
  }
  if (!kinetics.bad_frames.empty()) json["bad_frames"] = kinetics.bad_frames;
  if (!kinetics.remarks.empty()) json["remarks"] = kinetics.remarks;
  return json;
}

Json spot_part(const SpotRecord& spot) {
  Json json;
  json["id"] = spot.id;
  json["kind"] = region_kind_name(spot.kind);
  json["controls"] = spot.controls;
  if (spot.refused) {
    json["refused"] = error_object(*spot.refused);
    return json;
  }
  json["kinetics"] = kinetics_part(spot.kinetics);
  json["spreading_mm_s"] = spot.spreading_mm_s ? rounded_significant(*spot.spreading_mm_s, 3) : Json();
  json["verdict"] = spot.verdict;
  json["verdict_text"] = spot.verdict_text;
  json["sign"] = spot.sign;
  json["sentence"] = spot.sentence;
  json["warnings"] = spot.warnings;
  return json;
}

}  // namespace

std::string series_json(const SeriesRecord& series, int indent) {
  const FrameRecord* shown = series.representative();
  Json json = Json::parse(record_json(shown != nullptr ? shown->record : Record(), -1));
  json["zero"] = series_zero_name(series.zero);
  json["times"] = {{"source", times_source_name(series.source)},
                   {"resolution_s", rounded_significant(series.resolution_s, 6)},
                   {"remarks", series.remarks}};
  json["protocol"] = protocol_part(series.protocol);
  json["frames"] = Json::array();
  for (const FrameRecord& frame : series.frames) json["frames"].push_back(frame_part(frame));
  json["spots"] = Json::array();
  for (const SpotRecord& spot : series.spots) json["spots"].push_back(spot_part(spot));
  return json_text(json, indent);
}

std::string frame_json(const FrameRecord& frame) {
  Json json;
  json["photo"] = frame.photo;
  if (frame.dropped) json["dropped"] = error_object(*frame.dropped);
  json["captured"] = frame.record.photo.captured;
  if (!frame.dropped) json["record"] = Json::parse(record_json(frame.record, -1));
  write_comparison(frame, json);
  return json_text(json, -1);
}

Result<FrameRecord> parse_frame(std::string_view text) {
  constexpr std::string_view what = "the journal";
  const auto json = parse_json(text, "line", what, ErrorCode::unreadable_record, RecordLimits::nesting + 2);
  if (!json) return fail(json.error());
  JsonFields fields(std::string(what), "line", ErrorCode::unreadable_record,
                    "Remove the journal and read the series anew.");
  FrameRecord frame;
  if (!json->is_object()) {
    fields.wrong("line", "must be an object in { }");
    return fail(*fields.problem());
  }
  frame.photo = fields.text(*json, "photo", "", true);
  const std::string captured = fields.text(*json, "captured", "");
  frame.dropped = fields.error(*json, "dropped", "");
  if (frame.dropped) {
    frame.record.photo.captured = captured;
  } else if (const auto* record = fields.object(*json, "record", "")) {
    auto parsed = parse_record(record->dump(), frame.photo);
    if (!parsed) return fail(parsed.error());
    frame.record = std::move(*parsed);
  } else {
    fields.missing("", "record");
  }
  read_comparison(fields, *json, frame);
  if (fields.problem()) return fail(*fields.problem());
  return frame;
}

}  // namespace colorlib
