#include <fmt/format.h>

#include <colorlib/base/reference_table.hpp>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/reaction/reaction_bins.hpp>

namespace colorlib {
namespace {

/// Whether a limit comes after another: none comes last.
bool rises(const std::optional<double>& before, const std::optional<double>& after) {
  return before ? !after || *after >= *before : !after;
}

}  // namespace

Result<ReactionBins> ReactionBins::load(const std::filesystem::path& folder) {
  return read(folder / "reference" / "reaction_bins.csv");
}

Result<ReactionBins> ReactionBins::read(const std::filesystem::path& file) {
  const auto table = ReferenceTable::read(file, "the words for reactions");
  if (!table) return fail(table.error());
  const auto columns =
      table->require({"kind", "word", "begins_within_s", "half_within_s", "below_de00", "strength"});
  if (!columns) return fail(columns.error());
  const auto wrong = [&](std::string what) {
    return fail(ErrorCode::unreadable_table,
                fmt::format("Reading the words for reactions '{}': {}.", table->name(), what),
                "Start from a copy of reference/reaction_bins.csv; its first lines say how it is read.");
  };
  ReactionBins bins;
  for (std::size_t row = 0; row < table->rows(); ++row) {
    std::optional<double> limits[3];
    for (std::size_t i = 0; i < 3; ++i) {
      if (trimmed(table->text(row, (*columns)[2 + i])).empty()) continue;
      const auto number = table->number(row, (*columns)[2 + i]);
      if (!number) return fail(number.error());
      if (*number <= 0)
        return wrong(fmt::format("line {} has a limit that is not positive", table->line(row)));
      limits[i] = *number;
    }
    const std::string kind(trimmed(table->text(row, (*columns)[0]))),
        word(trimmed(table->text(row, (*columns)[1])));
    if (word.empty()) return wrong(fmt::format("line {} has no word", table->line(row)));
    const auto not_rising = [&] {
      return wrong(
          fmt::format("the limits of line {} lie below those of the line before it", table->line(row)));
    };
    if (kind == "speed") {
      if (!bins.speeds_.empty() && (!rises(bins.speeds_.back().begins_within_s, limits[0]) ||
                                    !rises(bins.speeds_.back().half_within_s, limits[1])))
        return not_rising();
      bins.speeds_.push_back({word, limits[0], limits[1]});
    } else if (kind == "sign") {
      if (!bins.signs_.empty() && !rises(bins.signs_.back().below_de00, limits[2])) return not_rising();
      bins.signs_.push_back({word, std::string(trimmed(table->text(row, (*columns)[5]))), limits[2]});
    } else {
      return wrong(
          fmt::format("line {} is of kind '{}', speed or sign is needed", table->line(row), quotable(kind)));
    }
  }
  if (bins.speeds_.empty() || bins.speeds_.back().begins_within_s || bins.speeds_.back().half_within_s)
    return wrong("the last speed has to be without limits, so that every reaction has a word");
  if (bins.signs_.empty() || bins.signs_.back().below_de00)
    return wrong("the last sign has to be without a limit, so that every change has one");
  return bins;
}

const SpeedBin& ReactionBins::speed(double onset_s, double half_time_s) const {
  for (const SpeedBin& bin : speeds_)
    if ((!bin.begins_within_s || onset_s <= *bin.begins_within_s) &&
        (!bin.half_within_s || half_time_s <= *bin.half_within_s))
      return bin;
  return speeds_.back();
}

const SignBin& ReactionBins::sign(double change_de00) const {
  for (const SignBin& bin : signs_)
    if (!bin.below_de00 || change_de00 < *bin.below_de00) return bin;
  return signs_.back();
}

}  // namespace colorlib
