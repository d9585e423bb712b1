#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <colorlib/base/reference_table.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/naming/trade_terms.hpp>

namespace colorlib {
namespace {

constexpr double greatest_tolerance_de00 = 20;

std::optional<TermKind> kind_from(std::string_view word) {
  for (const TermKind kind : {TermKind::deposit, TermKind::bruise, TermKind::reaction})
    if (word == term_kind_word(kind)) return kind;
  return std::nullopt;
}

}  // namespace

std::string_view term_kind_word(TermKind kind) {
  switch (kind) {
    case TermKind::deposit:
      return "deposit";
    case TermKind::bruise:
      return "bruise";
    case TermKind::reaction:
      break;
  }
  return "reaction";
}

Result<TradeTerms> TradeTerms::load(const std::filesystem::path& terms_file,
                                    const std::filesystem::path& classes_file) {
  TradeTerms trade;
  const auto classes = ReferenceTable::read(classes_file, "the deposit classes");
  if (!classes) return fail(classes.error());
  const auto class_columns = classes->require({"class", "group", "note"});
  if (!class_columns) return fail(class_columns.error());
  for (std::size_t row = 0; row < classes->rows(); ++row)
    trade.classes_.push_back({classes->text(row, (*class_columns)[0]),
                              classes->text(row, (*class_columns)[1]),
                              classes->text(row, (*class_columns)[2])});

  const auto table = ReferenceTable::read(terms_file, "the trade terms");
  if (!table) return fail(table.error());
  const auto columns =
      table->require({"term", "kind", "deposit_class", "L", "a", "b", "tolerance_de00", "note"});
  if (!columns) return fail(columns.error());
  for (std::size_t row = 0; row < table->rows(); ++row) {
    const auto refused = [&](const std::string& found, const char* advice) {
      return fail(
          ErrorCode::unreadable_table,
          fmt::format("Reading the trade terms '{}', line {}: {}.", table->name(), table->line(row), found),
          advice);
    };
    TradeTerm term;
    term.term = table->text(row, (*columns)[0]);
    term.deposit_class = table->text(row, (*columns)[2]);
    term.note = table->text(row, (*columns)[7]);
    const auto kind = kind_from(table->text(row, (*columns)[1]));
    if (!kind) return refused("the kind is none of deposit, bruise, reaction", "Write one of the three.");
    term.kind = *kind;
    if (term.term.empty()) return refused("the term is missing", "Write the word in the first column.");
    if (trade.find(term.term, term.kind) != nullptr)
      return refused(fmt::format("'{}' is there twice", term.term), "Keep one row for a word and a kind.");
    if (!term.deposit_class.empty() && trade.find_class(term.deposit_class) == nullptr)
      return refused(fmt::format("'{}' is no deposit class", term.deposit_class),
                     "Use a class of deposit_classes.csv.");
    std::array<double, 4> number{};
    for (std::size_t i = 0; i < 4; ++i) {
      const auto read = table->number(row, (*columns)[i + 3]);
      if (!read) return fail(read.error());
      number[i] = *read;
    }
    term.center = {number[0], number[1], number[2]};
    term.tolerance_de00 = number[3];
    if (!(term.center.l >= 0 && term.center.l <= 100))
      return refused("L is not within 0 to 100", "Write CIELAB relative to D50, 2 degree.");
    if (!(term.tolerance_de00 > 0 && term.tolerance_de00 <= greatest_tolerance_de00))
      return refused("the tolerance is not within 0 to 20", "Write a difference in CIEDE2000.");
    trade.terms_.push_back(std::move(term));
  }
  return trade;
}

std::vector<TermMatch> TradeTerms::matches(const Lab& lab, TermKind kind) const {
  std::vector<TermMatch> found;
  for (const auto& term : terms_) {
    if (term.kind != kind) continue;
    const double de00 = difference_ciede2000(lab, term.center);
    if (de00 <= term.tolerance_de00) found.push_back({&term, de00});
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const TermMatch& a, const TermMatch& b) { return a.de00 < b.de00; });
  return found;
}

const TradeTerm* TradeTerms::find(std::string_view term, std::optional<TermKind> kind) const {
  const auto place = std::find_if(terms_.begin(), terms_.end(), [&](const TradeTerm& known) {
    return known.term == term && (!kind || known.kind == *kind);
  });
  return place == terms_.end() ? nullptr : &*place;
}

const DepositClass* TradeTerms::find_class(std::string_view name) const {
  const auto place = std::find_if(classes_.begin(), classes_.end(),
                                  [&](const DepositClass& known) { return known.name == name; });
  return place == classes_.end() ? nullptr : &*place;
}

}  // namespace colorlib
