#include <fmt/format.h>
#include <gmock/gmock.h>

#include <algorithm>
#include <colorlib/chart/reference_values.hpp>
#include <functional>
#include <random>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

using testing::AllOf;
using testing::HasSubstr;

using Change = std::function<Lab(const Lab&)>;

std::string table_of(const ChartDefinition& chart, const std::vector<Lab>& colours) {
  std::string text = "SAMPLE_ID,LAB_L,LAB_A,LAB_B\n";
  for (std::size_t i = 0; i < colours.size(); ++i)
    text += fmt::format("{},{:.4f},{:.4f},{:.4f}\n", chart.patches[i].id, colours[i].l, colours[i].a,
                        colours[i].b);
  return text;
}

/// A print of the chart: what is asked for, changed by `change`, patch by patch a little off.
std::vector<Lab> printed(const ChartDefinition& chart, const Change& change, double sd, unsigned seed) {
  std::mt19937 random(seed);
  std::normal_distribution<double> off(0, sd);
  std::vector<Lab> colours;
  for (const Patch& patch : chart.patches) {
    const Lab colour = change(patch.nominal_lab);
    colours.push_back(
        {std::clamp(colour.l + off(random), 0.0, 100.0), colour.a + off(random), colour.b + off(random)});
  }
  return colours;
}

Result<ReferenceValues> read(const ChartDefinition& chart, std::vector<Lab> colours,
                             const Change& written = {}) {
  if (written) std::transform(colours.begin(), colours.end(), colours.begin(), written);
  return parse_reference(table_of(chart, colours), "ref.csv", chart);
}

const std::vector<ChartDefinition>& charts() {
  static const std::vector<ChartDefinition> all = shipped_charts().value();
  return all;
}

Lab as_asked(const Lab& c) { return c; }
Lab uncoated(const Lab& c) { return {25 + 0.7 * c.l, 0.65 * c.a, 0.65 * c.b}; }
Lab bad(const Lab& c) { return {0.8 * c.l, 0.5 * c.a, 8 + 0.5 * c.b}; }
Lab without_magenta(const Lab& c) { return {c.l, 0.2 * c.a - 8, c.b}; }

TEST(ReferencePlausibility, PrintsHoweverBadAreTaken) {
  constexpr unsigned seed = 7301;
  for (const ChartDefinition& chart : charts())
    for (const Change& change : {Change(as_asked), Change(uncoated), Change(bad), Change(without_magenta)})
      for (const double sd : {0.0, 1.8, 4.0}) {
        const auto values = read(chart, printed(chart, change, sd, seed));
        EXPECT_TRUE(values) << chart.name << ", " << sd << ": " << values.error().message;
      }
}

struct Mistake {
  const char* what;
  Change written;
  std::vector<const char*> words;
};

TEST(ReferencePlausibility, FilesThatCannotBeAPrintsAreRefusedWithTheLikelyCause) {
  constexpr unsigned seed = 7302;
  const Mistake mistakes[] = {
      {"all on a scale of 1",
       [](const Lab& c) {
         return Lab{c.l / 100, c.a / 100, c.b / 100};
       },
       {"lightest patch has L* 0.9", "L*, a* and b* stood on a scale of 0 to 1"}},
      {"L* on a scale of 1",
       [](const Lab& c) {
         return Lab{c.l / 100, c.a, c.b};
       },
       {"as if L* stood on a scale of 0 to 1"}},
      {"a* and b* on a scale of 1",
       [](const Lab& c) {
         return Lab{c.l, c.a / 100, c.b / 100};
       },
       {"asks its printer for", "a* and b* are no larger than 0."}},
      {"a* and b* exchanged",
       [](const Lab& c) {
         return Lab{c.l, c.b, c.a};
       },
       {"ΔE00", "the columns a* and b* are exchanged"}},
      {"a* turned",
       [](const Lab& c) {
         return Lab{c.l, -c.a, c.b};
       },
       {"the sign of a* is turned"}},
      {"b* turned",
       [](const Lab& c) {
         return Lab{c.l, c.a, -c.b};
       },
       {"the sign of b* is turned"}},
      {"L* turned",
       [](const Lab& c) {
         return Lab{100 - c.l, c.a, c.b};
       },
       {"L* counts from white to black"}},
  };
  for (const ChartDefinition& chart : charts())
    for (const Change& print : {Change(as_asked), Change(uncoated)})
      for (const Mistake& mistake : mistakes) {
        const auto values = read(chart, printed(chart, print, 1.8, seed), mistake.written);
        ASSERT_THAT(values, FailsWith(ErrorCode::unreadable_reference, HasSubstr("ref.csv")))
            << chart.name << ", " << mistake.what;
        for (const char* word : mistake.words)
          EXPECT_THAT(values.error().message, HasSubstr(word)) << chart.name << ", " << mistake.what;
        EXPECT_FALSE(values.error().advice.empty());
      }
}

TEST(ReferencePlausibility, RowsInAnotherOrderAreRefused) {
  constexpr unsigned seed = 7303;
  std::mt19937 random(seed);
  for (const ChartDefinition& chart : charts())
    for (int trial = 0; trial < 20; ++trial) {
      auto colours = printed(chart, as_asked, 1.8, seed);
      std::shuffle(colours.begin(), colours.end(), random);
      EXPECT_THAT(read(chart, colours),
                  FailsWith(ErrorCode::unreadable_reference,
                            AllOf(HasSubstr("half of its patches"), HasSubstr(chart.name))));
    }
}

TEST(ReferencePlausibility, AChartThatAsksForNothingInParticularOnlyKnowsTheScale) {
  ChartDefinition chart = find_chart("strip").value();
  const auto colours = printed(chart, as_asked, 1, 7304);
  for (Patch& patch : chart.patches) patch.nominal_lab = {50, 0, 0};
  EXPECT_TRUE(read(chart, colours));
  EXPECT_TRUE(read(chart, colours, [](const Lab& c) { return Lab{c.l, c.b, c.a}; }));
  EXPECT_THAT(read(chart, colours,
                   [](const Lab& c) {
                     return Lab{c.l / 100, c.a / 100, c.b / 100};
                   }),
              FailsWith(ErrorCode::unreadable_reference, HasSubstr("scale of 0 to 1")));
}

}  // namespace
}  // namespace colorlib
