#pragma once
/// The trade's words for how fast and how strong a reaction is, by numbers that can be edited.

#include <colorlib/base/result.hpp>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace colorlib {

struct SpeedBin {
  std::string word;                       ///< "immediate", "fast", ...
  std::optional<double> begins_within_s;  ///< from the drop to the onset; none: no limit
  std::optional<double> half_within_s;    ///< from the onset to half of the change
};
struct SignBin {
  std::string sign, strength;        ///< "++", "strong"
  std::optional<double> below_de00;  ///< none: no limit
};

class ReactionBins {
 public:
  /// Reads `folder`/reference/reaction_bins.csv, or any file of its form. Errors: unreadable_table: a row of
  /// no known kind, limits that do not rise, no last row without a limit.
  static Result<ReactionBins> load(const std::filesystem::path& folder);
  static Result<ReactionBins> read(const std::filesystem::path& file);

  const SpeedBin& speed(double onset_s, double half_time_s) const;
  const SignBin& sign(double change_de00) const;
  const std::vector<SpeedBin>& speeds() const { return speeds_; }
  const std::vector<SignBin>& signs() const { return signs_; }

 private:
  std::vector<SpeedBin> speeds_;
  std::vector<SignBin> signs_;
};

}  // namespace colorlib
