#include "tests/colorlib/chart/sheet_photo.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/chart/marker_detection.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>

namespace colorlib::test {
namespace {

constexpr double pi = 3.14159265358979323846;

std::array<float, 3> linear_of(const Lab& lab) {
  // Relative colours only: D50 Lab read as if its white were the picture's.
  const Xyz xyz = xyz_from_lab(lab, white_d65);
  const LinearRgb rgb = linear_srgb_from_xyz(xyz);
  const auto in = [](double v) { return static_cast<float>(std::clamp(v, 0.002, 1.0)); };
  return {in(rgb.r), in(rgb.g), in(rgb.b)};
}

/// Adds `share` of a colour where a rectangle covers a raster cell.
void paint(PrintedSheet& sheet, const RectangleMm& r, const std::array<float, 3>& color) {
  const double s = sheet.px_per_mm;
  const int left = std::max(0, static_cast<int>(r.x * s)), top = std::max(0, static_cast<int>(r.y * s));
  const int right = std::min(sheet.ink.columns - 1, static_cast<int>((r.x + r.width) * s));
  const int bottom = std::min(sheet.ink.rows - 1, static_cast<int>((r.y + r.height) * s));
  for (int row = top; row <= bottom; ++row)
    for (int column = left; column <= right; ++column) {
      const double w =
          std::min((r.x + r.width) * s, column + 1.0) - std::max(r.x * s, static_cast<double>(column));
      const double h =
          std::min((r.y + r.height) * s, row + 1.0) - std::max(r.y * s, static_cast<double>(row));
      if (w <= 0 || h <= 0) continue;
      const auto share = static_cast<float>(w * h);
      float* p = sheet.ink.at(row, column);
      for (std::size_t k = 0; k < 3; ++k) p[k] += share * (color[k] - p[k]);
    }
}

float encoded(float linear) {
  return linear <= 0.0031308f ? 12.92f * linear : 1.055f * std::pow(linear, 1 / 2.4f) - 0.055f;
}

void blur_rows(ImageF& image, const std::vector<float>& kernel) {
  const int radius = static_cast<int>(kernel.size() / 2), n = image.columns;
  std::vector<float> line(static_cast<std::size_t>(n) * 3);
  for (int row = 0; row < image.rows; ++row) {
    float* p = image.at(row, 0);
    for (int c = 0; c < n; ++c)
      for (int k = 0; k < 3; ++k) {
        float sum = 0;
        for (int i = -radius; i <= radius; ++i)
          sum += kernel[static_cast<std::size_t>(i + radius)] * p[3 * std::clamp(c + i, 0, n - 1) + k];
        line[static_cast<std::size_t>(3 * c + k)] = sum;
      }
    std::copy(line.begin(), line.end(), p);
  }
}

void blur_columns(ImageF& image, const std::vector<float>& kernel) {
  const int radius = static_cast<int>(kernel.size() / 2);
  const ImageF source = image;
  const int width = 3 * image.columns;
  for (int row = 0; row < image.rows; ++row) {
    float* to = image.at(row, 0);
    std::fill(to, to + width, 0.f);
    for (int i = -radius; i <= radius; ++i) {
      const float* from = source.at(std::clamp(row + i, 0, image.rows - 1), 0);
      const float w = kernel[static_cast<std::size_t>(i + radius)];
      for (int c = 0; c < width; ++c) to[c] += w * from[c];
    }
  }
}

}  // namespace

PrintedSheet printed(const ChartDefinition& chart, int px_per_mm) {
  PrintedSheet sheet;
  sheet.chart = chart;
  sheet.px_per_mm = px_per_mm;
  sheet.ink = ImageF(static_cast<int>(std::lround(chart.height_mm * px_per_mm)),
                     static_cast<int>(std::lround(chart.width_mm * px_per_mm)), 3);
  const auto paper = linear_of(chart.paper_lab.value_or(Lab{95, 0, -2}));
  const std::array<float, 3> black = {0.02f, 0.02f, 0.02f};
  paint(sheet, {0, 0, chart.width_mm, chart.height_mm}, paper);
  for (const Backing& b : chart.backings) paint(sheet, b.place, linear_of(b.nominal_lab));
  for (const Patch& p : chart.patches) paint(sheet, p.place, linear_of(p.nominal_lab));
  for (const Marker& m : chart.markers) {
    paint(sheet, {m.x_mm, m.y_mm, m.side_mm, m.side_mm}, black);
    const std::vector<bool> white = marker_cells(m.id);
    const double cell = m.side_mm / 8;
    for (std::size_t i = 0; i < white.size(); ++i)
      if (white[i])
        paint(sheet,
              {m.x_mm + static_cast<double>(i % 8) * cell, m.y_mm + static_cast<double>(i / 8) * cell, cell,
               cell},
              paper);
  }
  // Words as thin lines, and a specimen in each opening.
  for (const PrintedText& t : chart.texts)
    for (double y = t.place.y + 1; y + 0.4 < t.place.y + t.place.height; y += 2.5)
      paint(sheet, {t.place.x, y, 0.9 * t.place.width, 0.4}, black);
  for (const ChartWindow& w : chart.windows) {
    const PointMm c = w.place.centre();
    paint(sheet,
          {c.x - 0.2 * w.place.width, c.y - 0.3 * w.place.height, 0.4 * w.place.width, 0.6 * w.place.height},
          linear_of({45, 12, 25}));
  }
  return sheet;
}

double Camera::height_at(double chord) const {
  if (stance_.sag_mm == 0) return 0;
  const double u = chord / half_chord_;
  return stance_.edges_up ? stance_.sag_mm * u * u : stance_.sag_mm * (1 - u * u);
}

double Camera::arc_from_chord(double chord) const {
  if (stance_.sag_mm == 0) return chord;
  // Length of a parabola whose slope reaches t = c chord < 0.3: series of (t sqrt(1 + t^2) + asinh t) / 2c,
  // to 1e-6.
  const double c = 2 * stance_.sag_mm / (half_chord_ * half_chord_), t2 = c * c * chord * chord;
  return chord * (1 + t2 / 6 * (1 - t2 * 3 / 20 * (1 - t2 * 5 / 14)));
}

double Camera::chord_from_arc(double arc) const {
  if (stance_.sag_mm == 0) return arc;
  // Slopes stay below 0.2: the length's series t + t^3/6 is good to 1e-4 of its last term, one Newton step
  // does the rest.
  const double c = 2 * stance_.sag_mm / (half_chord_ * half_chord_), t = c * arc;
  const double chord = arc * (1 - t * t / 6);
  return chord - (arc_from_chord(chord) - arc) / std::sqrt(1 + c * c * chord * chord);
}

Camera::Camera(const ChartDefinition& chart, const Stance& stance)
    : stance_(stance), width_mm_(chart.width_mm), height_mm_(chart.height_mm) {
  const double half = (stance.bends_along_x ? width_mm_ : height_mm_) / 2;
  half_chord_ = half;
  for (int i = 0; i < 30 && stance.sag_mm != 0; ++i) half_chord_ *= half / arc_from_chord(half_chord_);

  const double tilt = stance.tilt_deg * pi / 180, way = stance.tilt_towards_deg * pi / 180;
  const double turn = stance.rotation_deg * pi / 180;
  // Rodrigues: tilt about the axis (cos way, sin way, 0), then turn about z.
  const double ax = std::cos(way), ay = std::sin(way), c = std::cos(tilt), s = std::sin(tilt);
  const double tilted[9] = {c + ax * ax * (1 - c),
                            ax * ay * (1 - c),
                            ay * s,
                            ax * ay * (1 - c),
                            c + ay * ay * (1 - c),
                            -ax * s,
                            -ay * s,
                            ax * s,
                            c};
  const double turned[9] = {std::cos(turn), -std::sin(turn), 0, std::sin(turn), std::cos(turn), 0, 0, 0, 1};
  for (int i = 0; i < 3; ++i)
    for (int j = 0; j < 3; ++j) {
      rotation_[3 * i + j] = 0;
      for (int k = 0; k < 3; ++k) rotation_[3 * i + j] += turned[3 * i + k] * tilted[3 * k + j];
    }
  const double w = stance.width_px, h = stance.height_px;
  const auto update = [&] {
    Matrix3 camera{{focal_px_, 0, 0.5 * (w - 1), 0, focal_px_, 0.5 * (h - 1), 0, 0, 1}};
    Matrix3 pose{{rotation_[0], rotation_[1], shift_[0], rotation_[3], rotation_[4], shift_[1], rotation_[6],
                  rotation_[7], shift_[2]}};
    Matrix3 middle{{1, 0, -width_mm_ / 2, 0, 1, -height_mm_ / 2, 0, 0, 1}};
    placement_.homography = camera * pose * middle;
    placement_.centre = {0.5 * (w - 1), 0.5 * (h - 1)};
    placement_.half_diagonal_px = 0.5 * std::hypot(w, h);
    placement_.radial = stance.radial;
  };
  focal_px_ = stance.focal_share * w;
  shift_[0] = shift_[1] = 0;
  shift_[2] = stance.distance_mm > 0 ? stance.distance_mm : 400;
  for (int round = 0; round < 12; ++round) {
    update();
    double left = 1e30, right = -1e30, top = 1e30, bottom = -1e30;
    for (const PointMm& p :
         {PointMm{0, 0}, PointMm{width_mm_, 0}, PointMm{width_mm_, height_mm_}, PointMm{0, height_mm_}}) {
      const PointPx q = placement_.px_from_mm(p);
      left = std::min(left, q.x), right = std::max(right, q.x), top = std::min(top, q.y),
      bottom = std::max(bottom, q.y);
    }
    const double grow = std::max((right - left) / w, (bottom - top) / h) / stance.fill;
    if (stance.distance_mm > 0)
      focal_px_ /= grow;
    else
      shift_[2] *= grow;
    const double scale = shift_[2] / focal_px_;
    shift_[0] -= scale * (0.5 * (left + right) - 0.5 * (w - 1) - stance.shift_x * w);
    shift_[1] -= scale * (0.5 * (top + bottom) - 0.5 * (h - 1) - stance.shift_y * h);
  }
  update();
  to_mm_ = inverse(placement_.homography);
}

PointPx Camera::px_from_mm(const PointMm& p) const {
  if (stance_.sag_mm == 0) return placement_.px_from_mm(p);
  double x = p.x - width_mm_ / 2, y = p.y - height_mm_ / 2;
  double& bent = stance_.bends_along_x ? x : y;
  bent = chord_from_arc(bent);
  const double z = -height_at(bent);
  double q[3];
  for (int i = 0; i < 3; ++i)
    q[i] = rotation_[3 * i] * x + rotation_[3 * i + 1] * y + rotation_[3 * i + 2] * z + shift_[i];
  const double u = focal_px_ * q[0] / q[2], v = focal_px_ * q[1] / q[2];
  const double d = placement_.half_diagonal_px, stretch = 1 + stance_.radial * (u * u + v * v) / (d * d);
  return {placement_.centre.x + u * stretch, placement_.centre.y + v * stretch};
}

PointMm Camera::mm_from_px(const PointPx& p) const {
  // Own inverse: r (1 + k r^2) = r' by Newton steps, enough for |k| <= 0.05.
  const double k = stance_.radial / (placement_.half_diagonal_px * placement_.half_diagonal_px);
  const double u = p.x - placement_.centre.x, v = p.y - placement_.centre.y, seen2 = u * u + v * v;
  double shrink = 1;
  for (int i = 0; i < 3 && k != 0; ++i) {
    const double f = k * shrink * shrink * seen2;
    shrink -= (shrink * (1 + f) - 1) / (1 + 3 * f);
  }
  const Vector3 q = to_mm_ * Vector3{placement_.centre.x + shrink * u, placement_.centre.y + shrink * v, 1};
  PointMm guess{q[0] / q[2], q[1] / q[2]};
  if (stance_.sag_mm == 0) return guess;
  for (int i = 0; i < 2; ++i) {  // the curl moves places by a few pixels: good to 1e-3 px
    const PointPx at = px_from_mm(guess);
    const auto j = placement_.jacobian(guess);
    const double det = j[0] * j[3] - j[1] * j[2], dx = p.x - at.x, dy = p.y - at.y;
    guess.x += (j[3] * dx - j[1] * dy) / det;
    guess.y += (-j[2] * dx + j[0] * dy) / det;
  }
  return guess;
}

Photo photograph(const PrintedSheet& sheet, const Camera& camera, const Look& look) {
  const Stance& stance = camera.stance();
  ImageF light(stance.height_px, stance.width_px, 3);
  const auto within = [](const RectangleMm& r, const PointMm& p) { return r.contains(p); };
  for (int row = 0; row < light.rows; ++row)
    for (int column = 0; column < light.columns; ++column) {
      float* out = light.at(row, column);
      for (int sub = 0; sub < 4; ++sub) {
        const PointPx px{column + (sub % 2 ? 0.25 : -0.25), row + (sub / 2 ? 0.25 : -0.25)};
        const PointMm mm = camera.mm_from_px(px);
        std::array<float, 3> color;
        bool on_sheet =
            mm.x >= 0 && mm.y >= 0 && mm.x <= sheet.chart.width_mm && mm.y <= sheet.chart.height_mm;
        for (const RectangleMm& r : look.torn_off) on_sheet = on_sheet && !within(r, mm);
        bool covered = false;
        for (const RectangleMm& r : look.covered) covered = covered || within(r, mm);
        if (covered) {
          color = {0.35f, 0.3f, 0.25f};
        } else if (on_sheet) {
          const double x = std::clamp(mm.x * sheet.px_per_mm - 0.5, 0.0, sheet.ink.columns - 1.001);
          const double y = std::clamp(mm.y * sheet.px_per_mm - 0.5, 0.0, sheet.ink.rows - 1.001);
          const int c = static_cast<int>(x), r = static_cast<int>(y);
          const auto fx = static_cast<float>(x - c), fy = static_cast<float>(y - r);
          const float *a = sheet.ink.at(r, c), *b = sheet.ink.at(r + 1, c);
          for (std::size_t k = 0; k < 3; ++k)
            color[k] = (1 - fy) * ((1 - fx) * a[k] + fx * a[k + 3]) + fy * ((1 - fx) * b[k] + fx * b[k + 3]);
        } else {
          // A wooden table.
          const double wave = mm.x / 7 + 0.02 * mm.y, phase = wave - std::floor(wave);
          const auto grain = static_cast<float>(0.18 + 0.2 * std::fabs(phase - 0.5));
          color = {1.2f * grain, grain, 0.7f * grain};
        }
        const auto level =
            static_cast<float>(look.exposure * (1 - look.light_slope * mm.x / sheet.chart.width_mm));
        for (std::size_t k = 0; k < 3; ++k) out[k] += 0.25f * std::max(0.02f, level) * color[k];
      }
    }
  if (look.blur_px > 0) {
    const int radius = static_cast<int>(std::ceil(3.5 * look.blur_px));
    std::vector<float> kernel;
    float sum = 0;
    for (int i = -radius; i <= radius; ++i) {
      kernel.push_back(static_cast<float>(std::exp(-0.5 * i * i / (look.blur_px * look.blur_px))));
      sum += kernel.back();
    }
    for (float& k : kernel) k /= sum;
    blur_rows(light, kernel);
    blur_columns(light, kernel);
  }
  Image8 file(light.rows, light.columns, 3);
  static const std::vector<float> curve = [] {
    std::vector<float> table(4097);
    for (std::size_t i = 0; i < table.size(); ++i)
      table[i] = encoded(std::pow(static_cast<float>(i) / 4096, 2.f));
    return table;
  }();
  std::minstd_rand random(look.seed + 1);
  for (std::size_t i = 0; i < light.data.size(); ++i) {
    // Sum of three uniform numbers: bell-shaped, standard deviation 1/2.
    double bell = -1.5;
    for (int k = 0; k < 3; ++k) bell += static_cast<double>(random()) / 2147483647.0;
    const float root = 4096 * std::sqrt(std::clamp(light.data[i], 0.f, 1.f));
    const double v = curve[static_cast<std::size_t>(std::lround(root))] + 2 * look.noise_sd * bell;
    file.data[i] = static_cast<std::uint8_t>(std::lround(255 * std::clamp(v, 0.0, 1.0)));
  }
  return Photo(std::move(file), {}, {}, "rendered.png");
}

Photo photograph_of_nothing(int kind, int width_px, int height_px) {
  Image8 file(height_px, width_px, 3);
  std::minstd_rand random(7);
  for (int r = 0; r < file.rows; ++r)
    for (int c = 0; c < file.columns; ++c)
      for (int k = 0; k < 3; ++k) {
        int v = 128;
        if (kind == 0) v = 120 + static_cast<int>(random() % 5);
        if (kind == 1) v = static_cast<int>(random() % 256);
        if (kind == 2) v = (c / 9 + r / 23) % 2 ? 220 : 30;
        if (kind == 3) v = 40 + 170 * c / file.columns;
        file.at(r, c)[k] = static_cast<std::uint8_t>(v);
      }
  return Photo(std::move(file), {}, {}, "nothing.png");
}

ChartDefinition small_frame(int first_marker_id) {
  ChartDefinition chart;
  chart.name = "test-frame";
  chart.width_mm = 210;
  chart.height_mm = 148;
  chart.paper_lab = Lab{95, 0, -2};
  chart.markers = {{first_marker_id, 8, 8, 16},
                   {first_marker_id + 1, 186, 8, 16},
                   {first_marker_id + 2, 186, 124, 16},
                   {first_marker_id + 3, 8, 124, 16}};
  chart.windows = {{"W1", {60, 40, 90, 68}}};
  RandomStance random(5);
  const auto add = [&](double x, double y) {
    Patch patch;
    patch.id = fmt::format("P{}", chart.patches.size() + 1);
    patch.place = {x, y, 10, 10};
    const double l = random.uniform(18, 86), c = random.uniform(0, 45), h = random.uniform(0, 2 * pi);
    patch.nominal_lab = {l, c * std::cos(h), c * std::sin(h)};
    if (chart.patches.size() % 6 == 0) {
      patch.role = PatchRole::neutral;
      patch.nominal_lab = {20.0 + 1.8 * static_cast<double>(chart.patches.size()), 0, 0};
    }
    chart.patches.push_back(patch);
  };
  for (int i = 0; i < 11; ++i)
    for (const double y : {10.0, 128.0}) add(31.5 + 13.7 * i, y);
  for (int i = 0; i < 7; ++i)
    for (const double x : {8.0, 21.0, 179.0, 192.0}) add(x, 30 + 13 * i);
  return chart;
}

ChartDefinition touching_grid() {
  ChartDefinition chart;
  chart.name = "test-grid";
  chart.width_mm = 200;
  chart.height_mm = 140;
  chart.paper_lab = Lab{93, 0, 0};
  RandomStance random(9);
  for (int row = 0; row < 6; ++row)
    for (int column = 0; column < 9; ++column) {
      Patch patch;
      patch.id = fmt::format("{}{}", static_cast<char>('A' + row), column + 1);
      patch.place = {10.0 + 20 * column, 10.0 + 20 * row, 20, 20};
      const double l = random.uniform(15, 90), c = random.uniform(0, 50), h = random.uniform(0, 2 * pi);
      patch.nominal_lab = {l, c * std::cos(h), c * std::sin(h)};
      chart.patches.push_back(patch);
    }
  return chart;
}

Photo mirrored(const Photo& photo) {
  Image8 file = std::get<Image8>(photo.store());
  for (int r = 0; r < file.rows; ++r)
    for (int c = 0; c < file.columns / 2; ++c)
      for (int k = 0; k < 3; ++k) std::swap(file.at(r, c)[k], file.at(r, file.columns - 1 - c)[k]);
  return Photo(std::move(file), {}, {}, "mirrored.png");
}

Photo cropped(const Photo& photo, const PixelRectangle& r) {
  const Image8& whole = std::get<Image8>(photo.store());
  Image8 file(r.height, r.width, 3);
  for (int row = 0; row < r.height; ++row)
    std::copy(whole.at(r.top + row, r.left), whole.at(r.top + row, r.left) + 3 * r.width, file.at(row, 0));
  return Photo(std::move(file), {}, {}, "cropped.png");
}

Photo with_values(const Photo& photo, double (*value)(double)) {
  Image8 file = std::get<Image8>(photo.store());
  for (std::uint8_t& v : file.data)
    v = static_cast<std::uint8_t>(std::lround(std::clamp(value(v), 0.0, 255.0)));
  return Photo(std::move(file), {}, {}, "changed.png");
}

}  // namespace colorlib::test
