#include <algorithm>
#include <colorlib/image/block_means_internal.hpp>
#include <colorlib/image/photo.hpp>
#include <colorlib/image/value_tables_internal.hpp>
#include <limits>
#include <type_traits>

namespace colorlib {
namespace {

PixelRectangle clipped(const PixelRectangle& r, int width, int height) {
  const auto limit = [](std::int64_t v, int top) {
    return static_cast<int>(std::clamp<std::int64_t>(v, 0, top));
  };
  const int left = limit(r.left, width), top = limit(r.top, height);
  const int right = limit(static_cast<std::int64_t>(r.left) + std::max(r.width, 0), width);
  const int bottom = limit(static_cast<std::int64_t>(r.top) + std::max(r.height, 0), height);
  if (right <= left || bottom <= top) return {};
  return {left, top, right - left, bottom - top};
}

/// `value_of(channel, stored value)` over the rectangle.
template <class T, class ValueOf>
ImageF mapped(const Image<T>& pixels, const PixelRectangle& r, const ValueOf& value_of) {
  ImageF out(r.height, r.width, 3);
  for (int row = 0; row < r.height; ++row) {
    const T* in = pixels.at(r.top + row, r.left);
    float* to = out.at(row, 0);
    for (int column = 0; column < r.width; ++column, in += 3, to += 3) {
      to[0] = value_of(0, in[0]);
      to[1] = value_of(1, in[1]);
      to[2] = value_of(2, in[2]);
    }
  }
  return out;
}

/// Grey of linear pixels at full scale, for the quantile.
template <class T>
double linear_level(const Image<T>& pixels, double full_scale) {
  // About 65 000 pixels on an even grid: their 99 % quantile is within 0.1 % of rank of the whole photo's.
  const auto count = static_cast<std::size_t>(pixels.rows) * static_cast<std::size_t>(pixels.columns);
  const std::size_t step = std::max<std::size_t>(1, count / 65521);
  std::vector<float> levels;
  levels.reserve(count / step + 1);
  for (std::size_t i = 0; i < count; i += step) {
    const T* p = pixels.data.data() + 3 * i;
    levels.push_back(static_cast<float>((0.25 * p[0] + 0.5 * p[1] + 0.25 * p[2]) / full_scale));
  }
  if (levels.empty()) return 0;
  const auto rank = levels.begin() + static_cast<std::ptrdiff_t>((levels.size() - 1) * 99 / 100);
  std::nth_element(levels.begin(), rank, levels.end());
  return *rank;
}

double quantile_99(const Photo::Store& store) {
  if (const auto* p8 = std::get_if<Image8>(&store)) return linear_level(*p8, 255);
  if (const auto* p16 = std::get_if<Image16>(&store)) return linear_level(*p16, 65535);
  return linear_level(std::get<ImageF>(store), 1);
}

}  // namespace

struct Photo::Tables {
  ValueTables values;
  double grey_gain = 1;  ///< of linear photos only
};

Photo::Photo(Store pixels, PhotoEncoding encoding, CaptureMetadata capture, std::string name)
    : pixels_(std::move(pixels)),
      encoding_(std::move(encoding)),
      capture_(std::move(capture)),
      name_(std::move(name)) {
  auto tables = std::make_shared<Tables>();
  if (encoding_.kind == EncodingKind::display_referred) {
    const int levels = std::holds_alternative<Image8>(pixels_)    ? 256
                       : std::holds_alternative<Image16>(pixels_) ? 65536
                                                                  : 0;
    tables->values = value_tables(encoding_.to_srgb_curve, levels);
  } else if (const double level = quantile_99(pixels_); level > 1e-6) {
    tables->grey_gain = (230.0 / 255.0) / level;
  }
  tables_ = std::move(tables);
}

int Photo::width_px() const {
  return std::visit([](const auto& image) { return image.columns; }, pixels_);
}
int Photo::height_px() const {
  return std::visit([](const auto& image) { return image.rows; }, pixels_);
}

ImageF Photo::encoded(const PixelRectangle& rectangle) const {
  const auto r = clipped(rectangle, width_px(), height_px());
  if (r.width == 0) return {};
  const bool display = encoding_.kind == EncodingKind::display_referred;
  if (const auto* p16 = std::get_if<Image16>(&pixels_);
      p16 && (!display || tables_->values.encoded[0].empty()))
    return mapped(*p16, r, [](int, std::uint16_t v) { return static_cast<float>(v) * (1.f / 65535.f); });
  if (const auto* p16 = std::get_if<Image16>(&pixels_))
    return mapped(*p16, r,
                  [t = tables_->values.encoded_tables()](int k, std::uint16_t v) { return t[k][v]; });
  if (const auto* p8 = std::get_if<Image8>(&pixels_)) {
    if (!display || tables_->values.encoded[0].empty())
      return mapped(*p8, r, [](int, std::uint8_t v) { return static_cast<float>(v) * (1.f / 255.f); });
    return mapped(*p8, r, [t = tables_->values.encoded_tables()](int k, std::uint8_t v) { return t[k][v]; });
  }
  const auto& floats = std::get<ImageF>(pixels_);
  if (!display || encoding_.to_srgb_curve[0].empty())
    return mapped(floats, r, [](int, float v) { return v; });
  return mapped(floats, r, [this](int k, float v) {
    return curve_value(encoding_.to_srgb_curve[static_cast<std::size_t>(k)], v);
  });
}

Vector3 Photo::encoded_at(int column, int row) const {
  const bool curved = encoding_.kind == EncodingKind::display_referred && !encoding_.to_srgb_curve[0].empty();
  Vector3 value{};
  std::visit(
      [&](const auto& image) {
        const auto* pixel = image.at(row, column);
        using Value = std::remove_cvref_t<decltype(pixel[0])>;
        constexpr double full_scale = std::is_same_v<Value, float> ? 1.0 : std::numeric_limits<Value>::max();
        for (std::size_t k = 0; k < 3; ++k) {
          value[k] = pixel[k] / full_scale;
          if (curved) value[k] = curve_value(encoding_.to_srgb_curve[k], static_cast<float>(value[k]));
        }
      },
      pixels_);
  return value;
}

ImageF Photo::linear(const PixelRectangle& rectangle) const {
  if (encoding_.kind == EncodingKind::linear_sensor) return encoded(rectangle);
  const auto r = clipped(rectangle, width_px(), height_px());
  if (r.width == 0) return {};
  if (const auto* p16 = std::get_if<Image16>(&pixels_))
    return mapped(*p16, r, [t = tables_->values.linear_tables()](int k, std::uint16_t v) { return t[k][v]; });
  if (const auto* p8 = std::get_if<Image8>(&pixels_))
    return mapped(*p8, r, [t = tables_->values.linear_tables()](int k, std::uint8_t v) { return t[k][v]; });
  ImageF out = encoded(r);
  for (float& v : out.data) v = linear_from_srgb_fast(v);
  return out;
}

Image8 Photo::linear_grey(const PixelRectangle& rectangle, int block) const {
  const auto r = clipped(rectangle, width_px(), height_px());
  block = std::max(block, 1);
  if (r.width < block || r.height < block) return {};
  const bool display = encoding_.kind == EncodingKind::display_referred;
  const double gain = tables_->grey_gain;
  const std::uint32_t* t = tables_->values.grey.data();
  constexpr int size_8 = 256, size_16 = grey_table_size_16;
  if (const auto* p8 = std::get_if<Image8>(&pixels_)) {
    if (!display)
      return block_means<std::uint64_t>(*p8, r, block, gain / 4,
                                        [](const std::uint8_t* p) { return p[0] + 2u * p[1] + p[2]; });
    return block_means<std::uint64_t>(*p8, r, block, 255 / grey_table_scale, [t](const std::uint8_t* p) {
      return t[p[0]] + t[size_8 + p[1]] + t[2 * size_8 + p[2]];
    });
  }
  if (const auto* p16 = std::get_if<Image16>(&pixels_)) {
    if (!display)
      return block_means<std::uint64_t>(*p16, r, block, gain * 255 / (4 * 65535.0),
                                        [](const std::uint16_t* p) { return p[0] + 2u * p[1] + p[2]; });
    return block_means<std::uint64_t>(*p16, r, block, 255 / grey_table_scale, [t](const std::uint16_t* p) {
      return t[p[0] >> 4] + t[size_16 + (p[1] >> 4)] + t[2 * size_16 + (p[2] >> 4)];
    });
  }
  const auto& floats = std::get<ImageF>(pixels_);
  if (!display)
    return block_means<double>(floats, r, block, gain * 255,
                               [](const float* p) { return 0.25 * p[0] + 0.5 * p[1] + 0.25 * p[2]; });
  const auto light = [&curve = encoding_.to_srgb_curve](std::size_t k, float v) {
    return linear_from_srgb_fast(curve[k].empty() ? v : curve_value(curve[k], v));
  };
  return block_means<double>(floats, r, block, 255, [&light](const float* p) {
    return 0.25 * light(0, p[0]) + 0.5 * light(1, p[1]) + 0.25 * light(2, p[2]);
  });
}

}  // namespace colorlib
