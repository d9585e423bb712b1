// The check itself is checked: each rule is broken once, in a small tree in memory, and must be found.
#include <gmock/gmock.h>

#include <string>
#include <tests/layering/include_rules.hpp>

namespace layering {
namespace {

using testing::AllOf;
using testing::ElementsAre;
using testing::Field;
using testing::HasSubstr;
using testing::IsEmpty;

auto Says(const std::string& path, int line, const std::string& words) {
  return AllOf(Field(&Violation::path, path), Field(&Violation::line, line),
               Field(&Violation::sentence, HasSubstr(words)));
}

TEST(IncludesOf, FindsBothSpellingsAndIgnoresProse) {
  const auto found = includes_of(
      "#pragma once\n"
      "// #include <not/this.hpp>\n"
      "#include <colorlib/base/image.hpp>\n"
      "  #  include \"beside.hpp\"  // why\n"
      "#include MACRO\n"
      "#include <vector>");
  EXPECT_THAT(found,
              ElementsAre(AllOf(Field(&Include::line, 3), Field(&Include::target, "colorlib/base/image.hpp"),
                                Field(&Include::quoted, false)),
                          AllOf(Field(&Include::line, 4), Field(&Include::target, "beside.hpp"),
                                Field(&Include::quoted, true)),
                          AllOf(Field(&Include::line, 6), Field(&Include::target, "vector"))));
}

TEST(Rules, AllowTheWayOfTheData) {
  EXPECT_THAT(
      violations_in(
          {{"colorlib/base/image.hpp", "#include <vector>\n"},
           {"colorlib/chart/a.hpp", "#include <colorlib/base/image.hpp>\n"},
           {"colorlib/chart/a_internal.hpp", "#include <Eigen/Core>\n"},
           {"colorlib/chart/a.cpp", "#include <Eigen/Core>\n#include <colorlib/chart/a_internal.hpp>\n"},
           {"colorlib/records/r.hpp", "#include <nlohmann/json_fwd.hpp>\n"},
           {"viewer/command/c.cpp", "#include <QString>\n#include <colorlib/records/r.hpp>\n"},
           {"tests/colorlib/chart/a_test.cpp", "#include <colorlib/chart/a_internal.hpp>\n"}}),
      IsEmpty());
}

TEST(Rules, FindALaterRoomIncluded) {
  EXPECT_THAT(violations_in({{"colorlib/image/photo.hpp",
                              "#include <array>\n#include <colorlib/chart/geometry.hpp>\n"}}),
              ElementsAre(Says("colorlib/image/photo.hpp", 2, "image may not include chart")));
}

// Every ordered pair of rooms, so that no place in the order is forgotten: 11 x 10 = 110 trees.
TEST(Rules, JudgeEveryPairOfRooms) {
  const auto& rooms = rooms_in_order();
  ASSERT_EQ(rooms.size(), 12u);
  for (std::size_t from = 0; from < rooms.size(); ++from)
    for (std::size_t to = 0; to < rooms.size(); ++to) {
      if (from == to) continue;
      const bool allowed = to < from && !side_by_side(rooms[from], rooms[to]);
      const SourceFile file{"colorlib/" + rooms[from] + "/x.cpp",
                            "#include <colorlib/" + rooms[to] + "/y.hpp>\n"};
      EXPECT_EQ(violations_in({file}).empty(), allowed) << rooms[from] << " includes " << rooms[to];
    }
}

TEST(Rules, FindRoomsThatIncludeOneAnother) {
  EXPECT_THAT(violations_in({{"viewer/models/m.cpp", "#include <viewer/window/w.hpp>\n"},
                             {"viewer/tasks/t.cpp", "#include <viewer/models/m.hpp>\n"},
                             {"viewer/window/w.cpp", "\n#include <viewer/tasks/t.hpp>\n"}}),
              ElementsAre(Says("viewer/models/m.cpp", 1,
                               "viewer/models -> viewer/window -> viewer/tasks -> viewer/models")));
}

TEST(Rules, FindQtInTheLibrary) {
  EXPECT_THAT(violations_in({{"colorlib/base/a.cpp", "#include <QString>\n#include <QtCore/QFile>\n"}}),
              ElementsAre(Says("colorlib/base/a.cpp", 1, "Qt"), Says("colorlib/base/a.cpp", 2, "Qt")));
}

TEST(Rules, FindHeavyHeaders) {
  for (const std::string target : {"Eigen/Dense", "unsupported/Eigen/NonLinearOptimization",
                                   "nlohmann/json.hpp", "CLI/CLI.hpp", "lcms2.h"}) {
    const std::string line = "#include <" + target + ">\n";
    EXPECT_THAT(violations_in({{"colorlib/chart/a.hpp", line}}),
                ElementsAre(Says("colorlib/chart/a.hpp", 1, ".cpp")));
    EXPECT_THAT(violations_in({{"viewer/command/a.hpp", line}}),
                ElementsAre(Says("viewer/command/a.hpp", 1, ".cpp")));
  }
}

TEST(Rules, FindPrivateHeadersOfOtherRooms) {
  EXPECT_THAT(violations_in({{"colorlib/chart/a.cpp", "#include <colorlib/image/decode_internal.hpp>\n"}}),
              ElementsAre(Says("colorlib/chart/a.cpp", 1, "private to colorlib/image")));
}

TEST(Rules, FindTheLibraryReachingOut) {
  EXPECT_THAT(
      violations_in(
          {{"colorlib/base/a.cpp", "#include <tests/support/m.hpp>\n#include <viewer/command/c.hpp>\n"}}),
      ElementsAre(Says("colorlib/base/a.cpp", 1, "tests"), Says("colorlib/base/a.cpp", 2, "programs")));
}

TEST(Rules, FindIncludesWithoutRoom) {
  EXPECT_THAT(violations_in({{"colorlib/base/a.cpp", "#include \"a.hpp\"\n"}}),
              ElementsAre(Says("colorlib/base/a.cpp", 1, "does not say its room")));
}

TEST(Rules, FindUnknownRooms) {
  EXPECT_THAT(violations_in({{"colorlib/attic/a.cpp", ""}}),
              ElementsAre(Says("colorlib/attic/a.cpp", 0, "'attic'")));
}

TEST(Rules, FindNamesThatSayNothing) {
  EXPECT_THAT(violations_in({{"colorlib/base/utils.cpp", ""}}),
              ElementsAre(Says("colorlib/base/utils.cpp", 0, "name the idea")));
}

TEST(Rules, FindLongFiles) {
  const std::string longest_allowed(800, '\n');
  EXPECT_THAT(violations_in({{"colorlib/base/a.cpp", longest_allowed}}), IsEmpty());
  EXPECT_THAT(violations_in({{"colorlib/base/a.cpp", longest_allowed + "\n"}}),
              ElementsAre(Says("colorlib/base/a.cpp", 0, "801 lines")));
}

}  // namespace
}  // namespace layering
