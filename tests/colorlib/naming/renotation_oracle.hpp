#pragma once
/// A second way from CIELAB to Munsell and to a block, that shares nothing with the product but the tables.
///
/// The product: polar CIELAB of illuminant C, straight interpolation in polar coordinates, Newton's search.
/// Here: its own reading of the files; LittleCMS for the adaptation to C; CIELUV coordinates; cubic curves
/// through the chips in rectangular coordinates along hue and along chroma; the value by bisection of the
/// polynomial of ASTM D1535; hue and chroma by looking at a lattice and then halving steps around the best
/// point; blocks by walking through all rows.

#include <colorlib/colorimetry/color_types.hpp>
#include <colorlib/naming/munsell.hpp>
#include <filesystem>
#include <map>
#include <utility>
#include <vector>

namespace colorlib {

class RenotationOracle {
 public:
  /// In which coordinates the way from one value plane to the next is straight. CIELAB is the product's rule,
  /// as docs/explanation/names.md states it; x, y is how tables are often used; nobody's publication decides.
  enum class AlongValue { cielab, cieluv, chromaticity };
  /// Throws when a file cannot be read: a test's own mistake.
  RenotationOracle(const std::filesystem::path& renotation_file, const std::filesystem::path& blocks_file,
                   AlongValue along_value = AlongValue::cielab);

  /// `lab` D50, 2 degree.
  Munsell munsell_from_lab(const Lab& lab) const;
  /// The number of the block.
  int block_of(const Munsell& munsell) const;

 private:
  struct Point {
    double u = 0, v = 0;
  };
  struct Row {
    int number;
    double hue_begin, hue_end, chroma_begin, chroma_end, value_begin, value_end;
  };
  /// CIELUV u*, v* (illuminant C) at a hue and a chroma on plane `plane`.
  Point on_plane(std::size_t plane, double hue_step, double chroma) const;
  Point at(double hue_step, double chroma, double value) const;

  AlongValue along_value_;

  std::vector<double> values_;
  /// Chips by plane: [plane][hue 0..39][ring 0..n], ring 0 the neutral; as many rings as the table has.
  std::vector<std::vector<std::vector<Point>>> planes_;
  std::vector<Row> rows_;
};

}  // namespace colorlib
