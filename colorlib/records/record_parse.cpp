#include <fmt/format.h>

#include <cmath>
#include <colorlib/base/file_access.hpp>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/records/json_fields_internal.hpp>
#include <colorlib/records/record_json.hpp>
#include <colorlib/specimen/flags.hpp>
#include <limits>
#include <set>

namespace colorlib {
namespace {

using Json = nlohmann::json;

constexpr double not_known = std::numeric_limits<double>::quiet_NaN();

int small_count(JsonFields& fields, const Json& object, const char* key, const std::string& where) {
  const auto value = fields.count(object, key, where);
  if (value && *value > std::numeric_limits<int>::max())
    fields.wrong(JsonFields::path(where, key), "is too large");
  return value && *value <= std::numeric_limits<int>::max() ? static_cast<int>(*value) : 0;
}

/// A number that may be null: then NaN. Absent: 0.
double figure(JsonFields& fields, const Json& object, const char* key, const std::string& where) {
  const auto found = object.find(key);
  if (found != object.end() && found->is_null()) return not_known;
  return fields.number(object, key, where).value_or(0);
}

std::optional<Matrix3> matrix(JsonFields& fields, const Json& object, const char* key,
                              const std::string& where) {
  const Json* rows = fields.list(object, key, where);
  if (rows == nullptr) return std::nullopt;
  const std::string place = JsonFields::path(where, key);
  if (rows->size() != 3) {
    fields.wrong(place, "must be 3 lists of 3 numbers");
    return std::nullopt;
  }
  Matrix3 result;
  for (int r = 0; r < 3; ++r) {
    const auto row = fields.numbers_of<3>((*rows)[static_cast<std::size_t>(r)], place);
    if (!row) return std::nullopt;
    for (int c = 0; c < 3; ++c) result(r, c) = (*row)[static_cast<std::size_t>(c)];
  }
  return result;
}

/// Symmetric to the rounding of the file, no negative variance, no correlation beyond 1.
bool is_covariance(const Matrix3& m) {
  constexpr double rounding = 1e-4;  // relative; six digits are written
  for (int i = 0; i < 3; ++i) {
    if (m(i, i) < 0) return false;
    for (int j = 0; j < i; ++j) {
      const double scale = std::sqrt(m(i, i) * m(j, j));
      if (std::abs(m(i, j) - m(j, i)) > rounding * scale + 1e-12) return false;
      if (std::abs(m(i, j)) > scale * (1 + rounding) + 1e-12) return false;
    }
  }
  return true;
}

Subject subject_from(JsonFields& fields, const Json& json) {
  Subject subject;
  if (const Json* part = fields.object(json, "subject", ""))
    for (const SubjectField& field : subject_fields)
      subject.*(field.place) = fields.text(*part, field.name, "subject");
  return subject;
}

RecordPhoto photo_from(JsonFields& fields, const Json* part, const std::string& where) {
  RecordPhoto photo;
  if (part == nullptr) return photo;
  photo.name = fields.text(*part, "name", where);
  photo.sha256 = fields.text(*part, "sha256", where);
  photo.width_px = small_count(fields, *part, "width_px", where);
  photo.height_px = small_count(fields, *part, "height_px", where);
  photo.captured = fields.text(*part, "captured", where);
  photo.encoding = fields.text(*part, "encoding", where);
  photo.profile = fields.text(*part, "profile", where);
  photo.profile_assumed = fields.truth(*part, "profile_assumed", where);
  photo.exposure_s = fields.number(*part, "exposure_s", where);
  photo.f_number = fields.number(*part, "f_number", where);
  photo.iso_speed = fields.number(*part, "iso_speed", where);
  photo.focal_length_mm = fields.number(*part, "focal_length_mm", where);
  photo.remarks = fields.texts(*part, "remarks", where);
  if (const Json* check = part->contains("check") ? fields.object(*part, "check", where) : nullptr) {
    const std::string place = JsonFields::path(where, "check");
    photo.check = RecordCheck{
        figure(fields, *check, "check_de00_mean", place), figure(fields, *check, "check_de00_p95", place),
        figure(fields, *check, "lighting_spread_de00", place), fields.texts(*check, "flags", place)};
  }
  return photo;
}

std::vector<RecordPhoto> photos_from(JsonFields& fields, const Json& json) {
  std::vector<RecordPhoto> photos;
  const Json* list = fields.list(json, "photos", "");
  if (list != nullptr && list->size() > RecordLimits::photos)
    fields.wrong("photos",
                 fmt::format("holds {} entries, at most {} are taken", list->size(), RecordLimits::photos));
  for (std::size_t i = 0; list != nullptr && i < list->size() && !fields.problem(); ++i) {
    const std::string where = fmt::format("photos[{}]", i);
    if (!(*list)[i].is_object()) fields.wrong(where, "must be an object in { }");
    if (!fields.problem()) photos.push_back(photo_from(fields, &(*list)[i], where));
  }
  return photos;
}

RecordChart chart_from(JsonFields& fields, const Json& json) {
  RecordChart chart;
  if (const Json* part = fields.object(json, "chart", "")) {
    chart.name = fields.text(*part, "name", "chart");
    chart.reference_kind = fields.text(*part, "reference", "chart");
    chart.reference_source = fields.text(*part, "reference_source", "chart");
    chart.reference_remarks = fields.texts(*part, "reference_remarks", "chart");
    chart.sheet_label = fields.text(*part, "sheet", "chart");
    chart.printed = fields.text(*part, "printed", "chart");
  }
  return chart;
}

RecordCalibration calibration_from(JsonFields& fields, const Json& json) {
  RecordCalibration result;
  const Json* part = fields.object(json, "calibration", "");
  if (part == nullptr) return result;
  const std::string where = "calibration";
  result.model = fields.text(*part, "model", where);
  result.markers_found = small_count(fields, *part, "markers_found", where);
  result.reprojection_px = figure(fields, *part, "reprojection_px", where);
  result.flatness_mm = figure(fields, *part, "flatness_mm", where);
  result.check_de00_mean = figure(fields, *part, "check_de00_mean", where);
  result.check_de00_p95 = figure(fields, *part, "check_de00_p95", where);
  result.lighting_spread_de00 = figure(fields, *part, "lighting_spread_de00", where);
  result.patches_used = small_count(fields, *part, "patches_used", where);
  result.paper_used = small_count(fields, *part, "paper_used", where);
  if (const Json* corners = fields.list(*part, "corners_px", where)) {
    if (corners->size() != 4) fields.wrong("calibration.corners_px", "must be 4 points");
    for (std::size_t i = 0; i < 4 && i < corners->size(); ++i)
      if (const auto point = fields.numbers_of<2>((*corners)[i], "calibration.corners_px"))
        result.corners_px[i] = {(*point)[0], (*point)[1]};
  }
  if (const Json* dropped = fields.list(*part, "patches_dropped", where)) {
    for (const Json& item : *dropped)
      result.patches_dropped.emplace_back(fields.text(item, "id", "calibration.patches_dropped", true),
                                          fields.text(item, "reason", "calibration.patches_dropped"));
  }
  return result;
}

void read_region(JsonFields& fields, const Json& json, const std::string& where, Reading& reading) {
  const Json* part = fields.object(json, "region", where);
  if (part == nullptr) return;
  const std::string place = where + ".region";
  const std::string frame = fields.text(*part, "frame", place, true),
                    shape = fields.text(*part, "shape", place, true);
  if (frame != "chart" && frame != "photo") fields.wrong(place + ".frame", "must be \"chart\" or \"photo\"");
  reading.frame = frame == "photo" ? RegionFrame::photo_px : RegionFrame::chart_mm;
  if (shape == "ellipse") {
    const auto centre = fields.numbers<2>(*part, "centre", place),
               radii = fields.numbers<2>(*part, "radii", place);
    if (!centre) fields.missing(place, "centre");
    if (!radii) fields.missing(place, "radii");
    if (centre && radii)
      reading.region.shape = EllipseShape{(*centre)[0], (*centre)[1], (*radii)[0], (*radii)[1]};
  } else if (shape == "polygon") {
    PolygonShape polygon;
    const Json* points = fields.list(*part, "points", place);
    if (points == nullptr) return fields.missing(place, "points");
    for (const Json& point : *points)
      if (const auto pair = fields.numbers_of<2>(point, place + ".points")) polygon.points.push_back(*pair);
    reading.region.shape = std::move(polygon);
  } else {
    fields.wrong(place + ".shape", "must be \"ellipse\" or \"polygon\"");
  }
}

void read_words(JsonFields& fields, const Json& json, const std::string& where, ColorDescription& words) {
  words.munsell = fields.text(json, "munsell", where);
  words.outside_renotation = fields.truth(json, "munsell_outside", where);
  words.name.name = fields.text(json, "name", where);
  words.name.probability = fields.number(json, "name_confidence", where).value_or(0);
  words.name.de00 = fields.number(json, "name_de00", where).value_or(0);
  words.margin_de00 = fields.number(json, "name_margin_de00", where).value_or(0);
  if (const Json* others = fields.list(json, "alternatives", where)) {
    const std::string place = where + ".alternatives";
    for (const Json& other : *others)
      words.alternatives.push_back({fields.text(other, "name", place, true),
                                    fields.number(other, "confidence", place).value_or(0),
                                    fields.number(other, "de00", place).value_or(0)});
  }
  words.trade_terms = fields.texts(json, "trade_terms", where);
  if (const auto term = fields.text(json, "trade_term", where); words.trade_terms.empty() && !term.empty())
    words.trade_terms.push_back(term);
  words.deposit_classes = fields.texts(json, "deposit_classes", where);
}

std::vector<ScaleAnswer> scales_from(JsonFields& fields, const Json& json, const std::string& where) {
  std::vector<ScaleAnswer> answers;
  const Json* list = fields.list(json, "scales", where);
  const std::string place = where + ".scales";
  for (std::size_t i = 0; list != nullptr && i < list->size(); ++i) {
    ScaleAnswer answer;
    answer.scale = fields.text((*list)[i], "scale", place, true);
    const Json* matches = fields.list((*list)[i], "matches", place);
    for (std::size_t k = 0; matches != nullptr && k < matches->size(); ++k) {
      const Json& item = (*matches)[k];
      ScaleMatch match;
      match.entry = fields.text(item, "entry", place, true);
      match.de00 = fields.number(item, "de00", place).value_or(0);
      match.tolerance_de00 = fields.number(item, "tolerance_de00", place).value_or(0);
      match.within_probability = fields.number(item, "within_probability", place).value_or(0);
      match.nearest_probability = fields.number(item, "nearest_probability", place).value_or(0);
      const std::string within = fields.text(item, "within", place);
      for (const Answer word : {Answer::yes, Answer::no})
        if (within == answer_word(word)) match.within = word;
      answer.matches.push_back(std::move(match));
    }
    answers.push_back(std::move(answer));
  }
  return answers;
}

/// The four keys of a colour, wherever one stands.
template <class Colour>
void read_colour(JsonFields& fields, const Json& json, const std::string& where, Colour& colour) {
  const auto lab = fields.numbers<3>(json, "lab", where);
  if (!lab) return fields.missing(where, "lab");
  colour.lab = lab_from(*lab);
  const auto expanded = fields.numbers<3>(json, "lab_expanded", where);
  const auto covariance = matrix(fields, json, "lab_covariance", where);
  if (!expanded && !covariance) return fields.missing(where, "lab_covariance");
  if (covariance) {
    if (!is_covariance(*covariance))
      fields.wrong(where + ".lab_covariance", "is not the covariance of anything");
    colour.lab_covariance = *covariance;
  }
  for (std::size_t i = 0; i < 3; ++i) {
    const int k = static_cast<int>(i);
    if (expanded && (*expanded)[i] < 0) fields.wrong(where + ".lab_expanded", "may not be negative");
    colour.lab_expanded[i] =
        expanded ? (*expanded)[i] : 2 * std::sqrt(std::max(0.0, colour.lab_covariance(k, k)));
    if (!covariance) colour.lab_covariance(k, k) = colour.lab_expanded[i] * colour.lab_expanded[i] / 4;
  }
  colour.de00_expanded = fields.number(json, "de00_expanded", where).value_or(0);
}

std::optional<LayerReading> layer_from(JsonFields& fields, const Json& json, const std::string& reading) {
  const Json* part = fields.object(json, "masstone", reading);
  if (part == nullptr) return std::nullopt;
  const std::string where = reading + ".masstone";
  LayerReading layer;
  layer.method = fields.text(*part, "method", where);
  layer.with = fields.text(*part, "with", where);
  layer.contrast_ratio = fields.number(*part, "contrast_ratio", where);
  layer.contrast_ratio_expanded = fields.number(*part, "contrast_ratio_expanded", where).value_or(0);
  layer.scattering_power = fields.number(*part, "scattering_power", where);
  layer.refused = fields.error(*part, "refused", where);
  if (layer.refused) return layer;
  read_colour(fields, *part, where, layer);
  read_words(fields, *part, where, layer.words);
  return layer;
}

std::optional<ThickestTenth> tenth_from(JsonFields& fields, const Json& json, const std::string& reading) {
  const Json* part = fields.object(json, "thickest_tenth", reading);
  if (part == nullptr) return std::nullopt;
  const std::string where = reading + ".thickest_tenth";
  ThickestTenth tenth;
  read_colour(fields, *part, where, tenth);
  tenth.de00_from_mean = fields.number(*part, "de00_from_mean", where).value_or(0);
  read_words(fields, *part, where, tenth.words);
  return tenth;
}

void read_budget(JsonFields& fields, const Json& json, const std::string& where, Reading& reading) {
  const Json* budget = fields.list(json, "budget", where);
  if (budget == nullptr) return;
  const std::string place = where + ".budget";
  for (const Json& item : *budget) {
    BudgetComponent part;
    part.name = fields.text(item, "name", place, true);
    if (const auto covariance = matrix(fields, item, "lab_covariance", place)) {
      part.covariance = *covariance;
    } else if (const auto expanded = fields.numbers<3>(item, "lab_expanded", place)) {
      for (int i = 0; i < 3; ++i)
        part.covariance(i, i) = std::pow((*expanded)[static_cast<std::size_t>(i)] / 2, 2);
    }
    reading.budget.push_back(std::move(part));
  }
}

std::optional<PhotoAgreement> agreement_from(JsonFields& fields, const Json& json,
                                             const std::string& reading) {
  const Json* part = fields.object(json, "agreement", reading);
  if (part == nullptr) return std::nullopt;
  const std::string where = reading + ".agreement";
  PhotoAgreement agreement;
  agreement.repeatability = fields.numbers<3>(*part, "repeatability", where).value_or(Vector3{});
  agreement.repeatability_de00 = fields.number(*part, "repeatability_de00", where).value_or(0);
  const Json* photos = fields.list(*part, "photos", where);
  const std::string place = where + ".photos";
  for (std::size_t i = 0; photos != nullptr && i < photos->size(); ++i) {
    const Json& one = (*photos)[i];
    if (!one.is_object()) {
      fields.wrong(place, "must hold objects in { }");
      break;
    }
    const auto de00 = fields.number(one, "de00_from_mean", place);
    agreement.de00_from_mean.push_back(de00.value_or(not_known));
    agreement.photos += de00.has_value();
    if (de00 && !fields.truth(one, "used", place)) agreement.outliers.push_back(i);
  }
  return agreement;
}

std::vector<Flag> flags_from(JsonFields& fields, const Json& json, const std::string& where) {
  std::vector<Flag> flags;
  for (auto& code : fields.texts(json, "flags", where)) flags.push_back(flag_of_code(std::move(code)));
  return flags;
}

Reading reading_from(JsonFields& fields, const Json& json, const std::string& where) {
  Reading reading;
  if (!json.is_object()) {
    fields.wrong(where, "must be an object in { }");
    return reading;
  }
  reading.id = fields.text(json, "id", where, true);
  if (const auto kind = region_kind_from(fields.text(json, "kind", where, true)))
    reading.kind = *kind;
  else
    fields.wrong(where + ".kind", "is no kind of region");
  reading.region.id = reading.id;
  reading.region.kind = reading.kind;
  reading.region.controls = fields.texts(json, "controls", where);
  read_region(fields, json, where, reading);
  reading.flags = flags_from(fields, json, where);
  reading.refused = fields.error(json, "refused", where);
  if (reading.refused) return reading;
  reading.pixels = static_cast<std::size_t>(fields.count(json, "pixels", where).value_or(0));
  reading.area_mm2 = fields.number(json, "area_mm2", where).value_or(0);
  reading.coverage_share = fields.number(json, "coverage_share", where);
  reading.foreign_share = fields.number(json, "foreign_share", where);
  reading.glint_share = fields.number(json, "glint_share", where).value_or(0);
  read_colour(fields, json, where, reading);
  read_words(fields, json, where, reading.words);
  reading.tenth = tenth_from(fields, json, where);
  reading.layer = layer_from(fields, json, where);
  reading.agreement = agreement_from(fields, json, where);
  read_budget(fields, json, where, reading);
  return reading;
}

}  // namespace

Result<Record> parse_record(std::string_view text, std::string_view name) {
  auto json = parse_json(text, name, "the record", ErrorCode::unreadable_record, RecordLimits::nesting);
  if (!json) return fail(json.error());
  JsonFields fields(
      "the record", std::string(name), ErrorCode::unreadable_record,
      "Write the record again with 'tintfall read', or correct that place; docs/reference/record_format.md "
      "says what stands where.");
  Record record;
  if (!json->is_object() || fields.text(*json, "format", "") != "tintfall-record") {
    fields.wrong("format", "must be \"tintfall-record\"");
    return fail(*fields.problem());
  }
  if (fields.count(*json, "version", "") != 1) {
    fields.wrong("version", "must be 1, the only version known here");
    return fail(*fields.problem());
  }
  record.software = fields.text(*json, "software", "");
  record.options_sha256 = fields.text(*json, "options_sha256", "");
  record.subject = subject_from(fields, *json);
  record.photo = photo_from(fields, fields.object(*json, "photo", ""), "photo");
  record.photos = photos_from(fields, *json);
  record.chart = chart_from(fields, *json);
  record.calibration = calibration_from(fields, *json);
  record.flags = flags_from(fields, *json, "");
  const Json* readings = fields.list(*json, "readings", "");
  if (readings == nullptr) fields.missing("", "readings");
  if (readings != nullptr && readings->size() > RecordLimits::readings)
    fields.wrong("readings", fmt::format("holds {} entries, at most {} are taken", readings->size(),
                                         RecordLimits::readings));
  std::set<std::string> seen;
  for (std::size_t i = 0; readings != nullptr && i < readings->size() && !fields.problem(); ++i) {
    record.readings.push_back(reading_from(fields, (*readings)[i], fmt::format("readings[{}]", i)));
    record.scales.push_back(scales_from(fields, (*readings)[i], fmt::format("readings[{}]", i)));
    if (!seen.insert(record.readings.back().id).second)
      fields.wrong(fmt::format("readings[{}].id", i),
                   fmt::format("'{}' stands twice", quotable(record.readings.back().id)));
  }
  if (fields.problem()) return fail(*fields.problem());
  return record;
}

Result<Record> read_record(const std::filesystem::path& path) {
  const auto bytes = read_file(path, "the record", ErrorCode::unreadable_record, RecordLimits::bytes);
  if (!bytes) return fail(bytes.error());
  return parse_record(*bytes, path.filename().string());
}

Record as_written(const Record& record) {
  auto written = parse_record(record_json(record, -1), record.photo.name);
  return written ? std::move(*written) : record;
}

}  // namespace colorlib
