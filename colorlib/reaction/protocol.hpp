#pragma once
/// What was done to the tissue: what the person who did it says. Nothing is made up.

#include <colorlib/base/result.hpp>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace colorlib {

/// Empty texts and absent numbers: not said.
struct Protocol {
  std::string reagent;                   ///< "KOH", "FeSO4", ...; "none" for a bruise
  std::string strength;                  ///< with its unit: "5 %", "1 g in 9 mL"
  std::optional<double> batch_age_days;  ///< of the reagent
  std::string tissue, zone;              ///< "stem", "apex"
  std::string state;                     ///< "fresh", "dried", ...
  std::string method;                    ///< drop, rub, crystal, vapour, cut, press
  std::optional<double> temperature_c;
  std::string known_positive;  ///< what a check of the reagent on a known positive gave
  std::string remarks;
};

/// The fields a publishable record of a reaction needs and that were not said, in words: "the reagent's
/// strength", ... `controls` and `water`: whether the regions have such. A bruise needs no reagent.
std::vector<std::string> missing_from(const Protocol& protocol, bool reagent_used, bool water, bool controls);

/// The most a protocol file may hold.
inline constexpr std::size_t protocol_limit_bytes = 1u << 20;

/// JSON object (by its first character) with the names above, or CSV with columns `field` and `value`.
/// Errors: unreadable_table: an unknown field, a value of the wrong kind, a field twice.
Result<Protocol> read_protocol(const std::filesystem::path& path);
Result<Protocol> parse_protocol(std::string_view text, std::string name);

}  // namespace colorlib
