#include <fmt/format.h>

#include <cmath>
#include <colorlib/base/file_access.hpp>
#include <colorlib/base/json_nesting.hpp>
#include <colorlib/base/reference_table.hpp>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/reaction/protocol.hpp>
#include <nlohmann/json.hpp>
#include <set>

namespace colorlib {
namespace {

struct TextField {
  const char* name;
  std::string Protocol::*member;
};
constexpr TextField text_fields[] = {{"reagent", &Protocol::reagent},
                                     {"strength", &Protocol::strength},
                                     {"solvent", &Protocol::solvent},
                                     {"batch", &Protocol::batch},
                                     {"known_positive", &Protocol::known_positive},
                                     {"tissue", &Protocol::tissue},
                                     {"zone", &Protocol::zone},
                                     {"state", &Protocol::state},
                                     {"age_stage", &Protocol::age_stage},
                                     {"surface", &Protocol::surface},
                                     {"damage", &Protocol::damage},
                                     {"method", &Protocol::method},
                                     {"covered", &Protocol::covered},
                                     {"backing", &Protocol::backing},
                                     {"observed", &Protocol::observed},
                                     {"permit", &Protocol::permit},
                                     {"remarks", &Protocol::remarks}};

struct NumberField {
  const char* name;
  std::optional<double> Protocol::*member;
  double least, most;
};
constexpr NumberField number_fields[] = {{"batch_age_days", &Protocol::batch_age_days, 0, 36'525},
                                         {"hours_since_picking", &Protocol::hours_since_picking, 0, 1e6},
                                         {"drop_volume_ul", &Protocol::drop_volume_ul, 0, 10'000},
                                         {"temperature_c", &Protocol::temperature_c, -60, 80},
                                         {"humidity_percent", &Protocol::humidity_percent, 0, 100}};

constexpr std::size_t longest_text = 500;

tl::unexpected<Error> wrong(const std::string& name, std::string_view what) {
  std::string known;
  for (const TextField& field : text_fields) known += fmt::format("{}, ", field.name);
  for (const NumberField& field : number_fields) known += fmt::format("{}, ", field.name);
  known.resize(known.size() - 2);
  return fail(ErrorCode::unreadable_table, fmt::format("Reading the protocol '{}': {}.", name, what),
              fmt::format("The fields are {}.", known));
}

/// One field as text; numbers are read from their text.
Result<std::monostate> set_field(Protocol& protocol, const std::string& field, const std::string& value,
                                 const std::string& name) {
  for (const TextField& known : text_fields)
    if (field == known.name) {
      if (value.size() > longest_text)
        return wrong(name, fmt::format("'{}' has {} characters, at most {} are taken", field, value.size(),
                                       longest_text));
      protocol.*known.member = std::string(trimmed(quotable(value, longest_text)));
      return std::monostate{};
    }
  for (const NumberField& known : number_fields)
    if (field == known.name) {
      if (trimmed(value).empty()) return std::monostate{};
      const auto number = number_from_with_decimal_comma(value);
      if (!number || *number < known.least || *number > known.most)
        return wrong(name, fmt::format("'{}' is '{}', a number from {} to {} is needed", field,
                                       quotable(value), known.least, known.most));
      protocol.*known.member = *number;
      return std::monostate{};
    }
  if (protocol.others.size() >= most_other_fields)
    return wrong(name, fmt::format("it has more than {} fields that are not known here", most_other_fields));
  if (field.empty() || value.size() > longest_text)
    return wrong(name,
                 fmt::format("the unknown field '{}' has no name, or a value of more than {} characters",
                             quotable(field), longest_text));
  protocol.others.emplace_back(quotable(field, longest_text),
                               std::string(trimmed(quotable(value, longest_text))));
  return std::monostate{};
}

Result<Protocol> from_json(std::string_view text, const std::string& name) {
  constexpr int most_nesting = 2;
  if (json_nesting(text) > most_nesting) return wrong(name, "it nests too deep: one plain object is needed");
  const auto json = nlohmann::json::parse(text, nullptr, false);
  if (json.is_discarded() || !json.is_object()) return wrong(name, "it is no JSON object");
  Protocol protocol;
  for (const auto& [field, value] : json.items()) {
    if (value.is_null()) continue;
    if (!value.is_string() && !value.is_number())
      return wrong(name, fmt::format("'{}' is neither text nor number", quotable(field)));
    const std::string plain = value.is_string() ? value.get<std::string>() : value.dump();
    if (const auto set = set_field(protocol, field, plain, name); !set) return fail(set.error());
  }
  return protocol;
}

Result<Protocol> from_csv(std::string_view text, const std::string& name) {
  const auto table = ReferenceTable::parse(text, name, "the protocol");
  if (!table) return fail(table.error());
  const auto columns = table->require({"field", "value"});
  if (!columns) return fail(columns.error());
  Protocol protocol;
  std::set<std::string> seen;
  for (std::size_t row = 0; row < table->rows(); ++row) {
    const std::string& field = table->text(row, (*columns)[0]);
    if (!seen.insert(field).second)
      return wrong(name, fmt::format("line {} says '{}' a second time", table->line(row), quotable(field)));
    if (const auto set = set_field(protocol, field, table->text(row, (*columns)[1]), name); !set)
      return fail(set.error());
  }
  return protocol;
}

}  // namespace

std::vector<ProtocolValue> said_in(const Protocol& protocol) {
  std::vector<ProtocolValue> said;
  for (const TextField& field : text_fields)
    if (!(protocol.*field.member).empty()) said.push_back({field.name, protocol.*field.member, std::nullopt});
  for (const NumberField& field : number_fields)
    if (protocol.*field.member) said.push_back({field.name, {}, protocol.*field.member});
  return said;
}

std::vector<std::string> missing_from(const Protocol& protocol, bool reagent_used, bool water,
                                      bool controls) {
  std::vector<std::string> missing;
  const auto when = [&](bool condition, const char* what) {
    if (condition) missing.emplace_back(what);
  };
  if (reagent_used) {
    when(protocol.reagent.empty(), "the reagent");
    when(protocol.strength.empty(), "its strength");
    when(!protocol.batch_age_days, "its batch age");
    when(protocol.known_positive.empty(), "a check on a known positive");
  }
  when(protocol.tissue.empty(), "the tissue");
  when(protocol.zone.empty(), "the zone");
  when(protocol.state.empty(), "fresh or dried");
  when(!protocol.temperature_c, "the temperature");
  when(reagent_used && !water, "a water drop beside it");
  when(!controls, "a region of untreated tissue");
  return missing;
}

Result<Protocol> read_protocol(const std::filesystem::path& path) {
  const auto text = read_file(path, "the protocol", ErrorCode::unreadable_table, protocol_limit_bytes);
  if (!text) return fail(text.error());
  return parse_protocol(*text, path.filename().string());
}

Result<Protocol> parse_protocol(std::string_view text, const std::string& name) {
  text = without_byte_order_mark(text);
  return trimmed(text).starts_with('{') ? from_json(text, name) : from_csv(text, name);
}

}  // namespace colorlib
