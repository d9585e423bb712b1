#include <gtest/gtest.h>

#include <cmath>
#include <colorlib/base/data_folder.hpp>
#include <colorlib/colorimetry/cie_tables.hpp>
#include <colorlib/colorimetry/spectrum.hpp>
#include <limits>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

using testing::HasSubstr;

CieTables tables() { return read_cie_tables(data_folder() / "reference").value(); }

Spectrum sampled(double start_nm, double end_nm, double step_nm, double (*curve)(double)) {
  Spectrum spectrum{start_nm, step_nm, {}};
  for (int i = 0; start_nm + i * step_nm <= end_nm; ++i)
    spectrum.values.push_back(curve(start_nm + i * step_nm));
  return spectrum;
}

double cubic(double nm) {
  const double t = (nm - 550) / 100;
  return 0.4 + 0.1 * t - 0.05 * t * t + 0.02 * t * t * t;
}

/// A brown: low in blue, rising smoothly through green and orange.
double brown(double nm) { return 0.05 + 0.35 / (1 + std::exp(-(nm - 580) / 30)); }

TEST(SpectrumValues, ACubicIsMetEverywhereBetweenItsSamples) {
  const Spectrum spectrum = sampled(400, 700, 20, cubic);
  for (double nm = 400; nm <= 700; nm += 0.5) EXPECT_NEAR(value_at(spectrum, nm), cubic(nm), 1e-14) << nm;
}

TEST(SpectrumValues, SamplesThemselvesAreKept) {
  const Spectrum spectrum = sampled(380, 780, 10, brown);
  for (std::size_t i = 0; i < spectrum.values.size(); ++i)
    EXPECT_EQ(value_at(spectrum, spectrum.wavelength_nm(i)), spectrum.values[i]);
}

TEST(SpectrumValues, EndsAreHeld) {
  const Spectrum spectrum = sampled(400, 700, 10, brown);
  EXPECT_EQ(value_at(spectrum, 399.999), spectrum.values.front());
  EXPECT_EQ(value_at(spectrum, 0), spectrum.values.front());
  EXPECT_EQ(value_at(spectrum, 700.001), spectrum.values.back());
  EXPECT_EQ(value_at(spectrum, 1e9), spectrum.values.back());
}

TEST(SpectrumValues, FewSamplesGiveALowerOrder) {
  EXPECT_EQ(value_at({}, 500), 0);
  EXPECT_EQ(value_at({500, 10, {0.3}}, 505), 0.3);
  EXPECT_NEAR(value_at({500, 10, {0.3, 0.5}}, 505), 0.4, 1e-15);
  EXPECT_NEAR(value_at({500, 10, {0, 1, 4}}, 505), 0.25, 1e-15);
}

TEST(SpectrumValues, ResamplingIsValueAtEachPlace) {
  const Spectrum spectrum = sampled(400, 700, 20, brown);
  const Spectrum fine = resampled(spectrum, 390, 5, 65);
  ASSERT_EQ(fine.values.size(), 65u);
  EXPECT_EQ(fine.end_nm(), 710);
  for (std::size_t i = 0; i < 65; ++i) EXPECT_EQ(fine.values[i], value_at(spectrum, fine.wavelength_nm(i)));
}

TEST(ReflectanceSums, PerfectDiffuserIsTheWhite) {
  const auto cie = tables();
  const Spectrum diffuser{380, 5, std::vector<double>(81, 1.0)};
  for (const auto which : {Illuminant::a, Illuminant::c, Illuminant::d50, Illuminant::d65}) {
    const auto& light = cie.illuminant(which);
    EXPECT_EQ(xyz_from_reflectance(diffuser, light, cie.observer_1931).value(),
              white_of(light, cie.observer_1931).value());
    EXPECT_EQ(white_of(light, cie.observer_1931)->y, 1.0);
    EXPECT_EQ(lab_from_reflectance(diffuser, light, cie.observer_1931).value(), (Lab{100, 0, 0}));
  }
}

TEST(ReflectanceSums, AreLinearInTheReflectanceAndFreeOfTheIlluminantsScale) {
  const auto cie = tables();
  const Spectrum full = sampled(380, 780, 5, brown);
  Spectrum half = full, bright = cie.illuminant_a;
  for (double& value : half.values) value /= 2;
  for (double& value : bright.values) value *= 1024;
  const Xyz whole = xyz_from_reflectance(full, cie.illuminant_a, cie.observer_1931).value();
  const Xyz halved = xyz_from_reflectance(half, bright, cie.observer_1931).value();
  // Halves and powers of two are exact in binary.
  EXPECT_EQ(halved, (Xyz{whole.x / 2, whole.y / 2, whole.z / 2}));
}

TEST(ReflectanceSums, CoarseAndShortSpectraOfASmoothColourComeClose) {
  const auto cie = tables();
  const Lab fine =
      lab_from_reflectance(sampled(380, 780, 5, brown), cie.illuminant_d50, cie.observer_1931).value();
  struct {
    double start_nm, end_nm, step_nm, tolerance;
  } const cases[] = {{380, 730, 10, 0.02},
                     {400, 700, 10, 0.02},
                     {360, 780, 20, 0.1},
                     {400, 700, 20, 0.1},
                     {360, 830, 1, 0.01}};
  for (const auto& c : cases) {
    const auto lab = lab_from_reflectance(sampled(c.start_nm, c.end_nm, c.step_nm, brown), cie.illuminant_d50,
                                          cie.observer_1931);
    // A slope 30 nm wide: fourth differences of 20 nm steps are of the order of 1e-3 of the reflectance.
    EXPECT_THAT(lab.value(), NearInDeltaE(fine, c.tolerance))
        << c.start_nm << " to " << c.end_nm << " by " << c.step_nm;
  }
}

TEST(ReflectanceSums, UnusableSpectraAreRefusedWithTheReason) {
  const auto cie = tables();
  const auto sum = [&cie](const Spectrum& reflectance) {
    return xyz_from_reflectance(reflectance, cie.illuminant_d50, cie.observer_1931);
  };
  EXPECT_THAT(sum({}), FailsWith(ErrorCode::bad_call, HasSubstr("0 samples")));
  EXPECT_THAT(sum({400, 0, std::vector<double>(31, 0.5)}),
              FailsWith(ErrorCode::bad_call, HasSubstr("steps of 0 nm")));
  EXPECT_THAT(sum({700, -10, std::vector<double>(31, 0.5)}),
              FailsWith(ErrorCode::bad_call, HasSubstr("positive")));
  EXPECT_THAT(sum(sampled(400, 700, 25, brown)), FailsWith(ErrorCode::bad_call, HasSubstr("steps of 25 nm")));
  EXPECT_THAT(sum(sampled(410, 700, 10, brown)),
              FailsWith(ErrorCode::bad_call, HasSubstr("from 410 to 700 nm")));
  EXPECT_THAT(sum(sampled(400, 690, 10, brown)),
              FailsWith(ErrorCode::bad_call, HasSubstr("from 400 to 690 nm")));
  Spectrum endless = sampled(400, 700, 10, brown);
  endless.values[7] = std::numeric_limits<double>::quiet_NaN();
  EXPECT_THAT(sum(endless), FailsWith(ErrorCode::bad_call, HasSubstr("not a finite number")));
  endless.values[7] = std::numeric_limits<double>::max();
  EXPECT_THAT(sum(endless), FailsWith(ErrorCode::bad_call, HasSubstr("too large")));
}

TEST(ReflectanceSums, AnIlluminantWithoutPowerIsRefused) {
  const auto cie = tables();
  EXPECT_THAT(white_of({380, 5, std::vector<double>(81, 0.0)}, cie.observer_1931),
              FailsWith(ErrorCode::bad_call, HasSubstr("no power")));
  EXPECT_THAT(lab_from_reflectance(sampled(400, 700, 10, brown), {}, cie.observer_1931),
              FailsWith(ErrorCode::bad_call, HasSubstr("illuminant holds 0 samples")));
}

TEST(ReflectanceSums, AnObserverOnMixedWavelengthsIsRefused) {
  auto cie = tables();
  cie.observer_1931.z_bar.start_nm = 385;
  EXPECT_THAT(white_of(cie.illuminant_d50, cie.observer_1931),
              FailsWith(ErrorCode::bad_call, HasSubstr("different wavelengths")));
}

}  // namespace
}  // namespace colorlib
