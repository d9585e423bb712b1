#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/comparison/compared_reading.hpp>
#include <colorlib/naming/color_distribution.hpp>
#include <map>

namespace colorlib {
namespace {

bool of_a_specimen(RegionKind kind) {
  return kind == RegionKind::deposit || kind == RegionKind::spot || kind == RegionKind::bruise ||
         kind == RegionKind::other;
}

std::vector<Trait> traits_of(const Record& record) {
  std::string photo;
  if (record.photo.encoding == "linear-sensor") photo = "raw";
  if (record.photo.encoding == "display-referred") photo = "developed by the camera or a program";
  std::vector<Trait> traits;
  for (Trait trait : {Trait{"photo", photo},
                      {"chart", record.chart.name},
                      {"sheet", record.chart.sheet_label},
                      {"reference values", record.chart.reference_kind},
                      {"tissue", record.subject.tissue},
                      {"state", record.subject.state},
                      {"surface", record.subject.surface},
                      {"light", record.subject.light}})
    if (!trait.value.empty()) traits.push_back(std::move(trait));
  return traits;
}

bool is_finite(const UncertainColor& color) {
  const Vector3 lab = vector_from(color.lab);
  const auto finite = [](double v) { return std::isfinite(v); };
  return std::all_of(lab.begin(), lab.end(), finite) &&
         std::all_of(color.covariance.m.begin(), color.covariance.m.end(), finite);
}

}  // namespace

ChosenReadings compared_readings_from(const Record& record, const std::string& file,
                                      const ReadingSelection& selection) {
  ChosenReadings chosen;
  for (const Reading& reading : record.readings) {
    if (selection.kind ? reading.kind != *selection.kind
                       : selection.id.empty() && !of_a_specimen(reading.kind))
      continue;
    if (!selection.id.empty() && reading.id != selection.id) continue;
    const std::string label = fmt::format("{}#{}", file, reading.id);
    if (reading.refused) {
      chosen.left_out.push_back({label, fmt::format("It was refused: {}", reading.refused->message)});
      continue;
    }
    const UncertainColor color{reading.lab, reading.lab_covariance};
    if (!is_finite(color)) {
      chosen.left_out.push_back({label, "It holds a number that is none."});
      continue;
    }
    if (is_exact(reading.lab_covariance)) {
      chosen.left_out.push_back(
          {label, "It states no uncertainty, so nothing can be said about its difference from others."});
      continue;
    }
    ComparedReading added;
    added.label = label;
    added.item = std::string(trimmed(record.subject.item));
    added.collector = std::string(trimmed(record.subject.collector));
    added.record = file;
    added.id = reading.id;
    added.kind = reading.kind;
    added.color = color;
    added.traits = traits_of(record);
    for (const auto& flags : {reading.flags, record.flags})
      for (const Flag& flag : flags) added.flags.push_back(flag.code);
    added.check_de00_mean = record.calibration.check_de00_mean;
    added.lighting_spread_de00 = record.calibration.lighting_spread_de00;
    added.photo = fmt::format("{} {}", record.photo.name, record.photo.captured);
    chosen.readings.push_back(std::move(added));
  }
  if (chosen.readings.empty() && chosen.left_out.empty())
    chosen.left_out.push_back({file, record.readings.empty()
                                         ? "It holds no reading."
                                         : "It holds no reading of the kind that is compared."});
  return chosen;
}

void leave_out_copies(ChosenReadings& chosen) {
  std::map<std::string, std::string> first;
  std::vector<ComparedReading> kept;
  for (ComparedReading& reading : chosen.readings) {
    const Lab& lab = reading.color.lab;
    std::string key = fmt::format("{}|{}|{}|{}|{}", reading.photo, reading.id, lab.l, lab.a, lab.b);
    for (const double c : reading.color.covariance.m) key += fmt::format("|{}", c);
    const auto [known, is_new] = first.emplace(key, reading.label);
    if (is_new)
      kept.push_back(std::move(reading));
    else
      chosen.left_out.push_back(
          {reading.label,
           fmt::format("It is the reading of {} once more (same photo, same numbers).", known->second)});
  }
  chosen.readings = std::move(kept);
}

}  // namespace colorlib
