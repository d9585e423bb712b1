#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <colorlib/base/reference_table.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/naming/munsell.hpp>
#include <colorlib/naming/renotation_grid.hpp>
#include <limits>
#include <numbers>

namespace colorlib {
namespace {

constexpr double pi = std::numbers::pi;
constexpr double not_set = std::numeric_limits<double>::quiet_NaN();
constexpr std::array published_values = {0.2, 0.4, 0.6, 0.8, 1.0, 2.0, 3.0,
                                         4.0, 5.0, 6.0, 7.0, 8.0, 9.0, 10.0};
constexpr std::size_t edge_values = 11;
constexpr const char* advice = "Restore the file from the project's sources.";
// Chips with a smaller y are beyond the colours that can be written as Lab.
constexpr double least_y = 0.002;

double turned_near(double angle_rad, double target_rad) {
  return angle_rad + 2 * pi * std::round((target_rad - angle_rad) / (2 * pi));
}

/// The hue angle that a Munsell hue would have, were the circles even; real ones lie within 60 degrees of it.
double even_hue_angle(std::size_t hue) {
  return 2 * pi * static_cast<double>(hue) / RenotationGrid::hues + 0.1;
}

PolarColor polar_from(double x, double y, double value) {
  const double luminance = luminance_from_munsell_value(value);
  const Lab lab = lab_from_xyz({x / y * luminance, luminance, (1 - x - y) / y * luminance}, white_c);
  return {std::hypot(lab.a, lab.b), std::atan2(lab.b, lab.a)};
}

}  // namespace

struct RenotationGrid::Local {
  double chroma_ab, angle, chroma_by_hue, chroma_by_ring, angle_by_hue, angle_by_ring;
};

Result<RenotationGrid> RenotationGrid::load(const std::filesystem::path& file) {
  const auto table = ReferenceTable::read(file, "the Munsell renotation");
  if (!table) return fail(table.error());
  const auto columns = table->require({"hue", "value", "chroma", "x", "y", "origin"});
  if (!columns) return fail(columns.error());

  RenotationGrid grid;
  grid.values_.assign(1, 0.0);
  grid.values_.insert(grid.values_.end(), published_values.begin(), published_values.end());
  const std::size_t size = grid.values_.size() * (hues + 1) * chromas;
  grid.nodes_.assign(size, {not_set, not_set});
  grid.published_.assign(size, false);
  grid.edges_.assign(edge_values * (hues + 1), 0.0);

  for (std::size_t row = 0; row < table->rows(); ++row) {
    const auto refused = [&](const std::string& found) {
      return fail(ErrorCode::unreadable_table,
                  fmt::format("Reading the Munsell renotation '{}', line {}: {}.", table->name(),
                              table->line(row), found),
                  advice);
    };
    std::array<double, 4> number{};
    for (std::size_t i = 0; i < 4; ++i) {
      const auto read = table->number(row, (*columns)[i + 1]);
      if (!read) return fail(read.error());
      number[i] = *read;
    }
    const auto [value, chroma, x, y] = number;
    const auto hue_step = hue_step_from(table->text(row, (*columns)[0]));
    if (!hue_step) return refused("the hue is no Munsell hue");
    const auto hue = static_cast<std::size_t>(std::lround(*hue_step / hue_step_width)) % hues;
    const auto place = std::find(grid.values_.begin() + 1, grid.values_.end(), value);
    const auto ring = static_cast<std::size_t>(std::lround(std::clamp(chroma / chroma_step, 0.0, 1e3)));
    if (place == grid.values_.end())
      return refused(fmt::format("a value of {} is not in the renotation", value));
    if (ring < 1 || ring >= chromas || chroma != static_cast<double>(ring) * chroma_step)
      return refused(fmt::format("a chroma of {} is not in the renotation", chroma));
    if (y < least_y) continue;
    const auto value_index = static_cast<std::size_t>(place - grid.values_.begin());
    const std::size_t at = node(value_index, hue, ring);
    if (grid.published_[at]) return refused("the chip is there twice");
    grid.nodes_[at] = polar_from(x, y, value);
    grid.published_[at] = true;
    if (table->text(row, (*columns)[5]) == "table" && value >= 1) {
      double& edge = grid.edges_[static_cast<std::size_t>(value) * (hues + 1) + hue];
      edge = std::max(edge, chroma);
    }
  }
  for (std::size_t value = 1; value <= 9; ++value)
    for (std::size_t hue = 0; hue < hues; ++hue)
      if (grid.edges_[value * (hues + 1) + hue] == 0 || !grid.published_[node(value + 4, hue, 1)])
        return fail(ErrorCode::unreadable_table,
                    fmt::format("Reading the Munsell renotation '{}': no chip of value {} and hue step {}.",
                                table->name(), value, static_cast<double>(hue) * hue_step_width),
                    advice);
  grid.continue_outwards();
  grid.close_circle();
  grid.note_starts();
  return grid;
}

void RenotationGrid::continue_outwards() {
  for (std::size_t value = 1; value < values_.size(); ++value) {
    // A hue without any chip (one, at value 0.2) lies between its neighbours.
    for (std::size_t hue = 0; hue < hues; ++hue) {
      PolarColor& first = nodes_[node(value, hue, 1)];
      if (published_[node(value, hue, 1)]) {
        first.hue_angle_rad = turned_near(first.hue_angle_rad, even_hue_angle(hue));
        continue;
      }
      const PolarColor& before = nodes_[node(value, (hue + hues - 1) % hues, 1)];
      const PolarColor& after = nodes_[node(value, (hue + 1) % hues, 1)];
      const double target = even_hue_angle(hue);
      first = {(before.chroma_ab + after.chroma_ab) / 2,
               (turned_near(before.hue_angle_rad, target) + turned_near(after.hue_angle_rad, target)) / 2};
    }
    for (std::size_t hue = 0; hue < hues; ++hue) {
      for (std::size_t ring = 2; ring < chromas; ++ring) {
        PolarColor& here = nodes_[node(value, hue, ring)];
        const PolarColor& inner = nodes_[node(value, hue, ring - 1)];
        if (published_[node(value, hue, ring)]) {
          here.hue_angle_rad = turned_near(here.hue_angle_rad, inner.hue_angle_rad);
        } else {
          const double before = ring > 2 ? nodes_[node(value, hue, ring - 2)].chroma_ab : 0;
          here = {2 * inner.chroma_ab - before, inner.hue_angle_rad};
        }
      }
    }
  }
  // Hue lines go on straight into the neutral point: leaving chips of chroma 2 out shows that their hue angle
  // is met three times better so than by that of chroma 4. At value 10 (no chips) they bend as at value 9.
  for (std::size_t value = 1; value < values_.size(); ++value)
    for (std::size_t hue = 0; hue < hues; ++hue) {
      const double first = nodes_[node(value, hue, 1)].hue_angle_rad;
      const bool bent = published_[node(value, hue, 1)] && published_[node(value, hue, 2)];
      double angle = bent ? 2 * first - nodes_[node(value, hue, 2)].hue_angle_rad : first;
      if (value + 1 == values_.size())
        angle = first + nodes_[node(value - 1, hue, 0)].hue_angle_rad -
                nodes_[node(value - 1, hue, 1)].hue_angle_rad;
      nodes_[node(value, hue, 0)] = {0, angle};
    }
  // Value 0: the polar grid of the darkest plane.
  for (std::size_t hue = 0; hue < hues; ++hue)
    for (std::size_t ring = 0; ring < chromas; ++ring)
      nodes_[node(0, hue, ring)] = nodes_[node(1, hue, ring)];
}

void RenotationGrid::close_circle() {
  for (std::size_t value = 0; value < values_.size(); ++value)
    for (std::size_t ring = 0; ring < chromas; ++ring) {
      PolarColor again = nodes_[node(value, 0, ring)];
      again.hue_angle_rad += 2 * pi;
      nodes_[node(value, hues, ring)] = again;
    }
  for (std::size_t value = 0; value < edge_values; ++value)
    edges_[value * (hues + 1) + hues] = edges_[value * (hues + 1)];
}

void RenotationGrid::note_starts() {
  constexpr std::size_t ring = 2;
  starts_.resize(values_.size() * start_angles);
  for (std::size_t value = 0; value < values_.size(); ++value) {
    const double first = nodes_[node(value, 0, ring)].hue_angle_rad;
    std::size_t hue = 0;
    // Along one turn from the first hue on, the angle passes each hue in its order.
    for (std::size_t i = 0; i < start_angles; ++i) {
      const auto bin =
          (static_cast<std::size_t>(std::ceil(first / (2 * pi) * start_angles + 2 * start_angles)) + i) %
          start_angles;
      const double angle = turned_near(2 * pi * static_cast<double>(bin) / start_angles, first + pi);
      while (hue + 1 < hues && nodes_[node(value, hue + 1, ring)].hue_angle_rad <= angle) ++hue;
      const double low = nodes_[node(value, hue, ring)].hue_angle_rad;
      const double high = nodes_[node(value, hue + 1, ring)].hue_angle_rad;
      const double part = std::clamp((angle - low) / (high - low), 0.0, 1.0);
      starts_[value * start_angles + bin] =
          static_cast<float>(std::min(static_cast<double>(hue) + part, hues - 0.01));
    }
  }
}

RenotationGrid::Plane RenotationGrid::plane_at(double value) const {
  const double held = std::clamp(value, 0.0, 10.0);
  std::size_t lower = held >= 1 ? 4 + static_cast<std::size_t>(held) : static_cast<std::size_t>(held * 5);
  lower = std::min(lower, values_.size() - 2);
  return {lower, (held - values_[lower]) / (values_[lower + 1] - values_[lower])};
}

RenotationGrid::Local RenotationGrid::local_at(double hue, double ring, const Plane& plane) const {
  const auto h = std::min(static_cast<std::size_t>(hue), hues - 1);
  const auto c = std::min(static_cast<std::size_t>(ring), chromas - 2);
  const double s = hue - static_cast<double>(h), t = ring - static_cast<double>(c);
  const PolarColor* low = &nodes_[node(plane.lower, h, c)];
  const PolarColor* high = &nodes_[node(plane.lower + 1, h, c)];
  const auto blended = [&](std::size_t offset) {
    return PolarColor{
        low[offset].chroma_ab + plane.weight * (high[offset].chroma_ab - low[offset].chroma_ab),
        low[offset].hue_angle_rad + plane.weight * (high[offset].hue_angle_rad - low[offset].hue_angle_rad)};
  };
  const PolarColor p00 = blended(0), p01 = blended(1), p10 = blended(chromas), p11 = blended(chromas + 1);
  Local local;
  const double r0 = p00.chroma_ab + t * (p01.chroma_ab - p00.chroma_ab);
  const double r1 = p10.chroma_ab + t * (p11.chroma_ab - p10.chroma_ab);
  local.chroma_by_hue = r1 - r0;
  local.chroma_ab = r0 + s * (r1 - r0);
  local.chroma_by_ring = (1 - s) * (p01.chroma_ab - p00.chroma_ab) + s * (p11.chroma_ab - p10.chroma_ab);
  const double a0 = p00.hue_angle_rad + t * (p01.hue_angle_rad - p00.hue_angle_rad);
  const double a1 = p10.hue_angle_rad + t * (p11.hue_angle_rad - p10.hue_angle_rad);
  local.angle_by_hue = a1 - a0;
  local.angle = a0 + s * (a1 - a0);
  local.angle_by_ring =
      (1 - s) * (p01.hue_angle_rad - p00.hue_angle_rad) + s * (p11.hue_angle_rad - p10.hue_angle_rad);
  return local;
}

PolarColor RenotationGrid::color_at(const PolarPlace& place, const Plane& plane) const {
  const Local local = local_at(place.hue_step / hue_step_width, place.chroma / chroma_step, plane);
  return {local.chroma_ab, local.angle};
}

PolarPlace RenotationGrid::place_of(const PolarColor& color, const Plane& plane) const {
  constexpr int most_steps = 80, undamped_steps = 12;
  // Inside a cell the last step leaves about the square of its length.
  constexpr double last_step = 1e-6;
  constexpr double whole_circle = hues;
  // Newton's method over straight cells.
  const double turn = color.hue_angle_rad / (2 * pi);
  const auto bin = static_cast<std::size_t>((turn - std::floor(turn)) * start_angles) % start_angles;
  const std::size_t nearer = plane.weight < 0.5 ? plane.lower : plane.lower + 1;
  double hue = starts_[nearer * start_angles + bin];
  const double chroma_ab_of_ring_2 = nodes_[node(nearer, static_cast<std::size_t>(hue), 2)].chroma_ab;
  double ring = 2 * color.chroma_ab / chroma_ab_of_ring_2;
  for (int step = 0; step < most_steps; ++step) {
    const Local local = local_at(hue, ring, plane);
    const double chroma_off = color.chroma_ab - local.chroma_ab;
    double angle_off = color.hue_angle_rad - local.angle;
    if (std::abs(angle_off) > pi) angle_off -= 2 * pi * std::round(angle_off / (2 * pi));
    const double area = local.chroma_by_ring * local.angle_by_hue - local.chroma_by_hue * local.angle_by_ring;
    // Slopes jump from cell to cell: full steps could swing between two cells for ever.
    const double damping = (step < undamped_steps ? 1.0 : 0.5) / area;
    const double hue_way = std::clamp(
        (local.chroma_by_ring * angle_off - local.angle_by_ring * chroma_off) * damping, -4.0, 4.0);
    const double ring_way =
        std::clamp((local.angle_by_hue * chroma_off - local.chroma_by_hue * angle_off) * damping, -4.0, 4.0);
    const double old_hue = hue, old_ring = ring;
    hue += hue_way;
    if (hue < 0) hue += whole_circle;
    if (hue >= whole_circle) hue -= whole_circle;
    ring = std::max(0.0, ring + ring_way);
    const bool same_cell = static_cast<int>(hue) == static_cast<int>(old_hue) &&
                           static_cast<int>(ring) == static_cast<int>(old_ring);
    const double length = std::max(std::abs(hue_way), std::abs(ring_way));
    if (length < last_step && (same_cell || length < last_step * last_step)) break;
  }
  return {hue < whole_circle ? hue * hue_step_width : 0.0, ring * chroma_step};
}

double RenotationGrid::greatest_chroma(double hue_step, double value) const {
  const double hue = hue_step / hue_step_width;
  const auto h = std::min(static_cast<std::size_t>(hue), hues - 1);
  const double held = std::clamp(value, 0.0, 10.0);
  const auto v = std::min(static_cast<std::size_t>(held), edge_values - 2);
  const double s = hue - static_cast<double>(h), t = held - static_cast<double>(v);
  const double* low = &edges_[v * (hues + 1) + h];
  const double* high = low + (hues + 1);
  return (1 - t) * (low[0] + s * (low[1] - low[0])) + t * (high[0] + s * (high[1] - high[0]));
}

}  // namespace colorlib
