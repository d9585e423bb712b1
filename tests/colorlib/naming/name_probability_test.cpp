// What a percentage means: simulated readings of known truth.
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <colorlib/naming/color_distribution.hpp>
#include <colorlib/naming/name_probability.hpp>
#include <cstdio>
#include <random>
#include <tests/colorlib/naming/fungal_colors.hpp>
#include <tests/colorlib/naming/reference_tables.hpp>

namespace colorlib {
namespace {

struct Bin {
  double given, from, to, least_right, most_right;
  std::size_t readings = 0, right = 0;
};

/// A root of a covariance: standard deviations of 0.3 to 2.5 with any correlation.
Matrix3 any_root(std::mt19937_64& random) {
  std::normal_distribution<double> unit(0, 1);
  std::uniform_real_distribution<double> size(0.3, 2.5);
  Matrix3 root;
  for (int row = 0; row < 3; ++row) {
    Vector3 way{unit(random), unit(random), unit(random)};
    way[static_cast<std::size_t>(row)] += 1.5;
    const double scale = size(random) / std::hypot(way[0], way[1], way[2]);
    for (int column = 0; column < 3; ++column)
      root(row, column) = scale * way[static_cast<std::size_t>(column)];
  }
  return root;
}

/// What was said and what came true at one level.
struct Tally {
  NameLevel level;
  std::array<Bin, 3> bins = {Bin{0.50, 0.46, 0.54, 0.45, 0.55}, Bin{0.80, 0.76, 0.84, 0.75, 0.85},
                             Bin{0.95, 0.93, 0.97, 0.93, 0.97}};
  double said = 0, right = 0;
};

TEST(NameProbability, StatedPercentagesComeTrue) {
  constexpr std::uint64_t seed = 267;
  constexpr std::size_t readings = 12'000;
  std::array tallies = {Tally{NameLevel::broad}, Tally{NameLevel::middle}, Tally{NameLevel::full}};
  std::mt19937_64 random(seed);
  std::normal_distribution<double> unit(0, 1);
  const auto& names = namer().names();
  for (const Lab& truth : fungal_colors(readings, seed)) {
    const Matrix3 root = any_root(random);
    const Vector3 error = root * Vector3{unit(random), unit(random), unit(random)};
    const Lab reading{truth.l + error[0], truth.a + error[1], truth.b + error[2]};
    const int true_block = namer().blocks_of({truth}).front();
    const auto shares =
        block_shares(distribution_of(reading, root * transpose(root)), namer().renotation(), names);
    for (auto& tally : tallies) {
      const auto true_name = names.name_index(true_block, tally.level);
      const auto probabilities = name_probabilities(shares, names, tally.level);
      tally.said += probabilities.front().probability / readings;
      tally.right += probabilities.front().name_index == true_name ? 1.0 / readings : 0;
      for (const auto& name : probabilities)
        for (auto& bin : tally.bins)
          if (name.probability >= bin.from && name.probability < bin.to) {
            ++bin.readings;
            bin.right += name.name_index == true_name ? 1 : 0;
          }
    }
  }
  for (const auto& tally : tallies) {
    std::printf("level %d, %zu readings, seed %llu: first names said %.1f %%, right %.1f %%\n",
                static_cast<int>(tally.level), readings, static_cast<unsigned long long>(seed),
                100 * tally.said, 100 * tally.right);
    for (const auto& bin : tally.bins) {
      const double share = static_cast<double>(bin.right) / static_cast<double>(bin.readings);
      std::printf("  given %.0f %%: %zu names, %.1f %% right\n", 100 * bin.given, bin.readings, 100 * share);
      EXPECT_GE(bin.readings, 500u);
      EXPECT_GE(share, bin.least_right);
      EXPECT_LE(share, bin.most_right);
    }
    EXPECT_NEAR(tally.said, tally.right, 0.02);  // five standard errors of 12000 readings
  }
}

TEST(NameProbability, SharesSumToOneAtEveryLevel) {
  const auto shares = block_shares(distribution_of({45, 12, 24}, Matrix3::diagonal(9, 9, 9)),
                                   namer().renotation(), namer().names());
  EXPECT_GT(shares.size(), 3u);
  for (const auto level : {NameLevel::broad, NameLevel::middle, NameLevel::full}) {
    double sum = 0, before = 2;
    for (const auto& name : name_probabilities(shares, namer().names(), level)) {
      sum += name.probability;
      EXPECT_LE(name.probability, before);
      before = name.probability;
    }
    EXPECT_NEAR(sum, 1, 1e-9);
  }
}

}  // namespace
}  // namespace colorlib
