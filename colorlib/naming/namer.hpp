#pragma once
/// The words for one colour: Munsell notation, block name with probability, trade terms.

#include <colorlib/base/result.hpp>
#include <colorlib/colorimetry/color_types.hpp>
#include <colorlib/naming/color_names.hpp>
#include <colorlib/naming/munsell_renotation.hpp>
#include <colorlib/naming/tolerance.hpp>
#include <colorlib/naming/trade_terms.hpp>
#include <filesystem>
#include <memory>
#include <optional>
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
  std::string munsell;                       ///< e.g. "8.2YR 5.1/5.5", "N 5.2"
  bool outside_renotation = false;           ///< beyond the published data: notation is the nearest edge's
  NameShare name;                            ///< the most probable block name of the level asked for
  std::vector<NameShare> alternatives;       ///< other names down to 5 %, most probable first
  double margin_de00 = 0;                    ///< to the nearest colour of another name than `name`
  std::vector<std::string> trade_terms;      ///< zero, one or two, nearest first
  std::vector<std::string> deposit_classes;  ///< of these terms, in the same order, none twice
  double de00_expanded = 0;                  ///< 95 % quantile of dE00(truth, reading); 0 for an exact colour
};

/// Names less likely than this are not listed.
inline constexpr double least_listed_probability = 0.05;

struct NamingOptions {
  NameLevel level = NameLevel::full;   ///< the finest: coarser names follow from it, not the other way
  TermKind terms = TermKind::deposit;  ///< most readings are deposits
};

/// The answer to "is this colour TERM?".
struct TermAnswer {
  std::string term;
  std::string kind;        ///< "block name", "deposit term", "bruise term", "reaction term", "deposit class"
  double probability = 0;  ///< that the colour may be called so
  double de00 = 0;         ///< to the term's center (its nearest one), or to the name's region
  double tolerance_de00 = 0;  ///< around the center; 0 for a block name, which is a region
  Answer answer = Answer::undecided;
};

/// Holds the tables; built once, shared, thread-safe when const.
class Namer {
 public:
  /// Reads `folder`/reference tables. Errors: unreadable_table.
  static Result<Namer> load(const std::filesystem::path& folder);
  /// `lab` D50, 2 degree; `covariance` of (L*, a*, b*): zero matrix for an exact colour.
  /// A colour that is not finite gets an empty description, outside the renotation.
  ColorDescription describe(const Lab& lab, const Matrix3& covariance) const;
  ColorDescription describe(const Lab& lab, const Matrix3& covariance, const NamingOptions& options) const;

  /// Every name of `level` with a colour within `tolerance_de00` of `lab`, nearest first, the own name at 0.
  /// The probabilities are not filled.
  std::vector<NameShare> names_within(const Lab& lab, double tolerance_de00, NameLevel level) const;

  /// Whether a colour may be called `term`: a trade term (of `kind`, if said), a deposit class, or a block
  /// name of any level, looked up in this order, in American spelling. `tolerance_de00` replaces a trade
  /// term's own. A block name stands for its region, whatever the tolerance. Errors: bad_call.
  Result<TermAnswer> answer(const Lab& lab, const Matrix3& covariance, std::string_view term,
                            std::optional<double> tolerance_de00 = std::nullopt,
                            std::optional<TermKind> kind = std::nullopt) const;

  /// The numbers, 1 to 267, of the blocks of many colours (D50, 2 degree), for maps. Exact like `describe`:
  /// no grid stands between. Shape: as many as `colors`; a colour that is not finite gets the block of N 0.
  std::vector<int> blocks_of(const std::vector<Lab>& colors) const;

  const MunsellRenotation& renotation() const;
  const ColorNames& names() const;
  const TradeTerms& trade_terms() const;

 private:
  struct Tables;
  std::shared_ptr<const Tables> tables_;
};

}  // namespace colorlib
