#include <gmock/gmock.h>

#include <cmath>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/specimen/layer_thickness.hpp>
#include <colorlib/specimen/masstone.hpp>

#include "tests/support/color_matchers.hpp"

namespace colorlib {
namespace {

using testing::HasSubstr;

/// A film that obeys the model: thickness log-normal, scattering falling a little with wavelength.
FilmSample film_of(const Lab& masstone, double power, double spread, const Lab& ground,
                   double reading_sd = 0.3) {
  constexpr double nm[] = {600, 540, 450};
  const Vector3 endless = narrow_responses(xyz_from_lab(masstone, white_d50));
  const Vector3 under = narrow_responses(xyz_from_lab(ground, white_d50));
  FilmSample film;
  Vector3 mean{};
  constexpr int shares = 9;
  constexpr double quantiles[shares] = {-1.593, -0.967, -0.589, -0.282, 0, 0.282, 0.589, 0.967, 1.593};
  for (const double z : quantiles) {
    Vector3 share{};
    for (std::size_t c = 0; c < 3; ++c) {
      const double here = power * std::exp(spread * z) * std::pow(nm[c] / 550, -0.4);
      share[c] = layer_reflectance({endless[c], here}, under[c]);
      mean[c] += share[c] / shares;
    }
    film.shares.push_back(share);
  }
  film.noise = {1e-3, 1e-3, 1e-3};
  film.seen = lab_from_xyz(xyz_from_narrow(mean), white_d50);
  film.ground = ground;
  film.seen_covariance = film.ground_covariance =
      Matrix3::diagonal(reading_sd * reading_sd, reading_sd * reading_sd, reading_sd * reading_sd);
  return film;
}

const Lab ochre{62, 9, 36}, black{18, 0, 0}, white{95, 0, -2};

TEST(Masstone, TwoGroundsGiveTheColourOfAThickLayer) {
  for (const double power : {0.6, 1.0, 2.0}) {
    const FilmSample films[] = {film_of(ochre, power, 0.2, black), film_of(ochre, power, 0.2, white)};
    const auto masstone = masstone_of(films, MasstoneMethod::two_grounds, {});
    ASSERT_TRUE(masstone) << masstone.error().message;
    EXPECT_THAT(masstone->lab, NearInDeltaE(ochre, 0.3)) << power;
    EXPECT_NEAR(masstone->scattering_power, power, 0.05 * power);
  }
}

// Two readings of one dark colour, each good to L* 0.3, cannot show that a layer hides its ground better than
// the readings agree: 2 % of Y a film here, of which films in one photo share most.
TEST(Masstone, ALayerThatHidesAllIsNotKnownToHideAll) {
  const FilmSample films[] = {film_of({17, 11, 11}, 30, 0.2, black), film_of({17, 11, 11}, 30, 0.2, white)};
  const auto masstone = masstone_of(films, MasstoneMethod::two_grounds, {});
  ASSERT_TRUE(masstone) << masstone.error().message;
  EXPECT_NEAR(masstone->contrast_ratio, 1, 0.001);
  EXPECT_GT(masstone->contrast_ratio_standard, 0.01);
  EXPECT_LT(masstone->contrast_ratio_standard, 0.03);
}

TEST(Masstone, UnevenThicknessGivesItToo) {
  const FilmSample film = film_of(ochre, 1.2, 0.4, white);
  const auto masstone = masstone_of({&film, 1}, MasstoneMethod::uneven_thickness, {});
  ASSERT_TRUE(masstone) << masstone.error().message;
  EXPECT_THAT(masstone->lab, NearInDeltaE(ochre, 1.0));
}

TEST(Masstone, UncertaintyGrowsAsTheLayerThins) {
  double last = 0;
  for (const double power : {3.0, 1.5, 1.0, 0.7, 0.55}) {
    const FilmSample films[] = {film_of(ochre, power, 0.2, black), film_of(ochre, power, 0.2, white)};
    const auto masstone = masstone_of(films, MasstoneMethod::two_grounds, {});
    ASSERT_TRUE(masstone) << power << ' ' << masstone.error().message;
    const double size = std::sqrt(masstone->lab_covariance(0, 0) + masstone->lab_covariance(1, 1) +
                                  masstone->lab_covariance(2, 2));
    EXPECT_GT(size, last) << power;
    last = size;
  }
}

TEST(Masstone, TooThinALayerIsRefusedWithItsContrastRatio) {
  const FilmSample films[] = {film_of(ochre, 0.25, 0.2, black), film_of(ochre, 0.25, 0.2, white)};
  std::optional<Masstone> contrast;
  const auto masstone = masstone_of(films, MasstoneMethod::two_grounds, {}, &contrast);
  EXPECT_THAT(masstone, FailsWith(ErrorCode::untrustworthy, HasSubstr("at least 50 % must be sure")));
  EXPECT_THAT(masstone.error().advice, HasSubstr("heap"));
  ASSERT_TRUE(contrast);
  EXPECT_LT(contrast->contrast_ratio, 0.45);
  EXPECT_GT(contrast->contrast_ratio, 0.2);
}

TEST(Masstone, LikeGroundsAreRefused) {
  const FilmSample films[] = {film_of(ochre, 1, 0.2, white), film_of(ochre, 1, 0.2, {90, 0, 0})};
  EXPECT_THAT(masstone_of(films, MasstoneMethod::two_photos, {}),
              FailsWith(ErrorCode::untrustworthy, HasSubstr("both grounds look alike")));
}

TEST(Masstone, WhatIsNoLayerIsRefused) {
  // Shares that go from blue to red are no pigment over a white ground.
  FilmSample film = film_of(ochre, 1, 0.3, white);
  for (std::size_t s = 0; s < film.shares.size(); ++s) {
    const double t = static_cast<double>(s) / 8;
    film.shares[s] = {0.1 + 0.6 * t, 0.3, 0.7 - 0.6 * t};
  }
  EXPECT_THAT(masstone_of({&film, 1}, MasstoneMethod::uneven_thickness, {}),
              FailsWith(ErrorCode::untrustworthy, HasSubstr("not one pigment")));
}

TEST(Masstone, NarrowResponsesOfWhiteAreOne) {
  const Vector3 responses = narrow_responses(white_d50);
  for (const double r : responses) EXPECT_NEAR(r, 1, 1e-12);
  const Xyz xyz{0.3, 0.25, 0.1}, back = xyz_from_narrow(narrow_responses(xyz));
  EXPECT_NEAR(back.x, xyz.x, 1e-12);
  EXPECT_NEAR(back.y, xyz.y, 1e-12);
  EXPECT_NEAR(back.z, xyz.z, 1e-12);
}

}  // namespace
}  // namespace colorlib
