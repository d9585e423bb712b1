#include <cmath>
#include <colorlib/comparison/comparison_json.hpp>
#include <colorlib/naming/tolerance.hpp>
#include <colorlib/records/json_layout.hpp>
#include <nlohmann/json.hpp>

namespace colorlib {
namespace {

using Json = nlohmann::ordered_json;

constexpr int decimals = 3, share_decimals = 4;
constexpr const char* coordinates[] = {"L", "a", "b"};

Json figure(double value) { return rounded(value, decimals); }
Json figure(const std::optional<double>& value) { return value ? rounded(*value, decimals) : Json(nullptr); }
Json triple(const Vector3& v) { return {figure(v[0]), figure(v[1]), figure(v[2])}; }
Json triple(const Lab& lab) { return triple(vector_from(lab)); }

Json expanded(const Matrix3& covariance) {
  Vector3 result{};
  for (int i = 0; i < 3; ++i)
    result[static_cast<std::size_t>(i)] = 2 * std::sqrt(std::max(0.0, covariance(i, i)));
  return triple(result);
}

void add_agreement(const Agreement& agreement, bool with_verdict, Json& json) {
  json["de00_expanded"] = figure(agreement.de00_expanded);
  json["en"] = figure(agreement.en);
  json["en_lab"] = triple(agreement.en_lab);
  json["zeta"] = triple(agreement.zeta);
  json["within_probability"] = rounded(agreement.within_probability, share_decimals);
  json["verdict"] = with_verdict ? Json(verdict_word(agreement.verdict)) : Json(nullptr);
}

Json rule_json(const ComparisonOptions& options) {
  const auto& tolerance = options.rule.tolerance_de00;
  return {{"tolerance_de00", figure(tolerance)},
          {"same_within_de00", figure(tolerance.value_or(default_tolerance_de00))},
          {"compared", options.unit == ComparedUnit::reading ? "readings" : "collector-means"},
          {"group_risk", rounded(options.group_risk, share_decimals)}};
}

Json readings_json(const Comparison& comparison) {
  Json list = Json::array();
  for (const ComparedReading& reading : comparison.table.readings)
    list.push_back({{"reading", reading.label},
                    {"item", reading.item},
                    {"collector", reading.collector},
                    {"record", reading.record},
                    {"id", reading.id},
                    {"kind", region_kind_name(reading.kind)},
                    {"lab", triple(reading.color.lab)},
                    {"lab_expanded", expanded(reading.color.covariance)},
                    {"flags", reading.flags}});
  return list;
}

Json pairs_json(const Comparison& comparison) {
  Json list = Json::array();
  for (const ThingPair& pair : comparison.pairs) {
    Json json{{"a", comparison.things[pair.a].label},
              {"b", comparison.things[pair.b].label},
              {"de00", figure(pair.agreement.de00)}};
    add_agreement(pair.agreement, true, json);
    list.push_back(std::move(json));
  }
  return list;
}

Json consensus_json(const Comparison& comparison, const ItemConsensus& item) {
  const auto& table = comparison.table;
  Json json{{"item", table.items[item.item]},
            {"method", item.reference ? "reference" : "robust-mean-lab"},
            {"reference", item.reference ? Json(*item.reference) : Json(nullptr)},
            {"lab", triple(item.assigned.lab)},
            {"lab_expanded", expanded(item.assigned.covariance)},
            {"judged", item.judged}};
  json["robust_mean"] = {{"lab", triple(item.robust.mean)},
                         {"standard_deviation", figure(item.robust.coordinate_deviation)},
                         {"lab_expanded", expanded(item.robust.covariance)}};
  json["algorithm_a"] = Json::array();
  for (std::size_t k = 0; k < 3; ++k)
    json["algorithm_a"].push_back(
        {{"coordinate", coordinates[k]},
         {"mean", figure(item.by_coordinate[k].mean)},
         {"standard_deviation", figure(item.by_coordinate[k].standard_deviation)},
         {"standard_uncertainty", figure(item.by_coordinate[k].standard_uncertainty)}});
  json["collectors"] = Json::array();
  for (const ParticipantDistance& distance : item.participants) {
    const auto& who = table.participants[distance.participant];
    const RoundCell* cell = table.cell(item.item, distance.participant);
    Json entry{{"collector", who.name},
               {"readings", cell->readings.size()},
               {"lab", triple(cell->mean.lab)},
               {"de00", figure(distance.de00)}};
    if (distance.agreement) add_agreement(*distance.agreement, item.judged, entry);
    json["collectors"].push_back(std::move(entry));
  }
  json["readings"] = Json::array();
  for (std::size_t i = 0; i < item.readings.size(); ++i)
    json["readings"].push_back(
        {{"reading", table.readings[item.readings[i]].label}, {"de00", figure(item.reading_de00[i])}});
  return json;
}

Json precision_json(const Comparison& comparison, const ItemPrecision& item) {
  Json json{{"item", comparison.table.items[item.item]}, {"coordinates", Json::array()}};
  for (std::size_t k = 0; k < 3; ++k) {
    const Precision& precision = item.of_lab[k];
    Json entry{{"coordinate", coordinates[k]},
               {"general_mean", figure(precision.general_mean)},
               {"repeatability_sd", figure(precision.repeatability_sd)},
               {"between_sd", figure(precision.between_sd)},
               {"reproducibility_sd", figure(precision.reproducibility_sd)},
               {"repeatability_limit", figure(precision.repeatability_limit)},
               {"reproducibility_limit", figure(precision.reproducibility_limit)},
               {"h_critical_5", figure(precision.h_critical_5)},
               {"h_critical_1", figure(precision.h_critical_1)},
               {"cochran", figure(precision.cochran)},
               {"cochran_critical_5", figure(precision.cochran_critical_5)},
               {"cochran_critical_1", figure(precision.cochran_critical_1)},
               {"collectors", Json::array()}};
    for (std::size_t j = 0; j < precision.cells.size(); ++j) {
      const PrecisionCell& cell = precision.cells[j];
      entry["collectors"].push_back({{"collector", comparison.table.participants[item.participants[j]].name},
                                     {"readings", cell.readings},
                                     {"mean", figure(cell.mean)},
                                     {"standard_deviation", figure(cell.standard_deviation)},
                                     {"mandel_h", figure(cell.mandel_h)},
                                     {"mandel_k", figure(cell.mandel_k)},
                                     {"k_critical_5", figure(cell.k_critical_5)},
                                     {"k_critical_1", figure(cell.k_critical_1)}});
    }
    json["coordinates"].push_back(std::move(entry));
  }
  return json;
}

Json bias_json(const Comparison& comparison, std::size_t i) {
  const CollectorBias& bias = comparison.biases[i];
  Json json{{"collector", comparison.table.participants[bias.participant].name},
            {"against", bias_against_word(bias.against)},
            {"basis", bias_basis_word(bias.basis)},
            {"items", bias.items},
            {"readings", bias.readings},
            {"lab", triple(bias.bias)},
            {"lab_half_width", bias.basis == BiasBasis::too_few ? Json(nullptr) : triple(bias.half_width)},
            {"de00", figure(bias.de00)},
            {"words", bias.words},
            {"records_differ_in", comparison.differences[i]}};
  return json;
}

Json ellipsoid_json(const Comparison& comparison, const ItemEllipsoid& item) {
  const LabEllipsoid& ellipsoid = item.ellipsoid;
  Json covariance = Json::array(), axes = Json::array();
  for (int r = 0; r < 3; ++r)
    covariance.push_back({rounded_significant(ellipsoid.covariance(r, 0), 6),
                          rounded_significant(ellipsoid.covariance(r, 1), 6),
                          rounded_significant(ellipsoid.covariance(r, 2), 6)});
  for (const EllipsoidAxis& axis : ellipsoid.axes)
    axes.push_back(
        {{"variance", rounded_significant(axis.variance, 6)},
         {"direction",
          {rounded(axis.direction[0], 5), rounded(axis.direction[1], 5), rounded(axis.direction[2], 5)}}});
  return {{"item", comparison.table.items[item.item]},
          {"of", item.of_collectors ? "collector-means" : "readings"},
          {"count", ellipsoid.readings},
          {"worth_printing", ellipsoid.readings >= ellipsoid_worth_printing},
          {"lab", triple(ellipsoid.mean)},
          {"covariance", std::move(covariance)},
          {"axes", std::move(axes)},
          {"prediction_limit", figure(ellipsoid.prediction_limit)},
          {"confidence_limit", figure(ellipsoid.confidence_limit)},
          {"prediction_semi_axes", triple(ellipsoid.prediction_semi_axes)},
          {"confidence_semi_axes", triple(ellipsoid.confidence_semi_axes)}};
}

Json groups_json(const Comparison& comparison) {
  Json list = Json::array();
  for (const ColorGroup& group : comparison.groups) {
    Json members = Json::array();
    for (const std::size_t member : group.members) members.push_back(comparison.things[member].label);
    list.push_back({{"members", std::move(members)},
                    {"lab", triple(group.mean)},
                    {"widest_de00", figure(group.widest_de00)},
                    {"chained", group.chained}});
  }
  return list;
}

}  // namespace

std::string_view bias_against_word(BiasAgainst against) {
  return against == BiasAgainst::reference ? "reference" : "others";
}

std::string_view bias_basis_word(BiasBasis basis) {
  switch (basis) {
    case BiasBasis::items:
      return "items";
    case BiasBasis::repeats:
      return "repeats";
    case BiasBasis::too_few:
      break;
  }
  return "too-few";
}

std::string comparison_json(const Comparison& comparison, const ComparisonTitle& title, int indent) {
  Json json{{"format", "tintfall-comparison"}, {"version", 1}, {"software", "tintfall " TINTFALL_VERSION}};
  if (!title.title.empty()) json["title"] = title.title;
  if (!title.remark.empty()) json["remark"] = title.remark;
  json["rule"] = rule_json(comparison.options);
  json["readings"] = readings_json(comparison);
  json["pairs"] = pairs_json(comparison);
  for (const char* key : {"consensus", "precision", "bias", "ellipsoids"}) json[key] = Json::array();
  for (const auto& item : comparison.consensus) json["consensus"].push_back(consensus_json(comparison, item));
  for (const auto& item : comparison.precision) json["precision"].push_back(precision_json(comparison, item));
  for (std::size_t i = 0; i < comparison.biases.size(); ++i) json["bias"].push_back(bias_json(comparison, i));
  for (const auto& item : comparison.ellipsoids)
    json["ellipsoids"].push_back(ellipsoid_json(comparison, item));
  json["groups"] = groups_json(comparison);
  json["remarks"] = comparison.remarks;
  json["left_out"] = Json::array();
  for (const LeftOut& left : comparison.left_out)
    json["left_out"].push_back({{"what", left.what}, {"why", left.why}});
  return json_text(json, indent);
}

}  // namespace colorlib
