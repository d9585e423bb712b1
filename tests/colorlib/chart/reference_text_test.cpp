#include <gmock/gmock.h>

#include <colorlib/chart/reference_text.hpp>

namespace colorlib {
namespace {

using testing::HasSubstr;

TEST(ReferenceText, ComesBackAsItWas) {
  const ChartDefinition chart = find_chart("frame-a5").value();
  ReferenceValues values = nominal_reference(chart);
  for (std::size_t i = 0; i < values.patches.size(); ++i) {
    values.patches[i].lab.a += 0.0123 * static_cast<double>(i);
    values.patches[i].standard_uncertainty = {0.1234, 0.2, 0.3 + 0.001 * static_cast<double>(i)};
  }
  const std::string text = reference_text(
      values, {{"CREATED", "2031-04-09"},
               {"MEASUREMENT_SOURCE", "chart transfer from frame-a5, values \"known\nsheet.txt\""}});
  const auto read = parse_reference(text, "new.txt", chart);
  ASSERT_TRUE(read) << read.error().message;
  EXPECT_EQ(read->kind, ReferenceKind::transferred);
  EXPECT_EQ(read->created, "2031-04-09");
  EXPECT_THAT(read->measurement_source, HasSubstr("values 'known sheet.txt'"));
  EXPECT_TRUE(read->remarks.empty()) << read->remarks.front();
  ASSERT_EQ(read->patches.size(), values.patches.size());
  for (std::size_t i = 0; i < values.patches.size(); ++i) {
    EXPECT_EQ(read->patches[i].id, values.patches[i].id);
    EXPECT_NEAR(read->patches[i].lab.a, values.patches[i].lab.a, 6e-5) << "four decimals are written";
    for (std::size_t k = 0; k < 3; ++k)
      EXPECT_NEAR(read->patches[i].standard_uncertainty[k], values.patches[i].standard_uncertainty[k], 6e-5);
  }
}

}  // namespace
}  // namespace colorlib
