#include <algorithm>
#include <cmath>
#include <colorlib/records/json_layout_internal.hpp>
#include <colorlib/records/record_json.hpp>

namespace colorlib {
namespace {

using Json = nlohmann::ordered_json;

constexpr int colour_decimals = 3, share_decimals = 4, mm_decimals = 3, px_decimals = 2,
              covariance_digits = 6;

Json triple(const Vector3& v) {
  return {rounded(v[0], colour_decimals), rounded(v[1], colour_decimals), rounded(v[2], colour_decimals)};
}

Json matrix(const Matrix3& m) {
  Json rows = Json::array();
  for (int r = 0; r < 3; ++r) {
    Json row = Json::array();
    for (int c = 0; c < 3; ++c) row.push_back(rounded_significant(m(r, c), covariance_digits));
    rows.push_back(row);
  }
  return rows;
}

Json subject_json(const Subject& subject) {
  Json json;
  for (const SubjectField& field : subject_fields) json[field.name] = subject.*(field.place);
  return json;
}

Json photo_json(const RecordPhoto& photo) {
  Json json;
  json["name"] = photo.name;
  if (!photo.sha256.empty()) json["sha256"] = photo.sha256;
  json["width_px"] = photo.width_px;
  json["height_px"] = photo.height_px;
  if (!photo.captured.empty()) json["captured"] = photo.captured;
  json["encoding"] = photo.encoding;
  json["profile"] = photo.profile;
  json["profile_assumed"] = photo.profile_assumed;
  if (photo.exposure_s) json["exposure_s"] = rounded_significant(*photo.exposure_s, 6);
  if (photo.f_number) json["f_number"] = rounded_significant(*photo.f_number, 6);
  if (photo.iso_speed) json["iso_speed"] = rounded_significant(*photo.iso_speed, 6);
  if (photo.focal_length_mm) json["focal_length_mm"] = rounded_significant(*photo.focal_length_mm, 6);
  if (!photo.remarks.empty()) json["remarks"] = photo.remarks;
  if (photo.check)
    json["check"] = {{"check_de00_mean", rounded(photo.check->de00_mean, colour_decimals)},
                     {"check_de00_p95", rounded(photo.check->de00_p95, colour_decimals)},
                     {"lighting_spread_de00", rounded(photo.check->lighting_spread_de00, colour_decimals)},
                     {"flags", photo.check->flags}};
  return json;
}

Json chart_json(const RecordChart& chart) {
  Json json;
  json["name"] = chart.name;
  json["reference"] = chart.reference_kind;
  if (!chart.reference_source.empty()) json["reference_source"] = chart.reference_source;
  if (!chart.reference_remarks.empty()) json["reference_remarks"] = chart.reference_remarks;
  if (!chart.sheet_label.empty()) json["sheet"] = chart.sheet_label;
  if (!chart.printed.empty()) json["printed"] = chart.printed;
  return json;
}

Json calibration_json(const RecordCalibration& calibration) {
  Json corners = Json::array();
  for (const PointPx& corner : calibration.corners_px)
    corners.push_back({rounded(corner.x, px_decimals), rounded(corner.y, px_decimals)});
  Json dropped = Json::array();
  for (const auto& [id, reason] : calibration.patches_dropped)
    dropped.push_back({{"id", id}, {"reason", reason}});
  return {{"model", calibration.model},
          {"markers_found", calibration.markers_found},
          {"reprojection_px", rounded(calibration.reprojection_px, px_decimals)},
          {"flatness_mm", rounded(calibration.flatness_mm, mm_decimals)},
          {"corners_px", corners},
          {"check_de00_mean", rounded(calibration.check_de00_mean, colour_decimals)},
          {"check_de00_p95", rounded(calibration.check_de00_p95, colour_decimals)},
          {"lighting_spread_de00", rounded(calibration.lighting_spread_de00, colour_decimals)},
          {"patches_used", calibration.patches_used},
          {"paper_used", calibration.paper_used},
          {"patches_dropped", dropped}};
}

Json region_json(const Reading& reading) {
  const int decimals = reading.frame == RegionFrame::chart_mm ? mm_decimals : px_decimals;
  Json json;
  json["frame"] = reading.frame == RegionFrame::chart_mm ? "chart" : "photo";
  if (const auto* ellipse = std::get_if<EllipseShape>(&reading.region.shape)) {
    json["shape"] = "ellipse";
    json["centre"] = {rounded(ellipse->x, decimals), rounded(ellipse->y, decimals)};
    json["radii"] = {rounded(ellipse->radius_x, decimals), rounded(ellipse->radius_y, decimals)};
  } else {
    json["shape"] = "polygon";
    json["points"] = Json::array();
    for (const auto& point : std::get<PolygonShape>(reading.region.shape).points)
      json["points"].push_back({rounded(point[0], decimals), rounded(point[1], decimals)});
  }
  return json;
}

Json flags_json(const std::vector<Flag>& flags) {
  Json codes = Json::array();
  for (const Flag& flag : flags) codes.push_back(flag.code);
  return codes;
}

void write_words(const ColorDescription& words, Json& json) {
  json["munsell"] = words.munsell;
  json["munsell_outside"] = words.outside_renotation;
  json["name"] = words.name.name;
  json["name_confidence"] = rounded(words.name.probability, share_decimals);
  json["name_de00"] = rounded(words.name.de00, colour_decimals);
  json["name_margin_de00"] = rounded(words.margin_de00, colour_decimals);
  json["alternatives"] = Json::array();
  for (const NameShare& other : words.alternatives)
    json["alternatives"].push_back({{"name", other.name},
                                    {"de00", rounded(other.de00, colour_decimals)},
                                    {"confidence", rounded(other.probability, share_decimals)}});
  json["trade_term"] = words.trade_terms.empty() ? std::string() : words.trade_terms.front();
  json["trade_terms"] = words.trade_terms;
  json["deposit_classes"] = words.deposit_classes;
}

/// The keys of a colour, wherever one stands.
template <class Colour>
void write_colour(const Colour& colour, Json& json) {
  json["lab"] = triple(vector_from(colour.lab));
  json["lab_expanded"] = triple(colour.lab_expanded);
  json["lab_covariance"] = matrix(colour.lab_covariance);
  json["de00_expanded"] = rounded(colour.de00_expanded, colour_decimals);
  write_words(colour.words, json);
}

Json scales_json(const std::vector<ScaleAnswer>& scales) {
  Json list = Json::array();
  for (const ScaleAnswer& scale : scales) {
    Json matches = Json::array();
    for (const ScaleMatch& match : scale.matches)
      matches.push_back({{"entry", match.entry},
                         {"de00", rounded(match.de00, colour_decimals)},
                         {"tolerance_de00", rounded(match.tolerance_de00, colour_decimals)},
                         {"within", answer_word(match.within)},
                         {"within_probability", rounded(match.within_probability, share_decimals)},
                         {"nearest_probability", rounded(match.nearest_probability, share_decimals)}});
    list.push_back({{"scale", scale.scale}, {"matches", std::move(matches)}});
  }
  return list;
}

bool holds_null(const Json& json) {
  if (json.is_structured()) {
    for (const Json& item : json)
      if (holds_null(item)) return true;
    return false;
  }
  return json.is_null();
}

Json layer_json(const LayerReading& layer) {
  Json json = Json::object();
  if (!layer.method.empty()) json["method"] = layer.method;
  if (!layer.with.empty()) json["with"] = layer.with;
  if (layer.contrast_ratio) {
    json["contrast_ratio"] = rounded(*layer.contrast_ratio, share_decimals);
    json["contrast_ratio_expanded"] =
        rounded(std::max(layer.contrast_ratio_expanded, std::pow(10.0, -share_decimals)), share_decimals);
  }
  if (layer.scattering_power) json["scattering_power"] = rounded_significant(*layer.scattering_power, 4);
  if (layer.refused) {
    json["refused"] = error_object(*layer.refused);
    return json;
  }
  write_colour(layer, json);
  return json;
}

Json tenth_json(const ThickestTenth& tenth) {
  Json json{{"de00_from_mean", rounded(tenth.de00_from_mean, colour_decimals)}};
  write_colour(tenth, json);
  return json;
}

Json reading_head(const Reading& reading) {
  Json json;
  json["id"] = reading.id;
  json["kind"] = region_kind_name(reading.kind);
  json["region"] = region_json(reading);
  if (holds_null(json["region"])) json.erase("region");
  if (!reading.region.controls.empty()) json["controls"] = reading.region.controls;
  return json;
}

Json refused_json(const Reading& reading, const Error& error) {
  Json json = reading_head(reading);
  json["refused"] = error_object(error);
  json["flags"] = flags_json(reading.flags);
  return json;
}

Json agreement_json(const PhotoAgreement& agreement, const std::vector<RecordPhoto>& photos) {
  Json each = Json::array();
  for (std::size_t i = 0; i < agreement.de00_from_mean.size(); ++i) {
    Json one{{"photo", i < photos.size() ? photos[i].name : std::string()}};
    const double de00 = agreement.de00_from_mean[i];
    const bool read = std::isfinite(de00);
    if (read) one["de00_from_mean"] = rounded(de00, colour_decimals);
    one["used"] = read && std::find(agreement.outliers.begin(), agreement.outliers.end(), i) ==
                              agreement.outliers.end();
    each.push_back(std::move(one));
  }
  return {{"photos", std::move(each)},
          {"repeatability", triple(agreement.repeatability)},
          {"repeatability_de00", rounded(agreement.repeatability_de00, colour_decimals)}};
}

Json reading_json(const Reading& reading, const std::vector<ScaleAnswer>& scales,
                  const std::vector<RecordPhoto>& photos) {
  if (reading.refused) return refused_json(reading, *reading.refused);
  Json json = reading_head(reading);
  json["pixels"] = reading.pixels;
  json["area_mm2"] = rounded(reading.area_mm2, px_decimals);
  if (reading.coverage_share) json["coverage_share"] = rounded(*reading.coverage_share, share_decimals);
  if (reading.foreign_share) json["foreign_share"] = rounded(*reading.foreign_share, share_decimals);
  json["glint_share"] = rounded(reading.glint_share, share_decimals);
  write_colour(reading, json);
  if (reading.tenth) json["thickest_tenth"] = tenth_json(*reading.tenth);
  if (reading.layer) json["masstone"] = layer_json(*reading.layer);
  if (reading.agreement) json["agreement"] = agreement_json(*reading.agreement, photos);
  if (!scales.empty()) json["scales"] = scales_json(scales);
  json["budget"] = Json::array();
  for (const BudgetComponent& part : reading.budget) {
    Vector3 expanded;
    for (int i = 0; i < 3; ++i) expanded[i] = 2 * std::sqrt(std::max(0.0, part.covariance(i, i)));
    json["budget"].push_back({{"name", part.name},
                              {"lab_expanded", triple(expanded)},
                              {"lab_covariance", matrix(part.covariance)}});
  }
  json["flags"] = flags_json(reading.flags);
  if (!holds_null(json)) return json;
  return refused_json(
      reading, {ErrorCode::untrustworthy, "The computation of this colour gave a number that is not finite.",
                "Please report it with the photo; another photo may do better."});
}

}  // namespace

std::string record_json(const Record& record, int indent) {
  Json json;
  json["format"] = "tintfall-record";
  json["version"] = 1;
  json["software"] = record.software;
  if (!record.options_sha256.empty()) json["options_sha256"] = record.options_sha256;
  json["subject"] = subject_json(record.subject);
  json["photo"] = photo_json(record.photo);
  for (const RecordPhoto& photo : record.photos) json["photos"].push_back(photo_json(photo));
  json["chart"] = chart_json(record.chart);
  json["calibration"] = calibration_json(record.calibration);
  json["readings"] = Json::array();
  for (std::size_t i = 0; i < record.readings.size(); ++i)
    json["readings"].push_back(reading_json(
        record.readings[i], i < record.scales.size() ? record.scales[i] : std::vector<ScaleAnswer>(),
        record.photos));
  json["flags"] = flags_json(record.flags);
  return json_text(json, indent);
}

}  // namespace colorlib
