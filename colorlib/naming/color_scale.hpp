#pragma once
/// A user's own scale: a file of named colours, such as the measured plate of a monograph.

#include <colorlib/base/result.hpp>
#include <colorlib/colorimetry/color_types.hpp>
#include <colorlib/naming/tolerance.hpp>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace colorlib {

class MunsellRenotation;

/// One named colour of a scale.
struct ScaleEntry {
  std::string name;
  Lab lab;                    ///< D50, 2 degree
  double tolerance_de00 = 0;  ///< within it a colour may be called by this name
  std::size_t line = 0;       ///< in the file, counted from 1
};

/// An entry beside a reading.
struct ScaleMatch {
  std::string entry;
  double de00 = 0;                 ///< from the reading to the entry
  double tolerance_de00 = 0;       ///< the entry's
  double nearest_probability = 0;  ///< that this entry is the nearest one to the true colour, [0, 1]
  double within_probability = 0;   ///< that the true colour lies within the entry's tolerance
  Answer within = Answer::undecided;
};

/// What a scale says about one colour.
struct ScaleAnswer {
  std::string scale;
  std::vector<ScaleMatch> matches;  ///< the nearest entry, then others that are nearest with 5 % or more
};

class ColorScale {
 public:
  static constexpr std::size_t limit_entries = 5000;

  /// Reads CSV (also `;` or tab) with the columns `name` and `L`, `a`, `b` or `munsell`, optionally
  /// `tolerance_de00` and anything else; or CGATS text with SAMPLE_NAME or SAMPLE_ID and LAB_L, LAB_A, LAB_B.
  /// Column names in any case. Colours are D50, 2 degree, unless the file states another illuminant (A, C,
  /// D55, D65) in a comment line "# illuminant: D65" or in WEIGHTING_FUNCTION: then they are adapted by
  /// Bradford. `tolerance_de00` serves entries that state none. Errors: unreadable_table, naming the line: no
  /// name, no number, L* outside 0 to 110, a* or b* beyond 150, an unusable illuminant, a 10 degree observer,
  /// no entry, more than the limit. A name that is there twice is taken (check_scale finds it).
  static Result<ColorScale> load(const std::filesystem::path& file, const MunsellRenotation& renotation,
                                 double tolerance_de00 = default_tolerance_de00);
  static Result<ColorScale> parse(std::string_view text, std::string name,
                                  const MunsellRenotation& renotation,
                                  double tolerance_de00 = default_tolerance_de00);

  /// The file's name without extension.
  const std::string& name() const { return name_; }
  const std::vector<ScaleEntry>& entries() const { return entries_; }
  /// What was done to the values, e.g. "adapted from D65 to D50 by Bradford"; empty: taken as written.
  const std::string& remark() const { return remark_; }
  const ScaleEntry* find(std::string_view entry) const;

  /// The entries beside a colour; `distribution` is that of the reading (see distribution_of).
  ScaleAnswer answer(const Lab& lab, const std::vector<Lab>& distribution) const;

 private:
  std::string name_, remark_;
  std::vector<ScaleEntry> entries_;
};

}  // namespace colorlib
