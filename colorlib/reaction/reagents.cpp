#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <colorlib/base/cautions.hpp>
#include <colorlib/base/data_folder.hpp>
#include <colorlib/base/reference_table.hpp>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/reaction/reagents.hpp>

namespace colorlib {
namespace {

constexpr std::string_view who_decides =
    "The label and safety data sheet of your product, then local law, go before these notes.";

std::vector<std::string> split(const std::string& text, char separator) {
  std::vector<std::string> parts;
  std::size_t from = 0;
  while (from <= text.size()) {
    const std::size_t to = std::min(text.find(separator, from), text.size());
    if (const auto part = trimmed(std::string_view(text).substr(from, to - from)); !part.empty())
      parts.emplace_back(part);
    from = to + 1;
  }
  return parts;
}

std::string lower(std::string_view text) {
  std::string result(text);
  for (char& c : result) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return result;
}

/// Whether `typed` is `name`, alone or with a strength or anything else that is no letter behind it.
bool names(std::string_view typed, std::string_view name) {
  if (!typed.starts_with(name)) return false;
  const auto rest = trimmed(typed.substr(name.size()));
  return rest.empty() || (typed.size() > name.size() && typed[name.size()] == ' ' &&
                          std::isdigit(static_cast<unsigned char>(rest.front())));
}

}  // namespace

Result<Reagents> Reagents::load(const std::filesystem::path& folder) {
  const auto table = ReferenceTable::read(folder / "reference" / "reagents.csv", "the reagents");
  if (!table) return fail(table.error());
  const auto columns = table->require({"reagent", "names", "strength", "applied_to", "preset", "hazards",
                                       "hazards_source", "caution", "source"});
  if (!columns) return fail(columns.error());
  const auto statements =
      ReferenceTable::read(folder / "reference" / "hazard_statements.csv", "the hazard statements");
  if (!statements) return fail(statements.error());
  const auto of_statements = statements->require({"code", "statement"});
  if (!of_statements) return fail(of_statements.error());

  Reagents result;
  for (std::size_t row = 0; row < statements->rows(); ++row)
    result.statements_.emplace_back(statements->text(row, (*of_statements)[0]),
                                    statements->text(row, (*of_statements)[1]));
  for (std::size_t row = 0; row < table->rows(); ++row) {
    const auto text = [&](std::size_t column) {
      return std::string(trimmed(table->text(row, (*columns)[column])));
    };
    Reagent reagent{text(0),          split(text(1), '|'), text(2), text(3),
                    text(4) == "yes", split(text(5), ' '), text(6), text(7),
                    text(8)};
    const auto wrong = [&](std::string what) {
      return fail(
          ErrorCode::unreadable_table,
          fmt::format("Reading the reagents '{}': line {} {}.", table->name(), table->line(row), what),
          "Put the line right; the file's first lines say what its columns hold.");
    };
    if (reagent.name.empty()) return wrong("names no reagent");
    if (text(4) != "yes" && text(4) != "no")
      return wrong(fmt::format("says preset '{}', yes or no is needed", quotable(text(4))));
    for (const std::string& code : reagent.hazards)
      if (result.statement(code).empty())
        return wrong(fmt::format("has the hazard code '{}', which hazard_statements.csv does not hold",
                                 quotable(code)));
    if (result.find(reagent.name) != nullptr)
      return wrong(fmt::format("names '{}' a second time", quotable(reagent.name)));
    result.reagents_.push_back(std::move(reagent));
  }
  return result;
}

const Reagent* Reagents::find(std::string_view name) const {
  const std::string typed = lower(trimmed(name));
  for (const Reagent& reagent : reagents_) {
    if (names(typed, lower(reagent.name))) return &reagent;
    for (const std::string& other : reagent.other_names)
      if (names(typed, lower(other))) return &reagent;
  }
  return nullptr;
}

std::vector<const Reagent*> Reagents::presets() const {
  std::vector<const Reagent*> result;
  for (const Reagent& reagent : reagents_)
    if (reagent.preset) result.push_back(&reagent);
  return result;
}

std::string Reagents::statement(std::string_view code) const {
  for (const auto& [known, words] : statements_)
    if (known == code) return words;
  return {};
}

std::string Reagents::handling(std::string_view name) const {
  const Reagent* reagent = find(name);
  if (reagent == nullptr)
    return fmt::format("Nothing is known here of '{}'. Read its safety data sheet before you open it. {}",
                       quotable(name), who_decides);
  std::string text = reagent->name + ": ";
  if (reagent->hazards.empty()) {
    text += reagent->hazards_source == "not compiled" ? "its hazards were not compiled here. "
                                                      : "no hazard of its own. ";
  } else {
    std::vector<std::string> words;
    for (const std::string& code : reagent->hazards) {
      std::string statement = this->statement(code);
      if (statement.size() > 1 && std::islower(static_cast<unsigned char>(statement[1])))
        statement[0] = static_cast<char>(std::tolower(static_cast<unsigned char>(statement[0])));
      words.push_back(fmt::format("{} ({})", statement, code));
    }
    text += fmt::format("{}; codes of the pure substance (GHS, from {}). ", fmt::join(words, "; "),
                        reagent->hazards_source);
  }
  return fmt::format(
      "{}{}{}", text, reagent->caution,
      reagent->hazards.empty() && reagent->hazards_source.empty() ? "" : fmt::format(" {}", who_decides));
}

const std::vector<std::string>& reagent_cautions() {
  static const std::vector<std::string> cautions{
      "Goggles and gloves; small bottles in a tray, labelled with name, strength, date and hazard; no "
      "reagent near food or "
      "in the collecting basket.",
      std::string(caution_contamination) + " Do not drop alkali on foil prints.",
      "Tested tissue is waste: discard it, or packet and mark it apart; never eat it. Acids and alkalis "
      "apart; silver, phenol "
      "and aniline wastes never down the drain; waste goes by local rules.",
      "No chemical drop and no bruise tests for poison."};
  return cautions;
}

std::string_view spore_dust_caution() {
  return "Do not breathe spore dust when scraping a print: mask, no draught, wipe up wet.";
}

Result<std::string> handling_text(const Protocol& protocol, bool reagent_used) {
  if (!reagent_used) return std::string(spore_dust_caution());
  std::string text;
  if (protocol.reagent.empty()) {
    text = fmt::format("{} {}", caution_reagents, who_decides);
  } else {
    const auto reagents = Reagents::load(data_folder());
    if (!reagents) return fail(reagents.error());
    text = reagents->handling(protocol.reagent);
  }
  for (const std::string& caution : reagent_cautions()) text += " " + caution;
  return text;
}

}  // namespace colorlib
