/// What verdicts and bias intervals promise, held against rounds whose truth is known. TINTFALL_FULL=1 runs
/// more rounds and writes docs/results/comparison.md.

#include <fmt/format.h>
#include <gmock/gmock.h>

#include <colorlib/comparison/bias.hpp>
#include <cstdlib>
#include <fstream>
#include <tests/colorlib/comparison/simulated_rounds.hpp>

namespace colorlib {
namespace {

bool full() { return std::getenv("TINTFALL_FULL") != nullptr; }

/// Collects the page that the full run writes.
class ResultsPage {
 public:
  static ResultsPage& instance() {
    static ResultsPage page;
    return page;
  }
  void add(const std::string& text) {
    std::fputs(text.c_str(), stdout);
    text_ += text;
  }
  ~ResultsPage() {
    const char* folder = std::getenv("TINTFALL_RESULTS_DIR");
    if (!full() || folder == nullptr) return;
    std::ofstream(std::string(folder) + "/comparison.md")
        << "# Verdicts and biases in simulated rounds\n\nRounds of invented collectors whose biases, items "
           "and scatter are "
           "known; honest uncertainties are stated. Written by `./run tests --full`. What the columns mean: "
           "[comparison](../explanation/comparison.md).\n\n"
        << text_;
  }

 private:
  std::string text_;
};

struct VerdictShares {
  int same = 0, different = 0, pairs = 0;
  double share(int count) const { return 100.0 * count / pairs; }
};

/// A colour that differs from `truth`, in a random direction, by `factor` times the expanded uncertainty
/// there.
Lab at_expanded(NormalColors& random, const Lab& truth, const Matrix3& covariance, double factor) {
  const Vector3 way{random.normal(), random.normal(), random.normal()};
  return NormalColors::along(
      truth, way,
      [&](const Lab& lab) {
        return std::sqrt(difference_statistic({truth, covariance}, {lab, covariance})) /
               joint_coverage_factor;
      },
      factor);
}

VerdictShares verdicts(double factor, double size, int pairs) {
  NormalColors random(31);
  VerdictShares shares;
  shares.pairs = pairs;
  for (int i = 0; i < pairs; ++i) {
    const Matrix3 covariance = size * size * random.any_covariance();
    const Lab one = random.any_color();
    const Lab other = factor > 0 ? at_expanded(random, one, covariance, factor) : one;
    const auto verdict = agreement_between({random.draw(one, covariance), covariance},
                                           {random.draw(other, covariance), covariance})
                             .verdict;
    shares.same += verdict == Verdict::same;
    shares.different += verdict == Verdict::different;
  }
  return shares;
}

TEST(SimulatedRounds, VerdictsAreWrongAsRarelyAsTheySay) {
  const int pairs = full() ? 20'000 : 1'000;
  auto& page = ResultsPage::instance();
  page.add(
      fmt::format("## Pairs\n\n{} pairs a line, seed 31. *U*: the expanded uncertainty of the difference; "
                  "uncertainties of "
                  "the readings between 0.2 and 1 in each direction (standard), times the size.\n\n"
                  "| true difference | size | called same | undecided | called different |\n"
                  "| --- | --- | --- | --- | --- |\n",
                  pairs));
  for (const double size : {0.3, 1.0})
    for (const double factor : {0.0, 0.5, 1.0, 1.412, 2.0}) {
      const auto shares = verdicts(factor, size, pairs);
      page.add(fmt::format("| {} U | {} | {:.1f} % | {:.1f} % | {:.1f} % |\n", factor, size,
                           shares.share(shares.same), shares.share(pairs - shares.same - shares.different),
                           shares.share(shares.different)));
      // The risk is 4.55 %; 1000 pairs know a share to 0.66 points (standard error), three of which are left
      // to the short run.
      if (factor == 0) {
        EXPECT_LE(shares.share(shares.different), full() ? 5.0 : 4.55 + 2.0);
      }
      // 1.412 U is twice U with k = 2 in one dimension: four standard deviations.
      if (factor > 1.4) {
        EXPECT_GE(shares.share(shares.different), 80);
      }
    }
  page.add("\n");
}

/// Whole rounds: every two collectors' means of every item. They are of one colour, so "different" is wrong
/// each time.
TEST(SimulatedRounds, CollectorsWithHonestUncertaintiesAreRarelyCalledDifferent) {
  NormalColors random(32);
  const int rounds = full() ? 400 : 20;
  int pairs = 0, wrong = 0;
  for (int i = 0; i < rounds; ++i) {
    const auto round = simulated_round({}, random);
    for (const auto& a : round.table.cells)
      for (const auto& b : round.table.cells) {
        if (a.item != b.item || a.participant >= b.participant) continue;
        ++pairs;
        wrong += agreement_between(a.mean, b.mean).verdict == Verdict::different;
      }
  }
  ResultsPage::instance().add(
      fmt::format("## Whole rounds\n\n{} rounds of 8 collectors, 5 items, 3 repeats (seed 32): {} pairs of "
                  "collectors reading one item, "
                  "{:.2f} % called different, wrongly.\n\n",
                  rounds, pairs, 100.0 * wrong / pairs));
  EXPECT_GE(pairs, 500);
  EXPECT_LE(100.0 * wrong / pairs, 5.0);
}

struct Coverage {
  int intervals = 0, covered = 0;
  double width = 0;
  double percent() const { return 100.0 * covered / intervals; }
};

Coverage coverage_of(const SimulatedSetup& setup, bool with_reference, int rounds) {
  NormalColors random(33);
  Coverage coverage;
  for (int i = 0; i < rounds; ++i) {
    const auto round = simulated_round(setup, random);
    std::vector<std::optional<ReferenceColor>> references(round.truths.size());
    // One instrument measured all items: its error is common to them.
    const Matrix3 of_reference = Matrix3::diagonal(0.04, 0.04, 0.04);
    const Vector3 error = vector_from(random.draw({}, of_reference));
    for (std::size_t item = 0; with_reference && item < references.size(); ++item) {
      const Lab& truth = round.truths[item];
      references[item] = {round.table.items[item],
                          {{truth.l + error[0], truth.a + error[1], truth.b + error[2]}, of_reference},
                          "simulated"};
    }
    for (const auto& bias : biases_of(round.table, references))
      for (std::size_t k = 0; k < 3; ++k) {
        ++coverage.intervals;
        coverage.covered += std::abs(bias.bias[k] - round.biases[bias.participant][k]) <= bias.half_width[k];
        coverage.width += bias.half_width[k];
      }
  }
  coverage.width /= coverage.intervals;
  return coverage;
}

TEST(SimulatedRounds, BiasIntervalsCoverTheTrueBias) {
  const int rounds = full() ? 1500 : 150;
  auto& page = ResultsPage::instance();
  page.add(fmt::format(
      "## Bias intervals\n\n{} rounds a line, seed 33: share of the 95 % intervals that hold the true bias, "
      "and their "
      "mean half-width in Lab units. Biases have a standard deviation of 0.7 in each coordinate, vary by 0.3 "
      "from item to item, repeats by 0.3; a reference's standard uncertainty is 0.2.\n\n"
      "| collectors | items | repeats | against | intervals | covered | half-width |\n"
      "| --- | --- | --- | --- | --- | --- | --- |\n",
      rounds));
  for (const bool with_reference : {true, false})
    for (const auto& [collectors, items, repeats] :
         {std::array<std::size_t, 3>{4, 3, 3}, {4, 10, 2}, {8, 3, 1}, {8, 6, 3}, {12, 20, 2}}) {
      SimulatedSetup setup;
      setup.collectors = collectors;
      setup.items = items;
      setup.repeats = repeats;
      const auto coverage = coverage_of(setup, with_reference, rounds);
      page.add(fmt::format("| {} | {} | {} | {} | {} | {:.1f} % | {:.2f} |\n", collectors, items, repeats,
                           with_reference ? "reference" : "others", coverage.intervals, coverage.percent(),
                           coverage.width));
      EXPECT_GE(coverage.percent(), 90);
      EXPECT_LE(coverage.percent(), 98);
    }
  page.add("\n");
}

/// Two items: only the scatter of the repeats is known, and the interval says so; it holds where a bias is
/// the same for both items.
TEST(SimulatedRounds, BiasIntervalsFromRepeatsHoldForTheseItems) {
  SimulatedSetup setup;
  setup.collectors = 10;
  setup.items = 2;
  setup.interaction_sd = 0;
  const auto coverage = coverage_of(setup, true, 150);
  std::printf("2 items, 3 repeats: %.1f %% of %d intervals\n", coverage.percent(), coverage.intervals);
  EXPECT_GE(coverage.percent(), 90);
  EXPECT_LE(coverage.percent(), 98);
}

}  // namespace
}  // namespace colorlib
