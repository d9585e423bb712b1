#pragma once
/// Options that the parts of `tintfall catalogue` share: fields of a collection, and what is asked for.

#include <colorlib/base/result.hpp>
#include <colorlib/records/catalogue.hpp>
#include <deque>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace CLI {
class App;
class Option;
}  // namespace CLI

namespace tintfall {

/// One option a field: --collector, --latitude-deg, ...; in the order of collection_fields().
class FieldChoices {
 public:
  /// Without `number`, which is often said otherwise.
  void declare(CLI::App& app);
  /// What was said, name and value; an empty value was said too.
  std::vector<std::pair<std::string, std::string>> said() const;

 private:
  struct Choice {
    std::string field, value;
    CLI::Option* option = nullptr;
  };
  std::deque<Choice> choices_;
};

/// What is looked for, as typed.
struct QueryChoices {
  colorlib::CatalogueQuery query;
  std::vector<double> near, expanded;
  std::optional<double> within_de00;  ///< of --near or --like
  std::string like;

  /// `colours`: with --near, --like and --within.
  void declare(CLI::App& app, bool colours);
  /// Errors: bad_call; unreadable_record for --like.
  colorlib::Result<colorlib::CatalogueQuery> checked() const;
};

}  // namespace tintfall
