#include <algorithm>
#include <array>
#include <cmath>
#include <colorlib/chart/surroundings.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <cstdint>
#include <variant>

namespace colorlib {
namespace {

constexpr int cells_along = 128;        // of the longer side
constexpr int samples_a_side = 3;       // of a cell
constexpr double darkest_light = 2e-3;  // below that 8-bit photos hold no information

/// A coarse picture of the log light, cell by cell.
struct CoarsePicture {
  int rows = 0, columns = 0;
  double cell_px = 1;
  std::vector<float> value;

  float at(double row, double column) const {
    const double r = std::clamp(row, 0.0, rows - 1.0), c = std::clamp(column, 0.0, columns - 1.0);
    const int r0 = std::min(static_cast<int>(r), std::max(0, rows - 2)),
              c0 = std::min(static_cast<int>(c), std::max(0, columns - 2));
    const int r1 = std::min(r0 + 1, rows - 1), c1 = std::min(c0 + 1, columns - 1);
    const auto tr = static_cast<float>(r - r0), tc = static_cast<float>(c - c0);
    const auto v = [&](int i, int j) {
      return value[static_cast<std::size_t>(i) * static_cast<std::size_t>(columns) +
                   static_cast<std::size_t>(j)];
    };
    return (1 - tr) * ((1 - tc) * v(r0, c0) + tc * v(r0, c1)) + tr * ((1 - tc) * v(r1, c0) + tc * v(r1, c1));
  }
};

/// The sRGB curve by table, within 1e-7 over [0, 1]: a third of a million powers would cost as much as
/// decoding.
class LinearTable {
 public:
  LinearTable() {
    for (std::size_t i = 0; i < nodes_.size(); ++i)
      nodes_[i] = linear_from_srgb(static_cast<double>(i) / steps);
  }
  double at(double encoded) const {
    if (!(encoded > 0 && encoded < 1)) return linear_from_srgb(encoded);
    const double place = encoded * steps;
    const auto node = static_cast<std::size_t>(place);
    return nodes_[node] + (place - static_cast<double>(node)) * (nodes_[node + 1] - nodes_[node]);
  }

 private:
  static constexpr int steps = 4096;
  std::array<double, steps + 1> nodes_{};
};

double linear_from(double encoded, bool display_referred) {
  static const LinearTable table;
  return display_referred ? table.at(encoded) : encoded;
}

double light_of(double r, double g, double b) { return 0.25 * r + 0.5 * g + 0.25 * b; }

/// Relative light of a pixel. Plain photos of 8 bits (PNG, HEIF, JPEG made smaller) go by a table of their
/// own: a hundred thousand pixels are looked at.
class PixelLight {
 public:
  explicit PixelLight(const Photo& photo)
      : photo_(photo),
        display_(photo.encoding().kind == EncodingKind::display_referred),
        bytes_(photo.encoding().to_srgb_curve[0].empty() ? std::get_if<Image8>(&photo.store()) : nullptr) {
    for (std::size_t v = 0; v < of_byte_.size(); ++v)
      of_byte_[v] = linear_from(static_cast<double>(v) / 255, display_);
  }
  double at(int row, int column) const {
    if (bytes_) {
      const std::uint8_t* p = bytes_->at(row, column);
      return light_of(of_byte_[p[0]], of_byte_[p[1]], of_byte_[p[2]]);
    }
    const Vector3 v = photo_.encoded_at(column, row);
    return light_of(linear_from(v[0], display_), linear_from(v[1], display_), linear_from(v[2], display_));
  }

 private:
  const Photo& photo_;
  bool display_;
  const Image8* bytes_;
  std::array<double, 256> of_byte_{};
};

CoarsePicture coarse_log_light(const Photo& photo) {
  CoarsePicture coarse;
  coarse.cell_px =
      std::max(1.0, std::max(photo.width_px(), photo.height_px()) / static_cast<double>(cells_along));
  coarse.rows = std::max(1, static_cast<int>(photo.height_px() / coarse.cell_px));
  coarse.columns = std::max(1, static_cast<int>(photo.width_px() / coarse.cell_px));
  const PixelLight light(photo);
  for (int r = 0; r < coarse.rows; ++r)
    for (int c = 0; c < coarse.columns; ++c) {
      double sum = 0;
      for (int i = 0; i < samples_a_side; ++i)
        for (int j = 0; j < samples_a_side; ++j) {
          const int row = static_cast<int>((r + (i + 0.5) / samples_a_side) * coarse.cell_px);
          const int column = static_cast<int>((c + (j + 0.5) / samples_a_side) * coarse.cell_px);
          sum += light.at(std::min(row, photo.height_px() - 1), std::min(column, photo.width_px() - 1));
        }
      coarse.value.push_back(
          static_cast<float>(std::log(std::max(sum / (samples_a_side * samples_a_side), darkest_light))));
    }
  return coarse;
}

/// Three running means make a Gaussian of the standard deviation sqrt((width^2 - 1) / 4).
CoarsePicture smoothed(CoarsePicture picture, double sd_cells) {
  const int radius =
      std::max(1, static_cast<int>(std::lround((std::sqrt(4 * sd_cells * sd_cells + 1) - 1) / 2)));
  std::vector<float> line;
  const auto pass = [&](int count, int lines, std::size_t stride, std::size_t line_stride) {
    line.resize(static_cast<std::size_t>(count));
    for (int l = 0; l < lines; ++l) {
      float* p = picture.value.data() + static_cast<std::size_t>(l) * line_stride;
      for (int i = 0; i < count; ++i)
        line[static_cast<std::size_t>(i)] = p[static_cast<std::size_t>(i) * stride];
      for (int i = 0; i < count; ++i) {
        float sum = 0;
        for (int j = -radius; j <= radius; ++j)
          sum += line[static_cast<std::size_t>(std::clamp(i + j, 0, count - 1))];
        p[static_cast<std::size_t>(i) * stride] = sum / static_cast<float>(2 * radius + 1);
      }
    }
  };
  for (int round = 0; round < 3; ++round) {
    pass(picture.columns, picture.rows, 1, static_cast<std::size_t>(picture.columns));
    pass(picture.rows, picture.columns, static_cast<std::size_t>(picture.columns), 1);
  }
  return picture;
}

}  // namespace

Surroundings::Surroundings(const Photo& photo, const ChartDefinition& chart, const Placement& placement) {
  const CoarsePicture coarse = coarse_log_light(photo);
  rows_ = static_cast<int>(chart.height_mm / cell_mm_) + 2;
  columns_ = static_cast<int>(chart.width_mm / cell_mm_) + 2;
  values_.resize(static_cast<std::size_t>(rows_) * static_cast<std::size_t>(columns_));
  for (std::size_t scale = 0; scale < scales.size(); ++scale) {
    const CoarsePicture smooth = smoothed(coarse, scales[scale] * cells_along);
    double mean = 0;
    for (int r = 0; r < rows_; ++r)
      for (int c = 0; c < columns_; ++c) {
        const PointPx px = placement.px_from_mm({c * cell_mm_, r * cell_mm_});
        if (!std::isfinite(px.x) || !std::isfinite(px.y)) continue;  // no placement worth the name
        const float value =
            smooth.at((px.y + 0.5) / coarse.cell_px - 0.5, (px.x + 0.5) / coarse.cell_px - 0.5);
        values_[static_cast<std::size_t>(r * columns_ + c)][scale] = value;
        mean += value;
      }
    mean /= static_cast<double>(values_.size());
    for (auto& value : values_) value[scale] -= static_cast<float>(mean);
  }
}

std::array<double, 2> Surroundings::at(const PointMm& place) const {
  const double c = std::clamp(place.x / cell_mm_, 0.0, columns_ - 1.0),
               r = std::clamp(place.y / cell_mm_, 0.0, rows_ - 1.0);
  const int c0 = std::min(static_cast<int>(c), columns_ - 2), r0 = std::min(static_cast<int>(r), rows_ - 2);
  const double tc = c - c0, tr = r - r0;
  const auto* top = &values_[static_cast<std::size_t>(r0 * columns_ + c0)];
  const auto* low = top + columns_;
  std::array<double, 2> value;
  for (std::size_t s = 0; s < 2; ++s)
    value[s] =
        (1 - tr) * ((1 - tc) * top[0][s] + tc * top[1][s]) + tr * ((1 - tc) * low[0][s] + tc * low[1][s]);
  return value;
}

}  // namespace colorlib
