#include <algorithm>
#include <cmath>
#include <tests/colorlib/video/filmed_series.hpp>
#include <tests/colorlib/video/video_files.hpp>
#include <tests/support/eight_bit.hpp>

namespace colorlib {
namespace {

/// The middle rows of a picture, moved by whole pixels.
Image8 part_of(const Image8& picture, int height, int dx, int dy) {
  Image8 part(height, picture.columns, 3);
  for (int r = 0; r < height; ++r)
    for (int c = 0; c < picture.columns; ++c)
      std::copy_n(picture.at(std::clamp(r + (picture.rows - height) / 2 + dy, 0, picture.rows - 1),
                             std::clamp(c + dx, 0, picture.columns - 1)),
                  3, part.at(r, c));
  return part;
}

void blend(const Image8& a, const Image8& b, double share, Image8& out) {
  const int weight = static_cast<int>(std::lround(256 * share));
  for (std::size_t i = 0; i < out.data.size(); ++i)
    out.data[i] = static_cast<std::uint8_t>((a.data[i] * (256 - weight) + b.data[i] * weight + 128) >> 8);
}

void cover_left(Image8& picture) {
  for (int r = 0; r < picture.rows; ++r)
    std::fill_n(picture.at(r, 0), picture.columns / 3 * 3, std::uint8_t{90});  // a third of the width
}

}  // namespace

void film_series(const std::filesystem::path& path, const scenes::SeriesScene& series,
                 const FilmSettings& film) {
  std::vector<Image8> pictures;
  for (std::size_t i = 0; i < series.frames(); ++i) pictures.push_back(eight_bit(series.frame(i).photo));
  const auto& at = series.settings().seconds;
  VideoFileSettings settings;
  settings.width_px = pictures[0].columns;
  settings.height_px = film.height_px > 0 ? film.height_px : pictures[0].rows;
  settings.quality = film.quality;
  VideoWriter writer(path, settings);
  Image8 mixed(pictures[0].rows, pictures[0].columns, 3);
  for (int i = 0; i < static_cast<int>(film.length_s * film.rate); ++i) {
    const double film_s = static_cast<double>(i) / film.rate + (i % 10 == 9 ? 0.2 / film.rate : 0),
                 t = at.front() + film_s;
    std::size_t next = 1;
    while (next + 1 < at.size() && at[next] < t) ++next;
    const double share = std::clamp((t - at[next - 1]) / (at[next] - at[next - 1]), 0.0, 1.0);
    blend(pictures[next - 1], pictures[next], share, mixed);
    const int dx = static_cast<int>(std::lround(film.tremor_px * std::sin(0.11 * i))),
              dy = static_cast<int>(std::lround(film.tremor_px * std::cos(0.07 * i)));
    Image8 part = part_of(mixed, settings.height_px, dx, dy);
    if (film.covered_s && film_s >= film.covered_s->first && film_s < film.covered_s->second)
      cover_left(part);
    writer.add(part, std::lround(1000 * film_s));
  }
  writer.finish();
}

}  // namespace colorlib
