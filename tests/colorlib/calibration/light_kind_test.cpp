#include <gmock/gmock.h>

#include <colorlib/calibration/light_kind.hpp>

namespace colorlib {
namespace {

using testing::Eq;

TEST(LightKind, NamesLeadBack) {
  for (const LightKind kind :
       {LightKind::unstated, LightKind::daylight, LightKind::lamp, LightKind::tube, LightKind::mixed})
    EXPECT_THAT(light_kind_from(light_kind_name(kind)), Eq(kind)) << light_kind_name(kind);
  EXPECT_THAT(light_kind_from(""), Eq(LightKind::unstated));
  EXPECT_THAT(light_kind_from("tube"), Eq(LightKind::tube));
  EXPECT_THAT(light_kind_from("Lamp"), Eq(std::nullopt));
}

}  // namespace
}  // namespace colorlib
