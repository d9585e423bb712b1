#include <fmt/format.h>
#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <colorlib/base/median.hpp>
#include <colorlib/chart/corner_alignment.hpp>
#include <colorlib/chart/marker_detection.hpp>
#include <colorlib/chart/placement_fit.hpp>
#include <vector>

namespace colorlib {
namespace {

constexpr const char* corner_order = "top-left, top-right, bottom-right, bottom-left of the upright sheet";
constexpr double corner_slack = 0.02;  // of the photo's side: a sheet that is slightly cut off
constexpr double least_side_px = 60;
constexpr double least_cells = 120, most_cells = 220;  // of the working grid's longer side
constexpr double cells_a_patch = 6;                    // wanted
constexpr int motions = 8;                             // of a homography
constexpr int lighting_terms = 6;                      // quadratic
constexpr int unknowns = motions + 1 + lighting_terms;

using Unknowns = Eigen::Matrix<double, unknowns, 1>;

/// A grid over the sheet: value (column, row) lies at ((column + 1/2) step, (row + 1/2) step) mm.
struct SheetGrid {
  int columns = 0, rows = 0;
  double step_mm = 1;
  PointMm place(int column, int row) const { return {(column + 0.5) * step_mm, (row + 0.5) * step_mm}; }
};

using Field = std::vector<float>;

/// Running means, three times over: close to a Gaussian of standard deviation `sigma` cells. Repeats the
/// border.
void blur(Field& field, const SheetGrid& grid, double sigma) {
  const int radius = static_cast<int>(std::lround(0.5 * (std::sqrt(4 * sigma * sigma + 1) - 1)));
  if (radius < 1) return;
  Field line;
  const auto run = [&](std::size_t start, std::size_t stride, int count) {
    line.resize(static_cast<std::size_t>(count));
    for (int i = 0; i < count; ++i)
      line[static_cast<std::size_t>(i)] = field[start + static_cast<std::size_t>(i) * stride];
    const auto at = [&](int i) { return line[static_cast<std::size_t>(std::clamp(i, 0, count - 1))]; };
    float sum = 0;
    for (int i = -radius; i <= radius; ++i) sum += at(i);
    for (int i = 0; i < count; ++i) {
      field[start + static_cast<std::size_t>(i) * stride] = sum / static_cast<float>(2 * radius + 1);
      sum += at(i + radius + 1) - at(i - radius);
    }
  };
  for (int pass = 0; pass < 3; ++pass) {
    for (int r = 0; r < grid.rows; ++r) run(static_cast<std::size_t>(r * grid.columns), 1, grid.columns);
    for (int c = 0; c < grid.columns; ++c)
      run(static_cast<std::size_t>(c), static_cast<std::size_t>(grid.columns), grid.rows);
  }
}

/// Share of a cell [x, x + step) x [y, y + step) that `r` covers.
double covered(const RectangleMm& r, double x, double y, double step) {
  const double w = std::min(r.x + r.width, x + step) - std::max(r.x, x);
  const double h = std::min(r.y + r.height, y + step) - std::max(r.y, y);
  return w > 0 && h > 0 ? w * h / (step * step) : 0;
}

template <class Visit>
void for_cells(const SheetGrid& grid, const RectangleMm& r, const Visit& visit) {
  const auto cell = [&](double mm, int count) {
    return std::clamp(static_cast<int>(mm / grid.step_mm), 0, count - 1);
  };
  for (int row = cell(r.y, grid.rows); row <= cell(r.y + r.height, grid.rows); ++row)
    for (int column = cell(r.x, grid.columns); column <= cell(r.x + r.width, grid.columns); ++column)
      visit(static_cast<std::size_t>(row * grid.columns + column),
            covered(r, column * grid.step_mm, row * grid.step_mm, grid.step_mm));
}

/// What the definition says: lightness (0 to 1) and where it says anything at all.
struct Expected {
  SheetGrid grid;
  Field lightness, known;
};

/// The median patch's shorter side.
double usual_patch_mm(const ChartDefinition& chart) {
  std::vector<double> sides = {};
  for (const Patch& p : chart.patches) sides.push_back(std::min(p.place.width, p.place.height));
  return median(std::move(sides));
}

Expected expected_of(const ChartDefinition& chart) {
  Expected e;
  const double longer_mm = std::max(chart.width_mm, chart.height_mm);
  e.grid.step_mm =
      std::clamp(usual_patch_mm(chart) / cells_a_patch, longer_mm / most_cells, longer_mm / least_cells);
  e.grid.columns = std::max(8, static_cast<int>(std::lround(chart.width_mm / e.grid.step_mm)));
  e.grid.rows = std::max(8, static_cast<int>(std::lround(chart.height_mm / e.grid.step_mm)));
  const auto cells = static_cast<std::size_t>(e.grid.columns) * static_cast<std::size_t>(e.grid.rows);
  const auto paper = static_cast<float>((chart.paper_lab ? chart.paper_lab->l : 95.0) / 100);
  e.lightness.assign(cells, paper);
  e.known.assign(cells, 1.f);
  const auto paint = [&](const RectangleMm& r, double lightness) {
    for_cells(e.grid, r, [&](std::size_t i, double share) {
      e.lightness[i] += static_cast<float>(share * (lightness - e.lightness[i]));
    });
  };
  const auto hide = [&](const RectangleMm& r) {
    for_cells(e.grid, r, [&](std::size_t i, double share) {
      if (share > 0.05) e.known[i] = 0;
    });
  };
  for (const Patch& p : chart.patches) paint(p.place, p.nominal_lab.l / 100);
  for (const Marker& m : chart.markers) {
    const std::vector<bool> white = marker_cells(m.id);
    const double cell = m.side_mm / 8;
    for (std::size_t i = 0; i < white.size(); ++i)
      paint({m.x_mm + static_cast<double>(i % 8) * cell, m.y_mm + static_cast<double>(i / 8) * cell, cell,
             cell},
            white[i] ? paper : 0.15);
  }
  for (const ChartWindow& w : chart.windows) hide(w.place);
  for (const Backing& b : chart.backings) hide(b.place);
  for (const PrintedText& t : chart.texts) hide(t.place);
  // What is unknown takes the mean, here as in the look at the photo, so that blurring brings no foreign
  // border in.
  double sum = 0, count = 0;
  for (std::size_t i = 0; i < cells; ++i) {
    sum += e.known[i] * e.lightness[i];
    count += e.known[i];
  }
  for (std::size_t i = 0; i < cells; ++i)
    if (e.known[i] <= 0) e.lightness[i] = static_cast<float>(count > 0 ? sum / count : paper);
  return e;
}

/// A grey picture around the sheet, as lightness, fine enough for the grid.
class SeenSheet {
 public:
  SeenSheet(const Photo& photo, const ChartDefinition& chart, const Placement& start, double step_mm) {
    double left = 1e30, top = 1e30, right = -1e30, bottom = -1e30;
    for (const PointMm& p : {PointMm{0, 0}, PointMm{chart.width_mm, 0},
                             PointMm{chart.width_mm, chart.height_mm}, PointMm{0, chart.height_mm}}) {
      const PointPx c = start.px_from_mm(p);
      left = std::min(left, c.x), right = std::max(right, c.x);
      top = std::min(top, c.y), bottom = std::max(bottom, c.y);
    }
    const double margin = 0.03 * std::max(right - left, bottom - top) + 4;
    const double px_per_step = step_mm * start.px_per_mm({chart.width_mm / 2, chart.height_mm / 2});
    block_ = std::max(1, static_cast<int>(0.7 * px_per_step));
    left_ = static_cast<int>(std::clamp(left - margin, 0.0, photo.width_px() - 1.0));
    top_ = static_cast<int>(std::clamp(top - margin, 0.0, photo.height_px() - 1.0));
    const int width = static_cast<int>(std::clamp(right + margin, 0.0, photo.width_px() - 1.0)) - left_ + 1;
    const int height = static_cast<int>(std::clamp(bottom + margin, 0.0, photo.height_px() - 1.0)) - top_ + 1;
    grey_ = photo.linear_grey({left_, top_, width, height}, block_);
    for (std::size_t v = 0; v < lightness_.size(); ++v)
      lightness_[v] = static_cast<float>(1.16 * std::cbrt(static_cast<double>(v) / 255) - 0.16);
    lightness_[0] = 0;
  }
  bool usable() const { return grey_.rows >= 8 && grey_.columns >= 8; }
  /// False outside.
  bool at(const PointPx& p, float& value) const {
    const double x = (p.x - left_ + 0.5) / block_ - 0.5, y = (p.y - top_ + 0.5) / block_ - 0.5;
    if (!(x >= 0 && y >= 0 && x < grey_.columns - 1 && y < grey_.rows - 1)) return false;
    const int c = static_cast<int>(x), r = static_cast<int>(y);
    const auto fx = static_cast<float>(x - c), fy = static_cast<float>(y - r);
    const std::uint8_t *a = grey_.at(r, c), *b = grey_.at(r + 1, c);
    value = (1 - fy) * ((1 - fx) * lightness_[a[0]] + fx * lightness_[a[1]]) +
            fy * ((1 - fx) * lightness_[b[0]] + fx * lightness_[b[1]]);
    return true;
  }

 private:
  Image8 grey_;
  int left_ = 0, top_ = 0, block_ = 1;
  std::array<float, 256> lightness_{};
};

/// One look at the sheet through a placement.
struct Look {
  Field lightness, weight;
};

Look look_through(const SeenSheet& seen, const Expected& expected, const Placement& placement) {
  Look look;
  look.lightness.assign(expected.known.size(), 0.f);
  look.weight = expected.known;
  double sum = 0, count = 0;
  for (int r = 0; r < expected.grid.rows; ++r)
    for (int c = 0; c < expected.grid.columns; ++c) {
      const auto i = static_cast<std::size_t>(r * expected.grid.columns + c);
      if (!seen.at(placement.px_from_mm(expected.grid.place(c, r)), look.lightness[i])) look.weight[i] = 0;
      if (look.weight[i] > 0) {
        sum += look.lightness[i];
        count += 1;
      }
    }
  const auto mean = static_cast<float>(count > 0 ? sum / count : 0);
  for (std::size_t i = 0; i < look.weight.size(); ++i)
    if (look.weight[i] <= 0) look.lightness[i] = mean;
  return look;
}

void lighting_row(double x, double y, double* row) {
  row[0] = 1, row[1] = x, row[2] = y, row[3] = x * x, row[4] = x * y, row[5] = y * y;
}

struct Step {
  Unknowns solution = Unknowns::Zero();
  double correlation = 0;
  bool solved = false;
};

/// Solves seen = gain expected + lighting + motion for small motions. `gain` is the last iterate's.
Step solve_step(const Expected& expected, const Field& blurred_expected, const Look& look,
                const Field& blurred_seen, double gain, double motion_sd) {
  const SheetGrid& g = expected.grid;
  Eigen::Matrix<double, unknowns, unknowns> normal = Eigen::Matrix<double, unknowns, unknowns>::Zero();
  Unknowns right = Unknowns::Zero(), row;
  double squares = 0, weight_sum = 0;
  const double unit = 0.5 * std::max(g.columns, g.rows);  // cells
  for (int r = 1; r + 1 < g.rows; ++r)
    for (int c = 1; c + 1 < g.columns; ++c) {
      const auto i = static_cast<std::size_t>(r * g.columns + c);
      const auto down = static_cast<std::size_t>(g.columns);
      if (look.weight[i] <= 0 || look.weight[i - 1] <= 0 || look.weight[i + 1] <= 0 ||
          look.weight[i - down] <= 0 || look.weight[i + down] <= 0)
        continue;
      const double x = (c + 0.5 - 0.5 * g.columns) / unit, y = (r + 0.5 - 0.5 * g.rows) / unit;
      // Mean of seen and expected gradients (per `unit`): converges twice as far as either.
      const double gx = 0.25 * unit *
                        (blurred_seen[i + 1] - blurred_seen[i - 1] +
                         gain * (blurred_expected[i + 1] - blurred_expected[i - 1]));
      const double gy = 0.25 * unit *
                        (blurred_seen[i + down] - blurred_seen[i - down] +
                         gain * (blurred_expected[i + down] - blurred_expected[i - down]));
      // Moving the look by (dx, dy) changes what is seen by g . d; it should become what is expected.
      const double turn = gx * x + gy * y;
      row << -gx, -gy, -gx * x, -gx * y, -gy * x, -gy * y, -turn * x, -turn * y, blurred_expected[i], 0, 0, 0,
          0, 0, 0;
      lighting_row(x, y, row.data() + motions + 1);
      normal.selfadjointView<Eigen::Lower>().rankUpdate(row);
      right.noalias() += row * static_cast<double>(blurred_seen[i]);
      squares += static_cast<double>(blurred_seen[i]) * blurred_seen[i];
      weight_sum += 1;
    }
  Step step;
  if (weight_sum < 20 * unknowns) return step;
  normal = Eigen::Matrix<double, unknowns, unknowns>(normal.selfadjointView<Eigen::Lower>());
  const auto explained = [&](int first, int count) {
    const Eigen::MatrixXd n = normal.block(first, first, count, count) +
                              1e-9 * weight_sum * Eigen::MatrixXd::Identity(count, count);
    const Eigen::VectorXd b = right.segment(first, count);
    return b.dot(n.ldlt().solve(b));
  };
  const double by_lighting = squares - explained(motions + 1, lighting_terms);
  const double by_both = squares - explained(motions, 1 + lighting_terms);
  const double size = std::sqrt(std::max(0.0, 1 - by_both / std::max(1e-12, by_lighting)));
  // Prior on the motions, in units of the residual's variance.
  Eigen::Matrix<double, unknowns, unknowns> regular = normal;
  const double variance = std::max(1e-6, by_both / weight_sum);
  for (int k = 0; k < motions; ++k)
    regular(k, k) += variance / (motion_sd * motion_sd) * std::sqrt(weight_sum);
  for (int k = motions; k < unknowns; ++k) regular(k, k) += 1e-9 * weight_sum;
  step.solution = regular.ldlt().solve(right);
  step.solved = step.solution.allFinite();
  step.correlation = step.solution[motions] >= 0 ? size : -size;
  return step;
}

/// Placement after the look was moved by `motion` (sheet units of `unit_mm` about the sheet's centre).
Placement moved(const Placement& placement, const Unknowns& motion, const PointMm& centre, double unit_mm) {
  const Matrix3 to{{1 / unit_mm, 0, -centre.x / unit_mm, 0, 1 / unit_mm, -centre.y / unit_mm, 0, 0, 1}};
  const Matrix3 from{{unit_mm, 0, centre.x, 0, unit_mm, centre.y, 0, 0, 1}};
  const Matrix3 step{
      {1 + motion[2], motion[3], motion[0], motion[4], 1 + motion[5], motion[1], -motion[6], -motion[7], 1}};
  Placement next = placement;
  next.homography = placement.homography * (from * (step * to));
  return next;
}

}  // namespace

Result<std::monostate> check_corners(const Photo& photo, const std::array<PointPx, 4>& corners) {
  const auto advice =
      fmt::format("Give the sheet's own corners in the order {}, in pixels of the photo.", corner_order);
  const double wide = photo.width_px(), high = photo.height_px();
  for (std::size_t i = 0; i < 4; ++i) {
    const PointPx& c = corners[i];
    if (!std::isfinite(c.x) || !std::isfinite(c.y))
      return fail(ErrorCode::bad_call,
                  fmt::format("Placing the sheet by its corners: corner {} is no number.", i + 1), advice);
    if (c.x < -corner_slack * wide || c.x > (1 + corner_slack) * wide || c.y < -corner_slack * high ||
        c.y > (1 + corner_slack) * high)
      return fail(ErrorCode::bad_call,
                  fmt::format("Placing the sheet by its corners: corner {} ({:.0f}, {:.0f}) lies outside the "
                              "photo of {} x {} px.",
                              i + 1, c.x, c.y, photo.width_px(), photo.height_px()),
                  advice);
  }
  int right_turns = 0, left_turns = 0;
  double shortest = 1e30;
  for (std::size_t i = 0; i < 4; ++i) {
    const PointPx &a = corners[i], &b = corners[(i + 1) % 4], &c = corners[(i + 2) % 4];
    const double turn = (b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x);
    // A corner within about 2 degrees of straight is none.
    const double straight = 0.035 * std::hypot(b.x - a.x, b.y - a.y) * std::hypot(c.x - b.x, c.y - b.y);
    if (turn > straight) ++right_turns;
    if (turn < -straight) ++left_turns;
    shortest = std::min(shortest, std::hypot(b.x - a.x, b.y - a.y));
  }
  if (shortest < least_side_px)
    return fail(
        ErrorCode::bad_call,
        fmt::format("Placing the sheet by its corners: one side is only {:.0f} px long, {:.0f} are needed.",
                    shortest, least_side_px),
        advice);
  if (left_turns == 4)
    return fail(ErrorCode::bad_call,
                "Placing the sheet by its corners: they run anticlockwise, as on a mirrored sheet, and "
                "should run clockwise.",
                advice);
  if (right_turns != 4)
    return fail(
        ErrorCode::bad_call,
        "Placing the sheet by its corners: they do not bound a convex four-sided figure in this order.",
        advice);
  return std::monostate{};
}

Placement placement_from_corners(const Photo& photo, const ChartDefinition& chart,
                                 const std::array<PointPx, 4>& corners) {
  const std::array<PointPair, 4> pairs = {{{{0, 0}, corners[0]},
                                           {{chart.width_mm, 0}, corners[1]},
                                           {{chart.width_mm, chart.height_mm}, corners[2]},
                                           {{0, chart.height_mm}, corners[3]}}};
  Placement placement;
  placement.centre = {0.5 * (photo.width_px() - 1), 0.5 * (photo.height_px() - 1)};
  placement.half_diagonal_px = 0.5 * std::hypot(photo.width_px(), photo.height_px());
  if (const auto homography = homography_from_pairs(pairs)) placement.homography = *homography;
  return placement;
}

CornerAlignment align_to_patches(const Photo& photo, const ChartDefinition& chart, const Placement& start) {
  CornerAlignment best{start, 0};
  const Expected expected = expected_of(chart);
  const SeenSheet seen(photo, chart, start, expected.grid.step_mm);
  if (!seen.usable()) return best;
  const PointMm centre{0.5 * expected.grid.columns * expected.grid.step_mm,
                       0.5 * expected.grid.rows * expected.grid.step_mm};
  const double unit_mm = 0.5 * std::max(expected.grid.columns, expected.grid.rows) * expected.grid.step_mm;
  if (chart.patches.empty()) return best;
  const double patch_cells = usual_patch_mm(chart) / expected.grid.step_mm;

  Placement placement = start;
  double gain = 1, correlation = 0;
  for (const double share : {0.4, 0.2, 0.1}) {  // standard deviation of the blur by the patch's side
    const double sigma = std::max(0.7, share * patch_cells);
    Field blurred_expected = expected.lightness;
    blur(blurred_expected, expected.grid, sigma);
    for (int round = 0; round < 10; ++round) {
      const Look look = look_through(seen, expected, placement);
      Field blurred_seen = look.lightness;
      blur(blurred_seen, expected.grid, sigma);
      const Step step = solve_step(expected, blurred_expected, look, blurred_seen, gain, 0.03);
      if (!step.solved) break;
      correlation = step.correlation;
      gain = std::clamp(step.solution[motions], 0.2, 2.0);
      placement = moved(placement, step.solution, centre, unit_mm);
      if (step.solution.head<motions>().cwiseAbs().maxCoeff() < 2e-4) break;
    }
  }
  best = {placement, correlation};
  return best;
}

}  // namespace colorlib
