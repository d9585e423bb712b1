#include <gmock/gmock.h>

#include <tests/viewer/command/command_run.hpp>

namespace tintfall {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;

TEST(ChartPrint, SaysWhenTheLabelIsCut) {
  const ScratchFolder scratch;
  const auto print = [&](const std::string& label) {
    const auto run =
        run_tintfall({"chart", "print", "frame-a5", "--out", scratch.path("sheet.svg"), "--label", label});
    EXPECT_EQ(run.status, 0) << run.err;
    EXPECT_TRUE(scratch.has("sheet.svg"));
    return run.err;
  };
  EXPECT_THAT(print("A5-03"), IsEmpty());
  EXPECT_THAT(print("A very long label that says much more than a sheet has room for"),
              HasSubstr("is too long for its field, so the sheet shows only its beginning"));
}

}  // namespace
}  // namespace tintfall
