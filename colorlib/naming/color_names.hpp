#pragma once
/// The block names of NBS Special Publication 440: which name a Munsell colour bears, at three levels.

#include <array>
#include <colorlib/base/result.hpp>
#include <colorlib/naming/munsell.hpp>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace colorlib {

/// How finely a colour is named: 13 broad names, 29, or all 267.
enum class NameLevel { broad = 1, middle = 2, full = 3 };

/// One box of Munsell space that bears a name; begin <= x < end in all three.
struct NameCell {
  int number = 0;                         ///< of the block, 1 to 267
  double hue_begin = 0, hue_width = 0;    ///< steps; the begin in [0, 100)
  double value_begin = 0, value_end = 0;  ///< at most 10.001, so that value 10 is inside
  double chroma_begin = 0, chroma_end = 0;
};

/// Ranges that follow each other from 0 on, given by their upper ends.
class NumberSteps {
 public:
  NumberSteps() = default;
  /// `ends` need not be sorted; those at or below 0 do not count.
  explicit NumberSteps(std::vector<double> ends);
  std::size_t size() const { return ends_.size(); }
  double end(std::size_t step) const { return ends_[step]; }
  /// The step that holds `x`, lower end in, upper end out; the first or last beyond.
  std::size_t at(double x) const {
    const double bin = x * bins_by_unit_;
    std::size_t step =
        bin > 0 ? first_step_[bin < last_bin_ ? static_cast<std::size_t>(bin) : first_step_.size() - 1] : 0;
    while (step + 1 < ends_.size() && x >= ends_[step]) ++step;
    return step;
  }

 private:
  static constexpr double bins_by_unit_ = 4;
  double last_bin_ = 0;
  std::vector<double> ends_;
  std::vector<std::uint8_t> first_step_;  ///< the step at each bin's lower end
};

/// The naming system: boxes that fill Munsell space without gap or overlap, and their names.
/// Names are written as published: American spelling, lower case ("light grayish yellowish brown").
class ColorNames {
 public:
  static constexpr int blocks = 267;
  /// Beyond every colour: stands for the publication's open upper ends.
  static constexpr double open_chroma = 60, open_value = 10.001;

  /// Reads `block_names.csv` and `blocks.csv`, and checks that every place has exactly one name.
  /// Errors: unreadable_table.
  static Result<ColorNames> load(const std::filesystem::path& names_file,
                                 const std::filesystem::path& blocks_file);

  /// The number, 1 to 267, of the block that holds `munsell`. Every Munsell colour has one; a hue that means
  /// nothing (neutral) is looked up like any other, since the neutral column is the same at every hue.
  int block_of(const Munsell& munsell) const;

  /// The name of a block at a level.
  const std::string& name(int block, NameLevel level) const {
    return names_at(level)[name_index(block, level)];
  }
  /// All names of a level, in the order of their first block; 13, 29 or 267.
  const std::vector<std::string>& names_at(NameLevel level) const { return names_[place(level)]; }
  /// The place of a block's name in names_at(level).
  std::size_t name_index(int block, NameLevel level) const {
    return index_[place(level)][static_cast<std::size_t>(block - 1)];
  }
  /// The place of a name in names_at(level), if it is one.
  std::optional<std::size_t> find(std::string_view name, NameLevel level) const;
  /// The published abbreviation, e.g. "m.Br".
  const std::string& abbreviation(int block) const {
    return abbreviations_[static_cast<std::size_t>(block - 1)];
  }
  /// All boxes; a block may own several.
  const std::vector<NameCell>& cells() const { return cells_; }

 private:
  static std::size_t place(NameLevel level) { return static_cast<std::size_t>(level) - 1; }
  Result<std::monostate> read_names(const std::filesystem::path& file);
  Result<std::monostate> read_cells(const std::filesystem::path& file);
  Result<std::monostate> fill_grid(const std::string& file_name);

  std::array<std::vector<std::string>, 3> names_;
  std::array<std::vector<std::size_t>, 3> index_;
  std::vector<std::string> abbreviations_;
  std::vector<NameCell> cells_;
  // Elementary boxes: chart (a range of hue) x value step x chroma step -> block number.
  std::array<std::uint8_t, 100> chart_of_hue_{};
  NumberSteps values_, chromas_;
  std::vector<std::uint16_t> grid_;
};

}  // namespace colorlib
