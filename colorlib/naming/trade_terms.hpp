#pragma once
/// The words of the trade for deposits, bruises and reactions ("cream", "rust"), as regions of colour.

#include <colorlib/base/result.hpp>
#include <colorlib/colorimetry/color_types.hpp>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace colorlib {

/// What a term is said of.
enum class TermKind { deposit, bruise, reaction };
std::string_view term_kind_word(TermKind kind);

/// One word: every colour within `tolerance_de00` of `center` may be called so. Terms overlap on purpose.
/// The figures are the project's own proposal; none are published.
struct TradeTerm {
  std::string term;  ///< lower case, American spelling
  TermKind kind = TermKind::deposit;
  std::string deposit_class;  ///< of deposits: one of the five classical ones, or empty
  Lab center;                 ///< D50, 2 degree
  double tolerance_de00 = 0;
  std::string note;  ///< where word and figures come from
};

/// One of the five classical divisions by the color of the spores in mass.
struct DepositClass {
  std::string name, group, note;
};

/// A term that fits a colour.
struct TermMatch {
  const TradeTerm* term = nullptr;
  double de00 = 0;  ///< from the colour to the term's center
};

class TradeTerms {
 public:
  /// Reads `trade_terms.csv` and `deposit_classes.csv`. Errors: unreadable_table.
  static Result<TradeTerms> load(const std::filesystem::path& terms_file,
                                 const std::filesystem::path& classes_file);

  /// The terms of `kind` whose tolerance `lab` (D50, 2 degree) keeps, nearest first. Empty: no trade term
  /// within tolerance.
  std::vector<TermMatch> matches(const Lab& lab, TermKind kind) const;
  /// The term of this name; the first of any kind when `kind` is not said.
  const TradeTerm* find(std::string_view term, std::optional<TermKind> kind = std::nullopt) const;
  const DepositClass* find_class(std::string_view name) const;

  const std::vector<TradeTerm>& terms() const { return terms_; }
  const std::vector<DepositClass>& classes() const { return classes_; }

 private:
  std::vector<TradeTerm> terms_;
  std::vector<DepositClass> classes_;
};

}  // namespace colorlib
