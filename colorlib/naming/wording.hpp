#pragma once
/// What the words are in the reader's spelling or language: names are data, keyed by their published form.

#include <colorlib/base/result.hpp>
#include <filesystem>
#include <initializer_list>
#include <map>
#include <string>
#include <string_view>
#include <variant>

namespace colorlib {

enum class Spelling { american, british };

/// Says a published name ("grayish brown") as the reader wants it ("greyish brown", "braun-grau").
/// The default is the published American spelling.
class Wording {
 public:
  Wording() = default;
  /// American as published, or British by `folder`/reference/words_en_GB.csv. Errors: unreadable_table.
  static Result<Wording> for_spelling(Spelling spelling, const std::filesystem::path& folder);
  /// Adds a file with the columns `published,said`; what it holds goes before what was there.
  /// Errors: unreadable_table, naming the line.
  Result<std::monostate> add(const std::filesystem::path& file);

  /// `published` as a whole if known, else word by word; a word that is not known stays as it is.
  std::string said(std::string_view published) const;
  /// A turn of speech of the program's own, with %1 to %9 for what is filled in: as it was translated, else
  /// as it stands.
  void translate(std::string phrase, std::string said) { phrases_[std::move(phrase)] = std::move(said); }
  std::string phrase(std::string_view phrase, std::initializer_list<std::string_view> filled_in = {}) const;
  /// The published form of what a user typed: the entry whose wording it is, else word by word back, else
  /// itself.
  std::string published_for(std::string_view typed) const;

 private:
  std::map<std::string, std::string, std::less<>> words_, phrases_;
};

}  // namespace colorlib
