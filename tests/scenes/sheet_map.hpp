#pragma once
/// Which material lies where in the sheet's plane, fast for whole areas and exact at edges. Words are drawn
/// as dashes.

#include <colorlib/chart/chart_definition.hpp>
#include <cstdint>
#include <vector>

namespace colorlib::scenes {

/// What a place shows. Patches follow from `first_patch`, backings from `first_patch` + patch count.
struct Material {
  static constexpr std::uint16_t table = 0, paper = 1, marker_ink = 2, window = 3, window_right = 4,
                                 first_patch = 5;
};

/// A rectangle painted over what came before.
struct PaintedRectangle {
  RectangleMm place;
  std::uint16_t material = 0;
};

class SheetMap {
 public:
  /// `split_windows`: the right half of each window is `window_right`.
  SheetMap(const ChartDefinition& chart, bool split_windows);

  static constexpr std::uint16_t mixed = 0xffff;
  /// The material when it is the same within one cell (0.25 mm) of `p`, else `mixed`.
  std::uint16_t uniform_at(double x_mm, double y_mm) const {
    const int column = static_cast<int>((x_mm + margin_mm) * cells_per_mm),
              row = static_cast<int>((y_mm + margin_mm) * cells_per_mm);
    if (x_mm < -margin_mm || y_mm < -margin_mm || column >= columns_ || row >= rows_) return Material::table;
    return cell_[static_cast<std::size_t>(row) * static_cast<std::size_t>(columns_) +
                 static_cast<std::size_t>(column)];
  }
  /// The material exactly at a point.
  std::uint16_t exactly_at(double x_mm, double y_mm) const;

  /// Marks the cells within `radius_mm` of a centre as belonging to specimen `index`.
  void mark_specimen(int index, double x_mm, double y_mm, double radius_mm);
  /// Index of the specimen that may lie there, or -1.
  int specimen_at(double x_mm, double y_mm) const {
    const int column = static_cast<int>((x_mm + margin_mm) * cells_per_mm),
              row = static_cast<int>((y_mm + margin_mm) * cells_per_mm);
    if (x_mm < -margin_mm || y_mm < -margin_mm || column >= columns_ || row >= rows_) return -1;
    return static_cast<int>(specimen_[static_cast<std::size_t>(row) * static_cast<std::size_t>(columns_) +
                                      static_cast<std::size_t>(column)]) -
           1;
  }

 private:
  static constexpr double margin_mm = 1, cells_per_mm = 4, bucket_mm = 4;

  void paint_text(const PrintedText& text);
  void paint(const PaintedRectangle& rectangle);
  void spread_mixed();

  double width_mm_ = 0, height_mm_ = 0;  ///< of all that is painted; from the sheet's origin
  int columns_ = 0, rows_ = 0, bucket_columns_ = 0;
  std::vector<std::uint16_t> cell_;
  std::vector<std::uint8_t> specimen_;
  std::vector<PaintedRectangle> rectangles_;
  std::vector<std::vector<int>> buckets_;
};

}  // namespace colorlib::scenes
