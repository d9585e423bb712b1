#pragma once
/// Reagents of the trade with their hazards, from tables that users can read and correct.

#include <colorlib/base/result.hpp>
#include <colorlib/reaction/protocol.hpp>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace colorlib {

struct Reagent {
  std::string name;
  std::vector<std::string> other_names;
  std::string strength, applied_to;  ///< as usually stated
  /// May be offered in a list or suggested. Highly toxic, obsolete and laboratory reagents can be recorded,
  /// no more.
  bool preset = false;
  std::vector<std::string> hazards;  ///< GHS codes of the substance
  std::string hazards_source;  ///< where the codes come from; "not compiled" says that none were looked up
  std::string caution, source;
};

class Reagents {
 public:
  /// Reads `folder`/reference/reagents.csv and hazard_statements.csv. Errors: unreadable_table.
  static Result<Reagents> load(const std::filesystem::path& folder);

  /// By any of its names, in any case; null when it is not known. A strength behind the name ("KOH 10 %") is
  /// no matter.
  const Reagent* find(std::string_view name) const;
  std::vector<const Reagent*> presets() const;
  const std::vector<Reagent>& all() const { return reagents_; }
  /// "Causes severe skin burns and eye damage" for "H314"; empty for a code that is not known.
  std::string statement(std::string_view code) const;
  /// What has to stand wherever the reagent is named: hazards in words with their codes, where these come
  /// from, the caution, and that label, data sheet and law go before. For a reagent that is not known: that
  /// nothing is known here.
  std::string handling(std::string_view name) const;

 private:
  std::vector<Reagent> reagents_;
  std::vector<std::pair<std::string, std::string>> statements_;
};

/// What goes for every reagent, as sentences: wipe or bin what was touched, keep reagents apart from food,
/// waste.
const std::vector<std::string>& reagent_cautions();
/// For bruises, scraping and prints.
std::string_view spore_dust_caution();

/// What has to stand beside a reaction: hazards and handling of the reagent that the protocol names - that
/// reagents burn where it names none - and what goes for every reagent; for a bruise what goes for spore
/// dust. Errors: unreadable_table.
Result<std::string> handling_text(const Protocol& protocol, bool reagent_used);

}  // namespace colorlib
