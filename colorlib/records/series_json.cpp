#include <colorlib/records/json_fields_internal.hpp>
#include <colorlib/records/json_layout_internal.hpp>
#include <colorlib/records/record_json.hpp>
#include <colorlib/records/series_record.hpp>

namespace colorlib {
namespace {

using Json = nlohmann::ordered_json;

constexpr int seconds_decimals = 4, colour_decimals = 3, covariance_digits = 6;

Json error_part(const Error& error) {
  return {{"code", code_name(error.code)}, {"message", error.message}, {"advice", error.advice}};
}

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

Json frame_part(const FrameRecord& frame) {
  Json json;
  json["photo"] = frame.photo;
  json["seconds"] = rounded(frame.seconds, seconds_decimals);
  if (frame.dropped) {
    json["dropped"] = error_part(*frame.dropped);
    json["readings"] = Json::array();
    return json;
  }
  if (!frame.record.photo.captured.empty()) json["captured"] = frame.record.photo.captured;
  json["check_de00_mean"] = rounded(frame.record.calibration.check_de00_mean, colour_decimals);
  json["readings"] = frame_readings(frame.record);
  return json;
}

Json protocol_part(const Protocol& protocol) {
  Json json = Json::object();
  for (const ProtocolValue& value : said_in(protocol))
    json[std::string(value.name)] = value.number ? Json(rounded_significant(*value.number, 6)) : Json(value.text);
  for (const auto& [field, value] : protocol.others) json["others"][field] = value;
  return json;
}

Json course_part(const SpotCourse& course) {
  Json json;
  json["id"] = course.id;
  json["kind"] = region_kind_name(course.kind);
  json["controls"] = course.controls;
  json["control_kind"] = course.controls.empty() ? "none" : course.water ? "water" : "untreated";
  json["before_lab"] = triple(course.before);
  json["before_frames"] = course.before_frames;
  json["course"] = Json::array();
  for (const CoursePoint& point : course.points)
    json["course"].push_back({{"seconds", rounded(point.seconds, seconds_decimals)},
                              {"lab_corrected", triple(point.corrected)},
                              {"lab_covariance", matrix_part(point.covariance)},
                              {"change_de00", rounded(point.change_de00, colour_decimals)},
                              {"control_de00", rounded(point.control_de00, colour_decimals)}});
  if (!course.remarks.empty()) json["remarks"] = course.remarks;
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
  for (const SpotCourse& course : series.spots) json["spots"].push_back(course_part(course));
  return json_text(json, indent);
}

std::string frame_json(const FrameRecord& frame) {
  Json json;
  json["photo"] = frame.photo;
  if (frame.dropped) json["dropped"] = error_part(*frame.dropped);
  json["captured"] = frame.record.photo.captured;
  if (!frame.dropped) json["record"] = Json::parse(record_json(frame.record, -1));
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
  if (const auto* dropped = fields.object(*json, "dropped", "")) {
    const std::string code = fields.text(*dropped, "code", "dropped", true);
    frame.dropped = Error{ErrorCode::untrustworthy, fields.text(*dropped, "message", "dropped", true),
                          fields.text(*dropped, "advice", "dropped")};
    for (const ErrorCode known :
         {ErrorCode::unreadable_photo, ErrorCode::unsupported_photo, ErrorCode::chart_not_found})
      if (code == code_name(known)) frame.dropped->code = known;
    frame.record.photo.captured = captured;
  } else if (const auto* record = fields.object(*json, "record", "")) {
    auto parsed = parse_record(record->dump(), frame.photo);
    if (!parsed) return fail(parsed.error());
    frame.record = std::move(*parsed);
  } else {
    fields.missing("", "record");
  }
  if (fields.problem()) return fail(*fields.problem());
  return frame;
}

}  // namespace colorlib
