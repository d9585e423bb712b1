#pragma once
/// `tintfall chart transfer` and `tintfall chart fading`: reference values for a printed sheet, and how they
/// keep.

#include <string>
#include <vector>
#include <viewer/command/json_output.hpp>

namespace tintfall {

/// As typed.
struct TransferChoices {
  std::vector<std::string> photos, known_corners, printed_corners;
  std::string known, known_reference, printed, out, label, date = "today", side;
  JsonTarget json;
};
CLI::App* declare_transfer(CLI::App& app, TransferChoices& choices);
int run_transfer(const TransferChoices& choices, Streams& streams);

/// As typed.
struct FadingChoices {
  std::string before, after, chart;
  JsonTarget json;
};
CLI::App* declare_fading(CLI::App& app, FadingChoices& choices);
int run_fading(const FadingChoices& choices, Streams& streams);

}  // namespace tintfall
