#include <fmt/format.h>

#include <algorithm>
#include <colorlib/base/reference_table.hpp>
#include <colorlib/naming/wording.hpp>

namespace colorlib {
namespace {

/// `text` with `change` applied to each of its words.
template <class Change>
std::string word_by_word(std::string_view text, Change change) {
  std::string result;
  std::size_t begin = 0;
  while (begin <= text.size()) {
    const auto end = std::min(text.find(' ', begin), text.size());
    result += change(text.substr(begin, end - begin));
    if (end < text.size()) result += ' ';
    begin = end + 1;
  }
  return result;
}

}  // namespace

Result<Wording> Wording::for_spelling(Spelling spelling, const std::filesystem::path& folder) {
  Wording wording;
  if (spelling == Spelling::british)
    if (const auto added = wording.add(folder / "reference" / "words_en_GB.csv"); !added)
      return fail(added.error());
  return wording;
}

Result<std::monostate> Wording::add(const std::filesystem::path& file) {
  const auto table = ReferenceTable::read(file, "the words");
  if (!table) return fail(table.error());
  const auto columns = table->require({"published", "said"});
  if (!columns) return fail(columns.error());
  std::map<std::string, std::string, std::less<>> added;
  for (std::size_t row = 0; row < table->rows(); ++row) {
    const auto& published = table->text(row, (*columns)[0]);
    const auto& said = table->text(row, (*columns)[1]);
    const auto refused = [&](const std::string& found, const char* advice) {
      return fail(ErrorCode::unreadable_table,
                  fmt::format("Reading the words '{}', line {}: {}.", table->name(), table->line(row), found),
                  advice);
    };
    if (published.empty() || said.empty())
      return refused("a word is missing", "Write the published word and what to say, or leave the line out.");
    if (!added.emplace(published, said).second)
      return refused(fmt::format("'{}' is there twice", published), "Keep one line for a word.");
  }
  for (auto& [published, said] : added) words_[published] = said;
  return std::monostate{};
}

std::string Wording::said(std::string_view published) const {
  if (const auto whole = words_.find(published); whole != words_.end()) return whole->second;
  return word_by_word(published, [this](std::string_view word) {
    const auto known = words_.find(word);
    return known == words_.end() ? std::string(word) : known->second;
  });
}

std::string Wording::phrase(std::string_view phrase,
                            std::initializer_list<std::string_view> filled_in) const {
  const auto translated = phrases_.find(phrase);
  // A single word may stand in a file of words, too.
  const std::string pattern = translated != phrases_.end() ? translated->second : said(phrase);
  std::string result;
  for (std::size_t i = 0; i < pattern.size(); ++i) {
    const auto place = pattern[i] == '%' && i + 1 < pattern.size() ? pattern[i + 1] - '1' : -1;
    if (place < 0 || place >= static_cast<std::ptrdiff_t>(filled_in.size())) {
      result += pattern[i];
      continue;
    }
    result += filled_in.begin()[place];
    ++i;
  }
  return result;
}

std::string Wording::published_for(std::string_view typed) const {
  const auto back = [this](std::string_view text) -> const std::string* {
    for (const auto& [published, said] : words_)
      if (said == text) return &published;
    return nullptr;
  };
  if (const auto* whole = back(typed)) return *whole;
  return word_by_word(typed, [&](std::string_view word) {
    const auto* published = back(word);
    return published == nullptr ? std::string(word) : *published;
  });
}

}  // namespace colorlib
