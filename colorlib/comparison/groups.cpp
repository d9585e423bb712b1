#include <fmt/format.h>

#include <algorithm>
#include <colorlib/base/distribution_quantiles.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/comparison/groups.hpp>
#include <map>
#include <numeric>

namespace colorlib {
namespace {

/// Which readings hang together; each set is known by its smallest member.
class LinkedSets {
 public:
  explicit LinkedSets(std::size_t count) : parent_(count) { std::iota(parent_.begin(), parent_.end(), 0u); }
  std::size_t first_of(std::size_t i) {
    while (parent_[i] != i) i = parent_[i] = parent_[parent_[i]];
    return i;
  }
  void link(std::size_t i, std::size_t j) {
    const std::size_t a = first_of(i), b = first_of(j);
    parent_[std::max(a, b)] = std::min(a, b);
  }

 private:
  std::vector<std::size_t> parent_;
};

void describe(const std::vector<UncertainColor>& readings, double limit, ColorGroup& group) {
  const double count = static_cast<double>(group.members.size());
  for (std::size_t i = 0; i < group.members.size(); ++i) {
    const UncertainColor& one = readings[group.members[i]];
    group.mean.l += one.lab.l / count;
    group.mean.a += one.lab.a / count;
    group.mean.b += one.lab.b / count;
    for (std::size_t j = 0; j < i; ++j) {
      const UncertainColor& other = readings[group.members[j]];
      group.widest_de00 = std::max(group.widest_de00, difference_ciede2000(one.lab, other.lab));
      group.chained = group.chained || difference_statistic(one, other) > limit;
    }
  }
}

}  // namespace

Result<std::vector<ColorGroup>> groups_of(const std::vector<UncertainColor>& readings, double risk,
                                          Progress& progress) {
  if (!(risk > 0 && risk < 1))
    return fail(ErrorCode::bad_call,
                fmt::format("A risk of {} was asked for; it lies between 0 and 1.", risk),
                "Say for example 0.05.");
  if (readings.size() > most_grouped)
    return fail(ErrorCode::bad_call,
                fmt::format("Grouping {} readings: at most {} are taken.", readings.size(), most_grouped),
                "Group a part of them, or one item at a time.");
  const double limit = chi_squared_quantile(1 - risk, 3);
  LinkedSets sets(readings.size());
  for (std::size_t i = 0; i < readings.size(); ++i) {
    if (i % 64 == 0) {
      if (progress.cancelled()) return fail(ErrorCode::cancelled, "The work was stopped.", "Start it again.");
      const double share = static_cast<double>(i) / static_cast<double>(readings.size());
      progress.report(share * share, "grouping");
    }
    for (std::size_t j = 0; j < i; ++j)
      if (sets.first_of(i) != sets.first_of(j) && difference_statistic(readings[i], readings[j]) <= limit)
        sets.link(i, j);
  }
  std::map<std::size_t, ColorGroup> by_first;
  for (std::size_t i = 0; i < readings.size(); ++i) by_first[sets.first_of(i)].members.push_back(i);
  std::vector<ColorGroup> groups;
  for (auto& [first, group] : by_first) {
    describe(readings, limit, group);
    groups.push_back(std::move(group));
  }
  return groups;
}

}  // namespace colorlib
