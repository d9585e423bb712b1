#include <gmock/gmock.h>

#include <cmath>
#include <colorlib/colorimetry/chromatic_adaptation.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/colorimetry/display_transform.hpp>
#include <tests/support/color_matchers.hpp>
#include <vector>

namespace colorlib {
namespace {

using testing::Eq;
using testing::HasSubstr;

/// 8-bit sRGB of a Lab colour by our own formulas: independent of LittleCMS.
std::array<int, 3> own_srgb(const Lab& lab) {
  const LinearRgb rgb = linear_srgb_from_xyz(
      adapted(xyz_from_lab(lab, white_d50), white_d50, white_d65, AdaptationMethod::bradford));
  const auto level = [](double v) { return static_cast<int>(std::lround(255 * srgb_from_linear(v))); };
  return {level(rgb.r), level(rgb.g), level(rgb.b)};
}

Lab lab_of(const std::uint8_t* rgb) {
  const auto linear = [](int v) { return linear_from_srgb(v / 255.0); };
  return lab_from_xyz(adapted(xyz_from_linear_srgb({linear(rgb[0]), linear(rgb[1]), linear(rgb[2])}),
                              white_d65, white_d50, AdaptationMethod::bradford),
                      white_d50);
}

TEST(DisplayTransform, AgreesWithOurFormulasInsideSrgb) {
  const auto screen = DisplayTransform::srgb();
  ASSERT_TRUE(screen);
  int worst = 0, tried = 0;
  for (double l = 20; l <= 90; l += 10)
    for (double a = -20; a <= 20; a += 10)
      for (double b = -20; b <= 30; b += 10) {
        const Lab lab{l, a, b};
        const auto expected = own_srgb(lab);
        if (*std::min_element(expected.begin(), expected.end()) < 0 ||
            *std::max_element(expected.begin(), expected.end()) > 255)
          continue;
        std::uint8_t rgb[3], clipped = 9;
        screen->from_lab(&lab, rgb, &clipped, 1);
        EXPECT_THAT(clipped, Eq(0));
        for (std::size_t k = 0; k < 3; ++k) worst = std::max(worst, std::abs(rgb[k] - expected[k]));
        ++tried;
      }
  EXPECT_GT(tried, 200);
  // LittleCMS's sRGB primaries are rounded to s15Fixed16 and its matrix differs in the fourth digit.
  EXPECT_LE(worst, 1);
}

TEST(DisplayTransform, ColoursBeyondTheScreenKeepLightnessAndHue) {
  const auto screen = DisplayTransform::srgb();
  ASSERT_TRUE(screen);
  for (const Lab& vivid : {Lab{60, -60, -40}, Lab{70, 60, 95}, Lab{40, 90, -115}, Lab{85, -90, 60}}) {
    std::uint8_t rgb[3], clipped = 0;
    screen->from_lab(&vivid, rgb, &clipped, 1);
    EXPECT_THAT(clipped, Eq(1));
    const Lab shown = lab_of(rgb);
    EXPECT_NEAR(shown.l, vivid.l, 0.6);  // 8-bit steps
    EXPECT_NEAR(std::atan2(shown.b, shown.a), std::atan2(vivid.b, vivid.a), 0.03);
    EXPECT_LT(std::hypot(shown.a, shown.b), std::hypot(vivid.a, vivid.b));
  }
}

TEST(DisplayTransform, SrgbPicturesPassUnchangedOnAnSrgbScreen) {
  const auto screen = DisplayTransform::srgb();
  ASSERT_TRUE(screen);
  const std::vector<float> values{0, 0.5f, 1, 1.2f, -0.1f, 100 / 255.f};
  std::vector<std::uint8_t> rgb(6);
  screen->from_srgb(values.data(), rgb.data(), 2);
  EXPECT_THAT(rgb, testing::ElementsAre(0, 128, 255, 255, 0, 100));
}

TEST(DisplayTransform, RefusesWhatIsNoScreenProfile) {
  EXPECT_THAT(DisplayTransform::create("no profile"),
              FailsWith(ErrorCode::unreadable_table, HasSubstr("no sound ICC profile")));
  EXPECT_THAT(DisplayTransform::create(""),
              FailsWith(ErrorCode::unreadable_table, HasSubstr("no sound ICC profile")));
}

}  // namespace
}  // namespace colorlib
