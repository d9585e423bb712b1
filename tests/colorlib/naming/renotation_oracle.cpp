#include <lcms2.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <tests/colorlib/naming/renotation_oracle.hpp>

namespace colorlib {
namespace {

const std::vector<std::string> families = {"R", "YR", "Y", "GY", "G", "BG", "B", "PB", "P", "RP"};

double hue_from(const std::string& text) {
  const auto letters = text.find_first_not_of("0123456789.");
  const auto family = std::find(families.begin(), families.end(), text.substr(letters)) - families.begin();
  return std::fmod(std::stod(text.substr(0, letters)) + 10.0 * static_cast<double>(family), 100.0);
}

std::vector<std::vector<std::string>> rows_of(const std::filesystem::path& file) {
  std::ifstream stream(file);
  if (!stream) throw std::runtime_error("cannot open " + file.string());
  std::vector<std::vector<std::string>> rows;
  bool heading = true;
  for (std::string line; std::getline(stream, line);) {
    if (line.empty() || line[0] == '#') continue;
    if (std::exchange(heading, false)) continue;
    std::istringstream cells(line);
    rows.emplace_back();
    for (std::string cell; std::getline(cells, cell, ',');) rows.back().push_back(cell);
  }
  return rows;
}

/// ASTM D1535.
double percent_at(double v) {
  return 1.1914 * v - 0.22533 * v * v + 0.23352 * v * v * v - 0.020484 * std::pow(v, 4) +
         0.00081939 * std::pow(v, 5);
}

double lightness_of(double percent) {
  const double ratio = percent / 100;
  return ratio > std::pow(6.0 / 29, 3) ? 116 * std::cbrt(ratio) - 16 : std::pow(29.0 / 3, 3) * ratio;
}

/// CIELUV of x, y, Y (percent) under illuminant C. Source: CIE 15.
std::pair<double, double> luv_from(double x, double y, double percent) {
  const double lightness = lightness_of(percent);
  const auto uv = [](double cx, double cy) {
    const double below = -2 * cx + 12 * cy + 3;
    return std::pair{4 * cx / below, 9 * cy / below};
  };
  const auto [u, v] = uv(x, y);
  const auto [un, vn] = uv(0.31006, 0.31616);
  return {13 * lightness * (u - un), 13 * lightness * (v - vn)};
}

constexpr double u_c = 4 * 0.31006 / (-2 * 0.31006 + 12 * 0.31616 + 3);
constexpr double v_c = 9 * 0.31616 / (-2 * 0.31006 + 12 * 0.31616 + 3);

std::pair<double, double> xy_from(double u_star, double v_star, double percent) {
  const double u = u_star / (13 * lightness_of(percent)) + u_c,
               v = v_star / (13 * lightness_of(percent)) + v_c;
  const double below = 6 * u - 16 * v + 12;
  return {9 * u / below, 4 * v / below};
}

/// CIELAB a*, b* of x, y, Y (percent) under illuminant C, and back. Source: CIE 15.
std::pair<double, double> ab_from(double x, double y, double percent) {
  const cmsCIEXYZ c{0.98074, 1, 1.18232},
      color{x / y * percent / 100, percent / 100, (1 - x - y) / y * percent / 100};
  cmsCIELab lab;
  cmsXYZ2Lab(&c, &lab, &color);
  return {lab.a, lab.b};
}
std::pair<double, double> luv_from_ab(double a, double b, double percent) {
  const cmsCIEXYZ c{0.98074, 1, 1.18232};
  const cmsCIELab lab{lightness_of(percent), a, b};
  cmsCIEXYZ color;
  cmsLab2XYZ(&c, &color, &lab);
  const double sum = color.X + color.Y + color.Z;
  return luv_from(color.X / sum, color.Y / sum, percent);
}

/// The cubic through four even points, between the middle two (Catmull and Rom).
double cubic(double p0, double p1, double p2, double p3, double t) {
  return p1 + 0.5 * t * (p2 - p0 + t * (2 * p0 - 5 * p1 + 4 * p2 - p3 + t * (3 * (p1 - p2) + p3 - p0)));
}

}  // namespace

RenotationOracle::RenotationOracle(const std::filesystem::path& renotation_file,
                                   const std::filesystem::path& blocks_file, AlongValue along_value)
    : along_value_(along_value) {
  std::map<double, std::vector<std::vector<Point>>> planes;
  for (const auto& row : rows_of(renotation_file)) {
    const double value = std::stod(row[1]), chroma = std::stod(row[2]), x = std::stod(row[3]),
                 y = std::stod(row[4]);
    auto& plane = planes[value];
    plane.resize(40, {Point{}});
    auto& hue = plane[static_cast<std::size_t>(std::lround(hue_from(row[0]) / 2.5)) % 40];
    const auto ring = static_cast<std::size_t>(std::lround(chroma / 2));
    if (y < 0.002) continue;
    if (hue.size() <= ring) hue.resize(ring + 1);
    const auto [u, v] = luv_from(x, y, percent_at(value));
    hue[ring] = {u, v};
  }
  for (auto& [value, plane] : planes) {
    for (std::size_t hue = 0; hue < 40; ++hue)  // one hue of value 0.2 has no chip
      if (plane[hue].size() < 2) {
        const Point before = plane[(hue + 39) % 40].at(1), after = plane[(hue + 1) % 40].at(1);
        plane[hue].push_back({(before.u + after.u) / 2, (before.v + after.v) / 2});
      }
    values_.push_back(value);
    planes_.push_back(std::move(plane));
  }
  for (const auto& row : rows_of(blocks_file)) {
    const auto upper = [](const std::string& text) { return text == "inf" ? 1e9 : std::stod(text); };
    rows_.push_back({std::stoi(row[2]), hue_from(row[0]), hue_from(row[1]), std::stod(row[3]), upper(row[4]),
                     std::stod(row[5]), upper(row[6])});
  }
}

RenotationOracle::Point RenotationOracle::on_plane(std::size_t plane, double hue_step, double chroma) const {
  const double hue = hue_step / 2.5, ring = chroma / 2;
  const int h = static_cast<int>(std::floor(hue)), c = static_cast<int>(std::floor(ring));
  const double s = hue - h, t = ring - c;
  // Beyond the last chip straight on; before the neutral its mirror image.
  const auto chip = [&](int hue_index, int ring_index) -> Point {
    const auto& rings = planes_[plane][static_cast<std::size_t>(((hue_index % 40) + 40) % 40)];
    const int last = static_cast<int>(rings.size()) - 1;
    if (ring_index < 0) return {-rings[1].u, -rings[1].v};
    if (ring_index <= last) return rings[static_cast<std::size_t>(ring_index)];
    const Point a = rings[static_cast<std::size_t>(last)], b = rings[static_cast<std::size_t>(last - 1)];
    const double steps = ring_index - last;
    return {a.u + steps * (a.u - b.u), a.v + steps * (a.v - b.v)};
  };
  Point along[4];
  for (int k = 0; k < 4; ++k) {
    const int i = h - 1 + k;
    const Point p0 = chip(i, c - 1), p1 = chip(i, c), p2 = chip(i, c + 1), p3 = chip(i, c + 2);
    along[k] = {cubic(p0.u, p1.u, p2.u, p3.u, t), cubic(p0.v, p1.v, p2.v, p3.v, t)};
  }
  return {cubic(along[0].u, along[1].u, along[2].u, along[3].u, s),
          cubic(along[0].v, along[1].v, along[2].v, along[3].v, s)};
}

RenotationOracle::Point RenotationOracle::at(double hue_step, double chroma, double value) const {
  const auto above = std::upper_bound(values_.begin(), values_.end(), value);
  const auto upper = static_cast<std::size_t>(std::clamp<std::ptrdiff_t>(
      above - values_.begin(), 1, static_cast<std::ptrdiff_t>(values_.size()) - 1));
  const Point low = on_plane(upper - 1, hue_step, chroma), high = on_plane(upper, hue_step, chroma);
  const double part = std::max(0.0, (value - values_[upper - 1]) / (values_[upper] - values_[upper - 1]));
  if (along_value_ == AlongValue::cieluv)
    return {low.u + part * (high.u - low.u), low.v + part * (high.v - low.v)};
  const double low_percent = percent_at(values_[upper - 1]), high_percent = percent_at(values_[upper]);
  auto [low_x, low_y] = xy_from(low.u, low.v, low_percent);
  auto [high_x, high_y] = xy_from(high.u, high.v, high_percent);
  if (along_value_ == AlongValue::chromaticity) {
    const auto [u, v] =
        luv_from(low_x + part * (high_x - low_x), low_y + part * (high_y - low_y), percent_at(value));
    return {u, v};
  }
  const auto [low_a, low_b] = ab_from(low_x, low_y, low_percent);
  const auto [high_a, high_b] = ab_from(high_x, high_y, high_percent);
  const auto [u, v] =
      luv_from_ab(low_a + part * (high_a - low_a), low_b + part * (high_b - low_b), percent_at(value));
  return {u, v};
}

Munsell RenotationOracle::munsell_from_lab(const Lab& lab) const {
  const cmsCIELab lab_d50{lab.l, lab.a, lab.b};
  const cmsCIEXYZ d50{0.96422, 1, 0.82521}, c{0.98074, 1, 1.18232};
  cmsCIEXYZ under_d50, under_c;
  cmsLab2XYZ(&d50, &under_d50, &lab_d50);
  cmsAdaptToIlluminant(&under_c, &d50, &c, &under_d50);

  double low = 0, high = 10;
  while (high - low > 1e-9) {
    const double middle = (low + high) / 2;
    (percent_at(middle) < 100 * under_c.Y ? low : high) = middle;
  }
  Munsell best{0, (low + high) / 2, 0};
  const double sum = under_c.X + under_c.Y + under_c.Z;
  const auto [u, v] = luv_from(under_c.X / sum, under_c.Y / sum, 100 * under_c.Y);
  const auto distance = [&, u = u, v = v](double hue, double chroma) {
    const Point point = at(hue, chroma, best.value);
    return std::hypot(point.u - u, point.v - v);
  };
  // Below value 1 some extrapolated chips of high chroma lie where no colour is: keep to the others.
  const double most_chroma = best.value < 1 ? 4 : 24;
  struct Start {
    double distance, hue, chroma;
  };
  std::vector<Start> starts;
  for (double hue = 0; hue < 100; hue += 5)
    // Close to the neutral every hue must be tried at a small chroma: at none at all the hue says nothing.
    for (double chroma = 0.01; chroma <= most_chroma; chroma += std::clamp(chroma, 0.05, 1.5))
      starts.push_back({distance(hue, chroma), hue, chroma});
  // The nearest lattice point need not be the right hill: several are climbed.
  std::partial_sort(starts.begin(), starts.begin() + 6, starts.end(),
                    [](const Start& a, const Start& b) { return a.distance < b.distance; });
  double least = 1e9;
  for (std::size_t i = 0; i < 6; ++i) {
    Start here = starts[i];
    double hue_way = 4, chroma_way = 1;
    while (chroma_way > 1e-5 && here.distance < 1.5 * least + hue_way + chroma_way) {
      bool better = false;
      for (const auto& [dh, dc] :
           {std::pair{1, 0}, {-1, 0}, {0, 1}, {0, -1}, {1, 1}, {1, -1}, {-1, 1}, {-1, -1}}) {
        const double hue = std::fmod(here.hue + dh * hue_way + 100, 100);
        const double chroma = std::max(0.0, here.chroma + dc * chroma_way);
        if (const double d = distance(hue, chroma); d < here.distance) {
          here = {d, hue, chroma};
          better = true;
        }
      }
      if (!better) {
        hue_way /= 2;
        chroma_way /= 2;
      }
    }
    if (here.distance < least) {
      least = here.distance;
      best.hue_step = here.hue;
      best.chroma = here.chroma;
    }
  }
  return best;
}

int RenotationOracle::block_of(const Munsell& munsell) const {
  for (const auto& row : rows_) {
    const bool wraps = row.hue_end < row.hue_begin;
    const bool hue_in = wraps ? munsell.hue_step >= row.hue_begin || munsell.hue_step < row.hue_end
                              : munsell.hue_step >= row.hue_begin && munsell.hue_step < row.hue_end;
    if (hue_in && munsell.chroma >= row.chroma_begin && munsell.chroma < row.chroma_end &&
        munsell.value >= row.value_begin && munsell.value < row.value_end)
      return row.number;
  }
  return 0;
}

}  // namespace colorlib
