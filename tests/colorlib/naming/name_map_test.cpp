#include <gmock/gmock.h>

#include <colorlib/base/data_folder.hpp>
#include <colorlib/naming/name_map.hpp>

namespace colorlib {
namespace {

TEST(NameMap, EveryNodeBearsTheNameThatDescribeGives) {
  const auto namer = Namer::load(data_folder());
  ASSERT_TRUE(namer);
  const NameMap map = name_map(*namer, {42, 20, 29}, 20, 2.5, NameLevel::full);
  ASSERT_EQ(map.columns, 17);
  for (int r = 0; r < map.rows; r += 4)
    for (int c = 0; c < map.columns; c += 4) {
      const Lab lab{42, map.a_low + c * map.step, map.b_low + r * map.step};
      const auto& name = namer->names().names_at(
          NameLevel::full)[static_cast<std::size_t>(map.name[static_cast<std::size_t>(r * map.columns + c)])];
      EXPECT_EQ(name, namer->describe(lab, Matrix3{}).name.name) << lab.a << " " << lab.b;
    }
  // Labels lie in their own area, largest first, each name once.
  int nodes = 0;
  for (std::size_t i = 0; i < map.labels.size(); ++i) {
    const auto& label = map.labels[i];
    EXPECT_EQ(namer->describe({42, label.a, label.b}, Matrix3{}).name.name, label.text);
    if (i > 0) {
      EXPECT_LE(label.nodes, map.labels[i - 1].nodes);
    }
    nodes += label.nodes;
  }
  EXPECT_EQ(nodes, map.rows * map.columns);
}

}  // namespace
}  // namespace colorlib
