#pragma once
/// What was done to the tissue: what the person who did it says. Nothing is made up.

#include <colorlib/base/result.hpp>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace colorlib {

/// Empty texts and absent numbers: not said.
struct Protocol {
  std::string reagent;                     ///< "KOH", "FeSO4", ...; "none" for a bruise
  std::string strength;                    ///< with its unit: "5 %", "1 g in 9 mL"
  std::string solvent, batch;              ///< "water", "70 % ethanol"; what stands on the bottle
  std::optional<double> batch_age_days;    ///< of the reagent
  std::string known_positive;              ///< what a check of the reagent on a known positive gave
  std::string tissue, zone;                ///< "stem", "apex"
  std::string state;                       ///< "fresh", "dried", ...
  std::string age_stage, surface, damage;  ///< "adult"; "dry"; "bruised", "slug-eaten", "none"
  std::optional<double> hours_since_picking;
  std::string method;  ///< drop, rub, crystal, vapour, cut, press
  std::optional<double> drop_volume_ul, temperature_c, humidity_percent;
  std::string covered, backing;  ///< "open"; "tile", "grey card"
  std::string observed;          ///< the observer's own words for speed, strength and colour
  std::string permit;            ///< or permission, where one is needed
  std::string remarks;
  /// Fields that are not known here, as they were given: kept, and said.
  std::vector<std::pair<std::string, std::string>> others;
};

/// One field that was said.
struct ProtocolValue {
  std::string_view name;
  std::string text;  ///< empty for a number
  std::optional<double> number;
};
/// All known fields that were said: texts in the order above, then numbers.
std::vector<ProtocolValue> said_in(const Protocol& protocol);

/// The fields a publishable record of a reaction needs and that were not said, in words: "the reagent's
/// strength", ... `controls` and `water`: whether the regions have such. A bruise needs no reagent.
std::vector<std::string> missing_from(const Protocol& protocol, bool reagent_used, bool water, bool controls);

/// The most a protocol file may hold.
inline constexpr std::size_t protocol_limit_bytes = 1u << 20;
inline constexpr std::size_t most_other_fields = 100;

/// JSON object (by its first character) with the names above, or CSV with columns `field` and `value`.
/// Unknown fields go to `others`. Errors: unreadable_table: a value of the wrong kind or size, a field twice,
/// more than `most_other_fields` unknown ones.
Result<Protocol> read_protocol(const std::filesystem::path& path);
Result<Protocol> parse_protocol(std::string_view text, const std::string& name);

}  // namespace colorlib
