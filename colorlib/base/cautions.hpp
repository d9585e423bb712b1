#pragma once
/// The words that stand under every result, in every help and on every picture; those about reagents wherever
/// one may be used.

#include <string_view>

namespace colorlib {

inline constexpr std::string_view caution_safety =
    "Colour never tells whether a mushroom is safe to eat: deadly and harmless kinds share their colours, "
    "stains and reactions.";
inline constexpr std::string_view caution_reagents =
    "Reagents burn, and some are poisonous through the skin: read the safety data sheet, wear goggles and "
    "gloves.";
inline constexpr std::string_view caution_contamination =
    "A sheet, strip or phone that a reagent has touched is contaminated: wipe it or bin it.";
inline constexpr std::string_view caution_names =
    "Names of colours and finds are working names; a qualified identifier or a fungarium has the last word.";

}  // namespace colorlib
