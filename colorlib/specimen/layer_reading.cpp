#include <fmt/format.h>

#include <cmath>
#include <colorlib/specimen/layer_reading.hpp>
#include <colorlib/specimen/photo_reading.hpp>
#include <limits>

namespace colorlib {
namespace {

/// From here on a layer counts as hiding its ground (common practice).
constexpr double hiding = 0.98;

PointMm middle_mm(const Reading& reading, const Placement& placement) {
  const auto [left, top, right, bottom] = reading.region.bounds();
  const double x = (left + right) / 2, y = (top + bottom) / 2;
  return reading.frame == RegionFrame::chart_mm ? PointMm{x, y} : placement.mm_from_px({x, y});
}

std::optional<std::size_t> backing_of(const ChartDefinition& chart, const PointMm& p) {
  for (std::size_t i = 0; i < chart.backings.size(); ++i)
    if (chart.backings[i].place.contains(p)) return i;
  return std::nullopt;
}

/// Of every film on a backing the nearest one on another; only those that are nearest to one another.
std::vector<std::optional<std::size_t>> partners(const ChartDefinition& chart, const Placement& placement,
                                                 const std::vector<Reading>& readings,
                                                 const PhotoFilms& films) {
  std::vector<std::optional<std::size_t>> nearest(readings.size());
  for (std::size_t i = 0; i < readings.size(); ++i) {
    if (!films.films[i]) continue;
    const PointMm here = middle_mm(readings[i], placement);
    const auto backing = backing_of(chart, here);
    double least = std::numeric_limits<double>::max();
    for (std::size_t j = 0; backing && j < readings.size(); ++j) {
      if (i == j || !films.films[j]) continue;
      const PointMm there = middle_mm(readings[j], placement);
      const auto other = backing_of(chart, there);
      const double distance = std::hypot(here.x - there.x, here.y - there.y);
      if (other && *other != *backing && distance < least) least = distance, nearest[i] = j;
    }
  }
  auto mutual = nearest;
  for (std::size_t i = 0; i < nearest.size(); ++i)
    if (nearest[i] && nearest[*nearest[i]] != i) mutual[i].reset();
  return mutual;
}

LayerReading layer_from(std::span<const FilmSample> films, MasstoneMethod method, const Namer& namer) {
  LayerReading layer;
  layer.method = std::string(masstone_method_name(method));
  std::optional<Masstone> contrast;
  const auto masstone = masstone_of(films, method, {}, &contrast);
  if (contrast) {
    layer.contrast_ratio = contrast->contrast_ratio;
    layer.contrast_ratio_expanded = 2 * contrast->contrast_ratio_standard;
    layer.scattering_power = contrast->scattering_power;
  }
  if (!masstone) {
    layer.refused = masstone.error();
    return layer;
  }
  layer.lab = masstone->lab;
  layer.lab_covariance = masstone->lab_covariance;
  layer.lab_expanded = expanded_uncertainty(layer.lab_covariance);
  layer.de00_expanded = expanded_de00(layer.lab, layer.lab_covariance);
  layer.words = namer.describe(layer.lab, layer.lab_covariance, {NameLevel::full, TermKind::deposit});
  return layer;
}

}  // namespace

PhotoFilms sample_films(const Photo& photo, const ChartDefinition& chart, const Placement& placement,
                        const Calibration& calibration, const std::vector<Reading>& readings,
                        std::string_view surface) {
  PhotoFilms all;
  all.films.resize(readings.size());
  all.missing.resize(readings.size());
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const Reading& reading = readings[i];
    if (reading.refused || reading.kind != RegionKind::deposit) continue;
    if (surface == "foil") {
      all.missing[i] = Error{
          ErrorCode::untrustworthy,
          fmt::format("Computing the masstone of region '{}': it was said to lie on foil, a mirror; a thin "
                      "layer's own colour needs a matt ground.",
                      reading.id),
          "If the layer may be thin, move the deposit to matt card, or better to the sheet with a black and "
          "a white ground."};
      continue;
    }
    std::vector<Region> others;
    for (std::size_t j = 0; j < readings.size(); ++j)
      if (j != i && readings[j].frame == reading.frame && readings[j].kind != RegionKind::substrate)
        others.push_back(readings[j].region);
    auto film = sample_film(photo, chart, placement, calibration, reading.region, reading.frame, others,
                            reading.lab, reading.lab_covariance, {}, reading.clear.get(),
                            reading.own_colors ? &*reading.own_colors : nullptr);
    if (film)
      all.films[i] = std::move(*film);
    else
      all.missing[i] = film.error();
  }
  return all;
}

void flag_thin(Reading& reading) {
  std::erase_if(reading.flags, [](const Flag& given) { return given.code == "thin-deposit"; });
  // Over one ground an opaque deposit of uneven colour looks thin, and so most that are refused there are.
  const bool known = reading.layer && reading.layer->contrast_ratio &&
                     !(reading.layer->refused &&
                       reading.layer->method == masstone_method_name(MasstoneMethod::uneven_thickness));
  if (known && *reading.layer->contrast_ratio < hiding) reading.flags.push_back(flag("thin-deposit"));
}

Result<std::monostate> add_layers_of_two_photos(PhotoReading& first, std::string_view first_name,
                                                PhotoReading& second, std::string_view second_name,
                                                const Namer& namer) {
  const auto deposits = [](const PhotoReading& photo) {
    std::vector<std::size_t> found;
    for (std::size_t i = 0; i < photo.readings.size(); ++i)
      if (photo.readings[i].kind == RegionKind::deposit && !photo.readings[i].refused) found.push_back(i);
    return found;
  };
  const auto here = deposits(first), there = deposits(second);
  const bool single = here.size() == 1 && there.size() == 1;
  std::size_t pairs = 0;
  for (const std::size_t i : here)
    for (const std::size_t j : there) {
      if (!single && first.readings[i].id != second.readings[j].id) continue;
      ++pairs;
      LayerReading layer;
      if (first.films.films[i] && second.films.films[j])
        layer =
            layer_of_two(*first.films.films[i], *second.films.films[j], MasstoneMethod::two_photos, namer);
      else
        layer.refused = first.films.films[i] ? second.films.missing[j] : first.films.missing[i];
      layer.method = std::string(masstone_method_name(MasstoneMethod::two_photos));
      first.readings[i].layer = second.readings[j].layer = layer;
      first.readings[i].layer->with = second_name;
      second.readings[j].layer->with = first_name;
      flag_thin(first.readings[i]);
      flag_thin(second.readings[j]);
    }
  if (pairs == 0)
    return fail(ErrorCode::untrustworthy,
                "Computing the masstone: no deposit was read in both photos, so that none can be compared "
                "over two grounds.",
                "Photograph the same deposit over both grounds; with several deposits give each the same id "
                "in both photos.");
  return std::monostate{};
}

LayerReading layer_of_two(const FilmSample& first, const FilmSample& second, MasstoneMethod method,
                          const Namer& namer) {
  const FilmSample both[] = {first, second};
  return layer_from(both, method, namer);
}

void add_layers(const ChartDefinition& chart, const Placement& placement, const PhotoFilms& films,
                bool single_grounds, const Namer& namer, std::vector<Reading>& readings) {
  const auto pairs = partners(chart, placement, readings, films);
  for (std::size_t i = 0; i < readings.size(); ++i) {
    auto& layer = readings[i].layer;
    if (films.missing[i]) {
      layer.emplace().refused = films.missing[i];
    } else if (films.films[i] && pairs[i]) {
      const std::size_t other = *pairs[i];
      layer = other < i
                  ? readings[other].layer
                  : layer_of_two(*films.films[i], *films.films[other], MasstoneMethod::two_grounds, namer);
      layer->with = readings[other].id;
    } else if (films.films[i] && backing_of(chart, middle_mm(readings[i], placement))) {
      layer.emplace().refused = Error{ErrorCode::untrustworthy,
                                      fmt::format("Computing the masstone of region '{}': the sheet has two "
                                                  "grounds, but the same deposit was not read "
                                                  "over the other one.",
                                                  readings[i].id),
                                      "Lay the deposit across the border of the grounds, with bare ground "
                                      "beside it on both, and draw a region on each."};
    } else if (films.films[i] && single_grounds) {
      layer = layer_from({&*films.films[i], 1}, MasstoneMethod::uneven_thickness, namer);
    }
    flag_thin(readings[i]);
  }
}

}  // namespace colorlib
