#pragma once
/// Strict reading of JSON members; the first thing wrong is kept, with where it stands. For .cpp files only.

#include <array>
#include <colorlib/base/result.hpp>
#include <colorlib/base/small_matrix.hpp>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace colorlib {

/// Parses with bounded nesting; errors carry `code` and name the line and column.
Result<nlohmann::json> parse_json(std::string_view text, std::string_view name, std::string_view what,
                                  ErrorCode code, int most_nesting);

/// Members of the objects of one document. Every reader returns its default when the member is absent or
/// wrong.
class JsonFields {
 public:
  using Json = nlohmann::json;

  /// `what` and `name` start every sentence: "Reading {what} '{name}': ...".
  JsonFields(std::string what, std::string name, ErrorCode code, std::string advice);

  /// `where` is the path of `object`, e.g. "readings[2]"; empty at the top.
  const Json* object(const Json& object, const char* key, const std::string& where);
  const Json* list(const Json& object, const char* key, const std::string& where);
  /// Texts hold no control character but tab and line end: a record is shown on terminals.
  std::string text(const Json& object, const char* key, const std::string& where, bool needed = false);
  std::vector<std::string> texts(const Json& object, const char* key, const std::string& where);
  /// As `error_object` writes it; a code that only a later version knows counts as untrustworthy.
  std::optional<Error> error(const Json& object, const char* key, const std::string& where);
  bool truth(const Json& object, const char* key, const std::string& where);
  /// Finite and within +-1e9; null counts as absent.
  std::optional<double> number(const Json& object, const char* key, const std::string& where);
  /// Whole and in [0, 2^53].
  std::optional<std::int64_t> count(const Json& object, const char* key, const std::string& where);
  /// A list of exactly `N` finite numbers.
  template <std::size_t N>
  std::optional<std::array<double, N>> numbers(const Json& object, const char* key,
                                               const std::string& where) {
    const Json* found = list(object, key, where);
    if (found == nullptr) return std::nullopt;
    return numbers_of<N>(*found, path(where, key));
  }
  template <std::size_t N>
  std::optional<std::array<double, N>> numbers_of(const Json& value, const std::string& where) {
    std::array<double, N> result{};
    if (!value.is_array() || value.size() != N) {
      wrong(where, "must be a list of " + std::to_string(N) + " numbers");
      return std::nullopt;
    }
    for (std::size_t i = 0; i < N; ++i) {
      const auto item = number_of(value[i], where);
      if (!item) return std::nullopt;
      result[i] = *item;
    }
    return result;
  }

  /// Notes that what stands at `where` is wrong: "{where} {what}"; the first note stays.
  void wrong(const std::string& where, std::string_view what);
  void missing(const std::string& where, const char* key) { wrong(path(where, key), "is missing"); }
  const std::optional<Error>& problem() const { return problem_; }

  static std::string path(const std::string& where, const char* key) {
    return where.empty() ? std::string(key) : where + "." + key;
  }

 private:
  const Json* member(const Json& object, const char* key) const;
  /// Text without control characters; `otherwise` is what is wrong with what is no text.
  std::string text_of(const Json& value, const std::string& where, std::string_view otherwise);
  std::optional<double> number_of(const Json& value, const std::string& where);

  std::string what_, name_, advice_;
  ErrorCode code_;
  std::optional<Error> problem_;
};

}  // namespace colorlib
