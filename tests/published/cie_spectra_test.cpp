#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <colorlib/base/data_folder.hpp>
#include <colorlib/colorimetry/cie_tables.hpp>
#include <colorlib/colorimetry/spectrum.hpp>
#include <cstdio>
#include <tests/published/colord_spectra.hpp>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

CieTables tables() { return read_cie_tables(data_folder() / "reference").value(); }

struct Light {
  Illuminant which;
  const char* name;
  const char* file;
  White published;
};

// White points: CIE 15:2004 Table T.3 and ASTM E308 Table 5, cited from memory.
constexpr Light lights[] = {{Illuminant::a, "A", "illuminant/CIE-A.sp", white_a},
                            {Illuminant::c, "C", "illuminant/CIE-C.sp", white_c},
                            {Illuminant::d50, "D50", "illuminant/CIE-D50.sp", white_d50},
                            {Illuminant::d65, "D65", "illuminant/CIE-D65.sp", white_d65}};

/// XYZ by 5 nm sums from 380 to 780 nm in extended precision, from the package's files alone.
struct LongXyz {
  long double x = 0, y = 0, z = 0;
};
LongXyz summed(const colord::Spectra& observer, const colord::Spectra& light, const colord::Spectra* colors,
               std::size_t row) {
  LongXyz sum;
  long double norm = 0;
  for (int nm = 380; nm <= 780; nm += 5) {
    const long double power = light.at(0, nm);
    const long double stimulus = colors ? power * colors->at(row, nm) : power;
    sum.x += stimulus * observer.at(0, nm);
    sum.y += stimulus * observer.at(1, nm);
    sum.z += stimulus * observer.at(2, nm);
    norm += power * observer.at(1, nm);
  }
  return {sum.x / norm, sum.y / norm, sum.z / norm};
}

long double compressed(long double ratio) {
  return ratio > 216.0L / 24389.0L ? std::pow(ratio, 1.0L / 3.0L)
                                   : (24389.0L / 27.0L * ratio + 16.0L) / 116.0L;
}

TEST(CieSpectra, OurTablesHoldTheFiguresOfColordData) {
  const auto cie = tables();
  const auto observer = colord::read("cmf/CIE1931-2deg-XYZ.cmf");
  const Spectrum* functions[] = {&cie.observer_1931.x_bar, &cie.observer_1931.y_bar,
                                 &cie.observer_1931.z_bar};
  for (int i = 0; i < 81; ++i) {
    const int nm = 380 + 5 * i;
    for (std::size_t row = 0; row < 3; ++row)
      EXPECT_EQ(functions[row]->values[static_cast<std::size_t>(i)],
                static_cast<double>(observer.at(row, nm)))
          << nm;
    for (const auto& light : lights)
      EXPECT_EQ(cie.illuminant(light.which).values[static_cast<std::size_t>(i)],
                static_cast<double>(colord::read(light.file).at(0, nm)))
          << light.name << ' ' << nm;
  }
}

TEST(CieSpectra, WhitePointsAreThePublishedOnes) {
  const auto cie = tables();
  const auto observer = colord::read("cmf/CIE1931-2deg-XYZ.cmf");
  for (const auto& light : lights) {
    const auto theirs = summed(observer, colord::read(light.file), nullptr, 0);
    const White ours = white_of(cie.illuminant(light.which), cie.observer_1931).value();
    std::printf("%-3s  X %8.4f (published %7.3f)  Z %8.4f (published %7.3f)\n", light.name, 100 * ours.x,
                100 * light.published.x, 100 * ours.z, 100 * light.published.z);
    // 0.03 where Y = 100: the published ones were summed by 1 nm, ours by 5 nm; D50's table has three
    // decimals.
    EXPECT_NEAR(ours.x, light.published.x, 0.0003) << light.name;
    EXPECT_NEAR(ours.z, light.published.z, 0.0003) << light.name;
    EXPECT_NEAR(static_cast<double>(theirs.x), ours.x, 1e-13) << light.name;
    EXPECT_NEAR(static_cast<double>(theirs.z), ours.z, 1e-13) << light.name;
  }
}

TEST(CieSpectra, TestColorsOfCie13_3ComeOutAsInAnIndependentSum) {
  const auto cie = tables();
  const auto colors = colord::read("ref/CIE-TCS.sp");
  ASSERT_EQ(colors.rows.size(), 15u) << "the 14 of CIE 13.3 and one more";
  const auto observer = colord::read("cmf/CIE1931-2deg-XYZ.cmf");
  const auto light = colord::read("illuminant/CIE-D50.sp");
  const auto white = summed(observer, light, nullptr, 0);
  double worst = 0, worst_xyz = 0;
  for (std::size_t row = 0; row < 14; ++row) {
    const auto sum = summed(observer, light, &colors, row);
    const long double fx = compressed(sum.x / white.x), fy = compressed(sum.y / white.y),
                      fz = compressed(sum.z / white.z);
    const Lab expected{static_cast<double>(116 * fy - 16), static_cast<double>(500 * (fx - fy)),
                       static_cast<double>(200 * (fy - fz))};
    const Spectrum reflectance{static_cast<double>(colors.start_nm),
                               static_cast<double>(colors.step_nm),
                               {colors.rows[row].begin(), colors.rows[row].end()}};
    const Xyz xyz = xyz_from_reflectance(reflectance, cie.illuminant_d50, cie.observer_1931).value();
    const Lab lab = lab_from_reflectance(reflectance, cie.illuminant_d50, cie.observer_1931).value();
    worst = std::max(worst, difference_cie76(lab, expected));
    worst_xyz = std::max({worst_xyz, std::abs(xyz.x - static_cast<double>(sum.x)),
                          std::abs(xyz.y - static_cast<double>(sum.y)),
                          std::abs(xyz.z - static_cast<double>(sum.z))});
    std::printf("%s  Lab %7.3f %8.3f %8.3f (D50)\n", colors.names[row].c_str(), lab.l, lab.a, lab.b);
  }
  std::printf("14 colours: worst Lab distance %.2e, worst XYZ difference %.2e\n", worst, worst_xyz);
  // The same 81 products in another precision; far below the 0.01 that would be good enough.
  EXPECT_LT(worst_xyz, 1e-12);
  EXPECT_LT(worst, 1e-9);
}

TEST(CieSpectra, TestColorsOfCie13_3HaveTheLightnessOfTheirMunsellValue) {
  // Munsell values of the samples (CIE 13.3 Table 1, from memory): the first eight have value 6, that is L*
  // 61 to 62 by either of the two published relations. The samples are real paint, and the notations rounded.
  const auto cie = tables();
  const auto colors = colord::read("ref/CIE-TCS.sp");
  for (std::size_t row = 0; row < 8; ++row) {
    const Spectrum reflectance{static_cast<double>(colors.start_nm),
                               static_cast<double>(colors.step_nm),
                               {colors.rows[row].begin(), colors.rows[row].end()}};
    const auto lab = lab_from_reflectance(reflectance, cie.illuminant_c, cie.observer_1931);
    EXPECT_NEAR(lab->l, 61.4, 2.0) << colors.names[row];
  }
}

/// Every second (or fourth) sample of a colour, between the two wavelengths.
Spectrum thinned(const colord::Spectra& colors, std::size_t row, int from_nm, int to_nm, int step_nm) {
  Spectrum spectrum{static_cast<double>(from_nm), static_cast<double>(step_nm), {}};
  for (int nm = from_nm; nm <= to_nm; nm += step_nm)
    spectrum.values.push_back(static_cast<double>(colors.at(row, nm)));
  return spectrum;
}

TEST(CieSpectra, CoarseReflectancesCostWhatTheHeaderSays) {
  const auto cie = tables();
  const auto colors = colord::read("ref/CIE-TCS.sp");
  struct {
    int from_nm, to_nm, step_nm;
    double bound;
  } const cases[] = {{380, 780, 10, 0.6},
                     {380, 730, 10, 0.6},
                     {400, 700, 10, 0.65},
                     {380, 780, 20, 0.75},
                     {400, 700, 20, 0.75}};
  for (const auto& c : cases) {
    double worst = 0, sum = 0;
    for (std::size_t row = 0; row < colors.rows.size(); ++row) {
      const auto coarse = lab_from_reflectance(thinned(colors, row, c.from_nm, c.to_nm, c.step_nm),
                                               cie.illuminant_d50, cie.observer_1931);
      const auto fine =
          lab_from_reflectance(thinned(colors, row, 380, 780, 5), cie.illuminant_d50, cie.observer_1931);
      const double distance = difference_cie76(*coarse, *fine);
      worst = std::max(worst, distance);
      sum += distance;
    }
    std::printf(
        "%d to %d nm by %d nm: Lab distance to the 5 nm sums at most %.3f, mean %.3f (15 colours, D50)\n",
        c.from_nm, c.to_nm, c.step_nm, worst, sum / static_cast<double>(colors.rows.size()));
    // Measured, and stated in spectrum.hpp; part of it is that the file's reflectances have two decimals.
    EXPECT_LT(worst, c.bound);
  }
}

}  // namespace
}  // namespace colorlib
