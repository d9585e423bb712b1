#pragma once
/// The words for one colour: Munsell notation, block name with probability, trade terms.

#include <colorlib/base/result.hpp>
#include <colorlib/colorimetry/color_types.hpp>
#include <filesystem>
#include <memory>
#include <string>
#include <vector>

namespace colorlib {

/// One candidate name and how likely it is.
struct NameShare {
  std::string name;
  double probability = 0;  ///< share of the reading's distribution inside the name's blocks, [0, 1]
  double de00 = 0;         ///< from the reading to the nearest colour that bears the name; 0 inside
};

/// Everything said about one colour.
struct ColorDescription {
  std::string munsell;                  ///< e.g. "8.2YR 5.1/5.5", "N 5.2"
  bool outside_renotation = false;      ///< beyond the published data: notation is the nearest edge's
  NameShare name;                       ///< the most probable block name, third level
  std::vector<NameShare> alternatives;  ///< other names down to 5 %, most probable first
  double margin_de00 = 0;               ///< to the nearest colour of another name
  std::vector<std::string> trade_terms; ///< zero, one or two, nearest first
};

/// Holds the tables; built once, shared, thread-safe when const.
class Namer {
 public:
  /// Reads `folder`/reference tables. Errors: unreadable_table.
  static Result<Namer> load(const std::filesystem::path& folder);
  /// `lab` D50, 2 degree; `covariance` of (L*, a*, b*): zero matrix for an exact colour.
  ColorDescription describe(const Lab& lab, const Matrix3& covariance) const;

 private:
  struct Tables;
  std::shared_ptr<const Tables> tables_;
};

}  // namespace colorlib
