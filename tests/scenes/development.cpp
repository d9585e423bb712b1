#include "tests/scenes/development.hpp"

#include <algorithm>
#include <cmath>

namespace colorlib::scenes {
namespace {

/// One channel, `step` pixels a cell, bilinear between cell centres.
struct CoarseMap {
  int rows = 0, columns = 0, step = 1;
  std::vector<float> value;

  float at(int row, int column) const {
    const float r = std::clamp((static_cast<float>(row) + 0.5f) / static_cast<float>(step) - 0.5f, 0.0f,
                               static_cast<float>(rows - 1));
    const float c = std::clamp((static_cast<float>(column) + 0.5f) / static_cast<float>(step) - 0.5f, 0.0f,
                               static_cast<float>(columns - 1));
    const int r0 = std::min(static_cast<int>(r), std::max(0, rows - 2)),
              c0 = std::min(static_cast<int>(c), std::max(0, columns - 2));
    const int r1 = std::min(r0 + 1, rows - 1), c1 = std::min(c0 + 1, columns - 1);
    const float tr = r - static_cast<float>(r0), tc = c - static_cast<float>(c0);
    const auto v = [&](int i, int j) {
      return value[static_cast<std::size_t>(i) * static_cast<std::size_t>(columns) +
                   static_cast<std::size_t>(j)];
    };
    return (1 - tr) * ((1 - tc) * v(r0, c0) + tc * v(r0, c1)) + tr * ((1 - tc) * v(r1, c0) + tc * v(r1, c1));
  }
};

void box_blur(CoarseMap& map, int radius) {
  std::vector<float> line;
  const auto pass = [&](int count, int lines, std::size_t stride, std::size_t line_stride) {
    for (int l = 0; l < lines; ++l) {
      float* p = map.value.data() + static_cast<std::size_t>(l) * line_stride;
      line.assign(static_cast<std::size_t>(count), 0);
      for (int i = 0; i < count; ++i) {
        float sum = 0;
        for (int j = -radius; j <= radius; ++j)
          sum += p[static_cast<std::size_t>(std::clamp(i + j, 0, count - 1)) * stride];
        line[static_cast<std::size_t>(i)] = sum / static_cast<float>(2 * radius + 1);
      }
      for (int i = 0; i < count; ++i)
        p[static_cast<std::size_t>(i) * stride] = line[static_cast<std::size_t>(i)];
    }
  };
  for (int round = 0; round < 3; ++round) {
    pass(map.columns, map.rows, 1, static_cast<std::size_t>(map.columns));
    pass(map.rows, map.columns, static_cast<std::size_t>(map.columns), 1);
  }
}

/// Gain of local tone mapping: bright neighbourhoods held back, dark ones lifted; 1 at the mean. With
/// `edge_share` above 0 the neighbourhood follows strong edges instead of smearing over them, as the better
/// phones do.
CoarseMap local_gain(const ImageF& linear, double strength, double blur_share, double edge_share) {
  CoarseMap map;
  map.step = 16;
  map.rows = std::max(1, linear.rows / map.step);
  map.columns = std::max(1, linear.columns / map.step);
  map.value.resize(static_cast<std::size_t>(map.rows) * static_cast<std::size_t>(map.columns));
  double mean = 0;
  for (int r = 0; r < map.rows; ++r)
    for (int c = 0; c < map.columns; ++c) {
      double sum = 0;
      for (int i = 0; i < map.step; i += 2)
        for (int j = 0; j < map.step; j += 2) {
          const float* p = linear.at(r * map.step + i, c * map.step + j);
          sum += 0.25f * p[0] + 0.5f * p[1] + 0.25f * p[2];
        }
      const double log_level = std::log(std::max(1e-3, sum / (map.step * map.step / 4)));
      map.value[static_cast<std::size_t>(r) * static_cast<std::size_t>(map.columns) +
                static_cast<std::size_t>(c)] = static_cast<float>(log_level);
      mean += log_level;
    }
  mean /= static_cast<double>(map.value.size());
  const std::vector<float> sharp = map.value;
  box_blur(map, std::max(1, static_cast<int>(blur_share * linear.columns / map.step)));
  for (std::size_t i = 0; i < map.value.size(); ++i) {
    const double detail = sharp[i] - map.value[i], edge = detail * detail / (detail * detail + 0.25);
    const double level = map.value[i] + edge_share * edge * detail;
    map.value[i] = static_cast<float>(std::exp(-strength * (level - mean)));
  }
  return map;
}

/// Unsharp mask of luma: v + amount (luma - blurred luma), 3 x 3 binomial blur.
void sharpen(ImageF& encoded, float amount) {
  const int rows = encoded.rows, columns = encoded.columns;
  std::vector<float> luma(static_cast<std::size_t>(rows) * static_cast<std::size_t>(columns)),
      across(luma.size());
  for (std::size_t i = 0; i < luma.size(); ++i)
    luma[i] =
        0.299f * encoded.data[3 * i] + 0.587f * encoded.data[3 * i + 1] + 0.114f * encoded.data[3 * i + 2];
  const auto n = static_cast<std::size_t>(columns);
  for (int r = 0; r < rows; ++r) {
    const float* from = luma.data() + static_cast<std::size_t>(r) * n;
    float* to = across.data() + static_cast<std::size_t>(r) * n;
    to[0] = from[0], to[n - 1] = from[n - 1];
    for (std::size_t c = 1; c + 1 < n; ++c) to[c] = 0.25f * (from[c - 1] + from[c + 1]) + 0.5f * from[c];
  }
  for (int r = 1; r + 1 < rows; ++r)
    for (std::size_t c = 0; c < n; ++c) {
      const std::size_t i = static_cast<std::size_t>(r) * n + c;
      const float detail = luma[i] - (0.25f * (across[i - n] + across[i + n]) + 0.5f * across[i]);
      for (std::size_t k = 0; k < 3; ++k) encoded.data[3 * i + k] += amount * detail;
    }
}

}  // namespace

Image8 develop(ImageF& picture, const Vector3& gains, const Matrix3& to_srgb,
               const DevelopmentSettings& settings) {
  // Matrix and linear saturation as one matrix.
  Matrix3 matrix = to_srgb;
  if (!settings.saturation_encoded) {
    const double s = settings.saturation;
    const Vector3 luma{0.2126, 0.7152, 0.0722};
    Matrix3 boost;
    for (int r = 0; r < 3; ++r)
      for (int c = 0; c < 3; ++c)
        boost(r, c) = (1 - s) * luma[static_cast<std::size_t>(c)] + (r == c ? s : 0);
    matrix = boost * matrix;
  }
  float m[9];
  for (std::size_t i = 0; i < 9; ++i) m[i] = static_cast<float>(matrix.m[i]);

  const float balance[3] = {static_cast<float>(gains[0]), static_cast<float>(gains[1]),
                            static_cast<float>(gains[2])};

  CoarseMap gain;
  const bool local = settings.local_strength > 0;
  if (local)
    gain = local_gain(picture, settings.local_strength, settings.local_blur_share, settings.local_edge_share);

  constexpr int last = 8191;
  std::array<std::vector<float>, 3> table;
  for (std::size_t k = 0; k < 3; ++k) {
    table[k].resize(last + 1);
    for (int i = 0; i <= last; ++i) {
      const float root = static_cast<float>(i) / last;
      const float v = settings.tone(root * root);
      table[k][static_cast<std::size_t>(i)] =
          settings.channel_exponent[k] == 1 ? v
                                            : static_cast<float>(std::pow(v, settings.channel_exponent[k]));
    }
  }
  const float encoded_saturation =
      settings.saturation_encoded ? static_cast<float>(settings.saturation) : 1.0f;
  const float vibrance = static_cast<float>(settings.vibrance);
  for (int row = 0; row < picture.rows; ++row) {
    float* p = picture.at(row, 0);
    for (int column = 0; column < picture.columns; ++column, p += 3) {
      const float g = local ? gain.at(row, column) : 1.0f;
      float balanced[3], out[3];
      for (int k = 0; k < 3; ++k) balanced[k] = std::min(1.0f, balance[k] * p[k]);
      for (int k = 0; k < 3; ++k) {
        const float y =
            g * (m[3 * k] * balanced[0] + m[3 * k + 1] * balanced[1] + m[3 * k + 2] * balanced[2]);
        const float root = std::sqrt(std::min(1.0f, std::max(0.0f, y)));
        out[k] = table[static_cast<std::size_t>(k)][static_cast<std::size_t>(root * last + 0.5f)];
      }
      if (encoded_saturation != 1 || vibrance != 0) {
        const float luma = 0.299f * out[0] + 0.587f * out[1] + 0.114f * out[2];
        const float chroma = std::max({out[0], out[1], out[2]}) - std::min({out[0], out[1], out[2]});
        const float s = encoded_saturation + vibrance * (1 - chroma) * (1 - chroma);
        for (float& v : out) v = luma + s * (v - luma);
      }
      p[0] = out[0], p[1] = out[1], p[2] = out[2];
    }
  }
  if (settings.sharpening > 0) sharpen(picture, static_cast<float>(settings.sharpening));
  Image8 result(picture.rows, picture.columns, 3);
  for (std::size_t i = 0; i < result.data.size(); ++i)
    result.data[i] = static_cast<std::uint8_t>(std::clamp(picture.data[i], 0.0f, 1.0f) * 255.0f + 0.5f);
  return result;
}

}  // namespace colorlib::scenes
