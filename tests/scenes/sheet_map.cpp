#include "tests/scenes/sheet_map.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "tests/scenes/random.hpp"

extern "C" {
#include <apriltag/apriltag.h>
#include <apriltag/common/image_u8.h>
#include <apriltag/tag36h11.h>
}

namespace colorlib::scenes {
namespace {

/// The black runs of a tag as rectangles, 8 x 8 cells of its black square; upright as the library draws it.
std::vector<PaintedRectangle> marker_cells(const Marker& marker) {
  apriltag_family_t* family = tag36h11_create();
  if (marker.id < 0 || marker.id >= static_cast<int>(family->ncodes)) {
    tag36h11_destroy(family);
    throw std::runtime_error("no such tag36h11 id: " + std::to_string(marker.id));
  }
  image_u8_t* image = apriltag_to_image(family, static_cast<std::uint32_t>(marker.id));
  std::vector<PaintedRectangle> runs;
  const double cell_mm = marker.side_mm / 8;
  for (int row = 1; row < 9; ++row)
    for (int column = 1; column < 9;) {
      const auto black = [&](int c) { return c < 9 && image->buf[row * image->stride + c] < 128; };
      int end = column;
      while (black(end)) ++end;
      if (end > column)
        runs.push_back({{marker.x_mm + (column - 1) * cell_mm, marker.y_mm + (row - 1) * cell_mm,
                         (end - column) * cell_mm, cell_mm},
                        Material::marker_ink});
      column = end + 1;
    }
  image_u8_destroy(image);
  tag36h11_destroy(family);
  return runs;
}

}  // namespace

SheetMap::SheetMap(const ChartDefinition& chart, bool split_windows)
    : width_mm_(chart.width_mm), height_mm_(chart.height_mm) {
  // Grounds may lie beside the sheet.
  for (const ChartWindow& window : chart.windows) {
    width_mm_ = std::max(width_mm_, window.place.x + window.place.width);
    height_mm_ = std::max(height_mm_, window.place.y + window.place.height);
  }
  columns_ = static_cast<int>(std::ceil((width_mm_ + 2 * margin_mm) * cells_per_mm));
  rows_ = static_cast<int>(std::ceil((height_mm_ + 2 * margin_mm) * cells_per_mm));
  cell_.assign(static_cast<std::size_t>(columns_) * static_cast<std::size_t>(rows_), Material::table);
  specimen_.assign(cell_.size(), 0);
  bucket_columns_ = static_cast<int>(std::ceil(width_mm_ / bucket_mm)) + 1;
  buckets_.resize(static_cast<std::size_t>(bucket_columns_) *
                  static_cast<std::size_t>(std::ceil(height_mm_ / bucket_mm) + 1));

  paint({{0, 0, chart.width_mm, chart.height_mm}, Material::paper});
  for (const PrintedText& text : chart.texts) paint_text(text);
  for (const Marker& marker : chart.markers)
    for (const PaintedRectangle& run : marker_cells(marker)) paint(run);
  for (const ChartWindow& window : chart.windows) {
    paint({window.place, Material::window});
    if (split_windows) {
      RectangleMm half = window.place;
      half.x += half.width /= 2;
      paint({half, Material::window_right});
    }
  }
  std::uint16_t id = Material::first_patch;
  for (const Patch& patch : chart.patches) paint({patch.place, id++});
  for (const Backing& backing : chart.backings) paint({backing.place, id++});
  spread_mixed();
}

void SheetMap::paint_text(const PrintedText& text) {
  const RectangleMm& p = text.place;
  if (text.kind == PrintedTextKind::ruler) {
    for (int mm = 0; mm <= static_cast<int>(p.width); ++mm) {
      const double length = (mm % 10 == 0 ? 0.8 : mm % 5 == 0 ? 0.6 : 0.4) * p.height;
      paint({{p.x + mm - 0.06, p.y + p.height - length, 0.12, length}, Material::marker_ink});
    }
    return;
  }
  // Lines of words: dashes as long as words, as high as their strokes are dense.
  Random random(static_cast<std::uint64_t>(p.x * 100 + p.y), 17);
  for (double y = p.y + 0.7; y < p.y + p.height - 0.4; y += 1.7)
    for (double x = p.x; x < p.x + p.width - 1;) {
      const double word = std::min(random.uniform(1.2, 5), p.x + p.width - x);
      paint({{x, y, word, 0.28}, Material::marker_ink});
      x += word + 0.8;
      if (text.kind == PrintedTextKind::fields && x > p.x + 0.4 * p.width) break;
    }
}

void SheetMap::paint(const PaintedRectangle& rectangle) {
  const RectangleMm& p = rectangle.place;
  const int index = static_cast<int>(rectangles_.size());
  rectangles_.push_back(rectangle);
  const double left = (p.x + margin_mm) * cells_per_mm, right = (p.x + p.width + margin_mm) * cells_per_mm;
  const double top = (p.y + margin_mm) * cells_per_mm, bottom = (p.y + p.height + margin_mm) * cells_per_mm;
  for (int row = std::max(0, static_cast<int>(std::floor(top)));
       row < std::min(rows_, static_cast<int>(std::ceil(bottom))); ++row)
    for (int column = std::max(0, static_cast<int>(std::floor(left)));
         column < std::min(columns_, static_cast<int>(std::ceil(right))); ++column) {
      const bool whole = row >= top && row + 1 <= bottom && column >= left && column + 1 <= right;
      cell_[static_cast<std::size_t>(row) * static_cast<std::size_t>(columns_) +
            static_cast<std::size_t>(column)] = whole ? rectangle.material : mixed;
    }
  const int bucket_rows = static_cast<int>(buckets_.size()) / bucket_columns_;
  for (int row = std::max(0, static_cast<int>(p.y / bucket_mm));
       row <= std::min(bucket_rows - 1, static_cast<int>((p.y + p.height) / bucket_mm)); ++row)
    for (int column = std::max(0, static_cast<int>(p.x / bucket_mm));
         column <= std::min(bucket_columns_ - 1, static_cast<int>((p.x + p.width) / bucket_mm)); ++column)
      buckets_[static_cast<std::size_t>(row) * static_cast<std::size_t>(bucket_columns_) +
               static_cast<std::size_t>(column)]
          .push_back(index);
}

void SheetMap::spread_mixed() {
  const auto before = cell_;
  const auto n = static_cast<std::size_t>(columns_);
  for (int row = 0; row < rows_; ++row)
    for (int column = 0; column < columns_; ++column) {
      const std::size_t i = static_cast<std::size_t>(row) * n + static_cast<std::size_t>(column);
      for (int dr = -1; dr <= 1; ++dr)
        for (int dc = -1; dc <= 1; ++dc) {
          const int r = std::clamp(row + dr, 0, rows_ - 1), c = std::clamp(column + dc, 0, columns_ - 1);
          if (before[static_cast<std::size_t>(r) * n + static_cast<std::size_t>(c)] != before[i])
            cell_[i] = mixed;
        }
    }
}

std::uint16_t SheetMap::exactly_at(double x_mm, double y_mm) const {
  if (x_mm < 0 || y_mm < 0 || x_mm > width_mm_ || y_mm > height_mm_) return Material::table;
  // The last painted rectangle that holds the point; the sheet itself is the first of all.
  const auto& bucket =
      buckets_[static_cast<std::size_t>(y_mm / bucket_mm) * static_cast<std::size_t>(bucket_columns_) +
               static_cast<std::size_t>(x_mm / bucket_mm)];
  for (auto index = bucket.rbegin(); index != bucket.rend(); ++index) {
    const PaintedRectangle& r = rectangles_[static_cast<std::size_t>(*index)];
    if (r.place.contains({x_mm, y_mm})) return r.material;
  }
  return Material::table;
}

void SheetMap::mark_specimen(int index, double x_mm, double y_mm, double radius_mm) {
  for (int row = 0; row < rows_; ++row)
    for (int column = 0; column < columns_; ++column) {
      const double x = (column + 0.5) / cells_per_mm - margin_mm, y = (row + 0.5) / cells_per_mm - margin_mm;
      if (std::hypot(x - x_mm, y - y_mm) <= radius_mm + 0.5)
        specimen_[static_cast<std::size_t>(row) * static_cast<std::size_t>(columns_) +
                  static_cast<std::size_t>(column)] = static_cast<std::uint8_t>(index + 1);
    }
}

}  // namespace colorlib::scenes
