#include <algorithm>
#include <array>
#include <cmath>
#include <colorlib/calibration/specular_fit_internal.hpp>
#include <colorlib/calibration/specular_pixels_internal.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>

namespace colorlib {
namespace {

using Eigen::Vector3d;
using namespace specular;

constexpr std::size_t least_pixels = 20;
constexpr double usual_share = 0.01;  // of a region's pixels: shares found are told from it

/// The 16 pixels round the eight, each by a step and another from there (places in a `Neighbourhood`).
// clang-format off
constexpr std::array<std::array<std::size_t, 2>, 16> farther_steps{{
    {0, 0}, {0, 1}, {1, 1}, {2, 1}, {2, 2}, {0, 3}, {2, 5}, {3, 3},
    {5, 5}, {6, 3}, {8, 5}, {6, 6}, {6, 7}, {7, 7}, {8, 7}, {8, 8}}};
// clang-format on

std::vector<EvidenceValues> evidence_of(const FirstLook& look, const Region& region, const Body& body) {
  const auto& [estimator, fits, found] = look;
  const std::size_t count = fits.size();
  const Lab plain = lab_of_relative(body.middle);
  const auto gentle = [](double value) { return static_cast<float>(std::asinh(value)); };
  const auto log_de00 = [&](double missing, double added) {
    return static_cast<float>(
        std::log(std::max(difference_ciede2000(plain, lab_of_relative(mixed(body, missing, added))), 1e-6)));
  };
  std::vector<float> effect(count), gap(count);
  for (std::size_t i = 0; i < count; ++i) effect[i] = gentle(fits[i].effect), gap[i] = gentle(fits[i].gap);
  const double share =
      static_cast<double>(std::count(found.begin(), found.end(), true)) / static_cast<double>(count);
  const float found_share = gentle(share / usual_share), light_unknown = log_de00(0, estimator.added_sd),
              gap_unknown = log_de00(estimator.gap_sd, dimmest_mirror * estimator.gap_sd),
              lightness = static_cast<float>(plain.l / 50 - 1);

  std::vector<EvidenceValues> all(count);
  for (std::size_t i = 0; i < count; ++i) {
    EvidenceValues& values = all[i];
    values.fill(0);
    const auto at = [&](Evidence e) -> float& { return values[static_cast<std::size_t>(e)]; };
    at(Evidence::added) = gentle(fits[i].added);
    if (!(fits[i].added > 0)) continue;
    at(Evidence::missing) = gentle(fits[i].missing);
    at(Evidence::certainty) = gentle(fits[i].certainty);
    at(Evidence::effect) = effect[i];
    at(Evidence::away) = static_cast<float>(0.5 * std::log1p(fits[i].away));
    const Lab own = lab_of_relative(region.t[i]);
    at(Evidence::lighter) = gentle(own.l - plain.l);
    at(Evidence::difference) = gentle(difference_ciede2000(plain, own));
    const Neighbourhood& beside = region.beside[i];
    for (std::size_t k = 0; k < side; ++k) {
      if (k == middle) continue;
      at(Evidence::most_effect_beside) = std::max(at(Evidence::most_effect_beside), effect[beside[k]]);
      at(Evidence::effect_beside) += effect[beside[k]] / 8;
      at(Evidence::found_beside) += found[beside[k]] ? 0.125f : 0.f;
    }
    for (const auto& [first, second] : farther_steps) {
      const std::size_t there = region.beside[beside[first]][second];
      at(Evidence::most_effect_farther) = std::max(at(Evidence::most_effect_farther), effect[there]);
      at(Evidence::effect_farther) += effect[there] / 16;
      at(Evidence::gap_farther) += gap[there] / 16;
    }
    at(Evidence::found_share) = found_share;
    at(Evidence::light_unknown) = light_unknown;
    at(Evidence::gap_unknown) = gap_unknown;
    at(Evidence::lightness) = lightness;
  }
  return all;
}

}  // namespace

SpecularEvidence specular_evidence(const std::vector<Vector3d>& xyz, std::span<const SheetPixel> pixels,
                                   bool developed) {
  SpecularEvidence result;
  result.verdicts.assign(xyz.size(), Verdict::body);
  result.values.resize(xyz.size());
  if (xyz.size() < least_pixels) return result;
  Region region;
  for (const auto& c : xyz) region.t.emplace_back(c[0] / white_d50.x, c[1] / white_d50.y, c[2] / white_d50.z);
  region.beside = lattice_neighbours(pixels);
  // Body and scatter are not taken again without what was found: that would peel a thin film's pale places
  // off layer by layer.
  const Body body = body_of(region.t);
  const FirstLook look = first_look(region, body, patch_scatter(region, body), developed);
  result.values = evidence_of(look, region, body);
  for (std::size_t i = 0; i < look.fits.size(); ++i)
    result.verdicts[i] = look.fits[i].glare       ? Verdict::glare
                         : look.fits[i].added > 0 ? Verdict::by_evidence
                                                  : Verdict::body;
  return result;
}

std::vector<bool> specular_pixels(const std::vector<Vector3d>& xyz, std::span<const SheetPixel> pixels,
                                  bool developed) {
  const SpecularEvidence evidence = specular_evidence(xyz, pixels, developed);
  const double threshold = specular_threshold(developed);
  std::vector<bool> found(xyz.size());
  for (std::size_t i = 0; i < found.size(); ++i)
    found[i] = evidence.verdicts[i] == Verdict::glare ||
               (evidence.verdicts[i] == Verdict::by_evidence &&
                specular_log_odds(evidence.values[i], developed) > threshold);
  return found;
}

}  // namespace colorlib
