#include <colorlib/calibration/calibration.hpp>
#include <colorlib/calibration/lighting_field.hpp>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

using testing::HasSubstr;

TEST(Calibrate, ALightingFieldOfAnOrderThatThereIsNotIsRefused) {
  const auto with_order = [](int order) {
    CalibrationOptions options;
    options.field_order = order;
    return calibrate({}, {}, {}, options);  // no patches
  };
  for (const int order : {-1, 0, 10, 1'000'000})
    EXPECT_THAT(with_order(order), FailsWith(ErrorCode::bad_call, HasSubstr("there are 1 to 9")));
  for (const int order : {1, 3, 9})
    EXPECT_THAT(with_order(order), FailsWith(ErrorCode::untrustworthy, HasSubstr("0 of 0 patches")));
}

TEST(Calibrate, TheHighestOrderFitsWhereItsValuesAreKept) {
  EXPECT_EQ(LightingBasis(210, 148, LightingBasis::most_order).size(), LightingBasis::most_size);
}

}  // namespace
}  // namespace colorlib
