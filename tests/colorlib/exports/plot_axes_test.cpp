#include <gmock/gmock.h>

#include <colorlib/exports/plot_axes_internal.hpp>

namespace colorlib {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;
using testing::Le;
using testing::SizeIs;

TEST(RoundTicks, AreRoundAndWithinTheAxis) {
  EXPECT_THAT(round_ticks(0, 42, 5), ElementsAre(0, 10, 20, 30, 40));
  EXPECT_THAT(round_ticks(-3, 3.9, 4), ElementsAre(-2, 0, 2));
  EXPECT_THAT(round_ticks(1, 1, 5), IsEmpty());
}

// Found by thinking of times that a damaged record may hold: a step that is lost in the last digit never
// arrived.
TEST(RoundTicks, EndFarFromZeroToo) { EXPECT_THAT(round_ticks(1e9, 1e9 + 1e-7, 5), SizeIs(Le(20u))); }

}  // namespace
}  // namespace colorlib
