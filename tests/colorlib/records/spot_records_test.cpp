#include <gmock/gmock.h>

#include <colorlib/specimen/flags.hpp>
#include <tests/colorlib/records/example_series.hpp>

namespace colorlib {
namespace {

using testing::AllOf;
using testing::HasSubstr;

/// The spots of a series whose spot (0) or control (1) readings lie outside the sheet's opening.
std::vector<SpotRecord> spots_with_outside(std::initializer_list<std::size_t> outside) {
  SeriesRecord series = series_record(course_named("R1"), geometric_s);
  for (FrameRecord& frame : series.frames) {
    if (frame.dropped) continue;
    for (Reading& reading : frame.record.readings) reading.flags.clear();
    for (const std::size_t place : outside)
      frame.record.readings[place].flags.push_back(flag("outside-opening"));
  }
  return spot_records(series.frames, true);
}

TEST(SpotRecords, AControlOnThePrintedSheetIsRefused) {
  const auto spots = spots_with_outside({1});
  ASSERT_EQ(spots.size(), 1U);
  ASSERT_TRUE(spots[0].refused);
  EXPECT_EQ(spots[0].refused->code, ErrorCode::unreadable_regions);
  EXPECT_THAT(spots[0].refused->message, AllOf(HasSubstr("spot 'A'"), HasSubstr("control 'C'"),
                                               HasSubstr("outside the sheet's opening")));
}

TEST(SpotRecords, BesideASheetWithoutAnOpeningControlsStand) {
  EXPECT_FALSE(spots_with_outside({0, 1})[0].refused);
  EXPECT_FALSE(spots_with_outside({})[0].refused);
}

}  // namespace
}  // namespace colorlib
