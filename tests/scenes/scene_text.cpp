#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "tests/scenes/scene.hpp"

namespace colorlib::scenes {

Regions true_regions(const Scene& scene) {
  Regions regions;
  regions.frame = RegionFrame::chart_mm;
  for (const SpecimenTruth& truth : scene.specimens) regions.items.push_back(truth.region);
  return regions;
}

std::string reference_text(const Scene& scene, const ChartDefinition& chart) {
  // CGATS.17 as ISO 28178 describes it.
  std::string text = "CGATS.17\n\n";
  text += fmt::format(
      "ORIGINATOR \"simulated instrument\"\nDESCRIPTOR \"reference values of {}, simulated\"\n", chart.name);
  text += "MEASUREMENT_SOURCE \"Illumination=D50 ObserverAngle=2degree WhiteBase=Absolute Filter=No\"\n";
  text +=
      "NUMBER_OF_FIELDS 7\nBEGIN_DATA_FORMAT\nSAMPLE_ID LAB_L LAB_A LAB_B STDEV_L STDEV_A "
      "STDEV_B\nEND_DATA_FORMAT\n";
  text += fmt::format("NUMBER_OF_SETS {}\nBEGIN_DATA\n", scene.reference.patches.size());
  for (const PatchReference& r : scene.reference.patches)
    text += fmt::format("{} {:.3f} {:.3f} {:.3f} {:.2f} {:.2f} {:.2f}\n", r.id, r.lab.l, r.lab.a, r.lab.b,
                        r.standard_uncertainty[0], r.standard_uncertainty[1], r.standard_uncertainty[2]);
  return text + "END_DATA\n";
}

std::string truth_text(const SceneSettings& settings, const Scene& scene, const ChartDefinition& chart) {
  using nlohmann::ordered_json;
  const auto rounded = [](double v, double unit) { return std::round(v / unit) * unit; };
  const auto lab = [&](const Lab& c) {
    return ordered_json{rounded(c.l, 1e-4), rounded(c.a, 1e-4), rounded(c.b, 1e-4)};
  };
  ordered_json root;
  root["format"] = "tintfall-scene-truth";
  root["version"] = 1;
  root["scene"] = settings.name;
  root["chart"] = chart.name;
  root["camera"] = settings.camera.name;
  for (const LightSettings& light : settings.lights) root["lights"].push_back(light.color.name);
  if (!settings.linear) root["tone"] = settings.development.tone.name;
  for (const PointPx& p : scene.corners_px)
    root["corners_px"].push_back({rounded(p.x, 1e-3), rounded(p.y, 1e-3)});
  root["paper"] = lab(scene.true_paper);
  for (const SpecimenTruth& t : scene.specimens) {
    const auto& e = std::get<EllipseShape>(t.region.shape);
    ordered_json item;
    item["id"] = t.id;
    item["kind"] = std::string(region_kind_name(t.kind));
    item["centre"] = {rounded(e.x, 1e-3), rounded(e.y, 1e-3)};
    item["radii"] = {rounded(e.radius_x, 1e-3), rounded(e.radius_y, 1e-3)};
    item["lab"] = lab(t.as_seen);
    item["lab_covered"] = lab(t.covered_mean);
    item["lab_thickest_tenth"] = lab(t.thickest_tenth);
    if (t.masstone) item["masstone"] = lab(*t.masstone);
    item["contrast_ratio"] = rounded(t.contrast_ratio, 1e-4);
    item["coverage_share"] = rounded(t.coverage_share, 1e-4);
    item["foreign_share"] = rounded(t.foreign_share, 1e-4);
    item["pigment"] = t.pigment_family;
    root["specimens"].push_back(item);
  }
  for (std::size_t i = 0; i < scene.true_patches.size(); ++i)
    root["patches"][chart.patches[i].id] = lab(scene.true_patches[i]);
  return root.dump(2) + "\n";
}

}  // namespace colorlib::scenes
