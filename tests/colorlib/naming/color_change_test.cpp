#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/naming/color_change.hpp>
#include <tests/colorlib/naming/reference_tables.hpp>

namespace colorlib {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

const Matrix3 sharp = Matrix3::diagonal(0.25, 0.25, 0.25);

ColorChange changed(const Lab& from, const Lab& to, const Matrix3& covariance = {}) {
  return color_change({from, covariance}, {to, covariance}, namer());
}

TEST(ColorChange, SaysFromToStrengthAndDirection) {
  const auto change = changed({85, 1, 10}, {80, 2, 58}, sharp);
  EXPECT_EQ(change.from, namer().describe({85, 1, 10}, sharp).name.name);
  EXPECT_EQ(change.to, namer().describe({80, 2, 58}, sharp).name.name);
  EXPECT_NEAR(change.de00, difference_ciede2000({85, 1, 10}, {80, 2, 58}), 1e-12);
  EXPECT_GT(change.de00_expanded, 0.2);
  EXPECT_LT(change.de00_expanded, 2);
  EXPECT_EQ(change.strength, ChangeStrength::strong);
  EXPECT_THAT(change.directions, ElementsAre("yellower"));
  const auto sentence = sentence_from(change, Wording());
  EXPECT_EQ(sentence.find(change.from + " to " + change.to + "; strong change ΔE00 19.3 ± 0."), 0u)
      << sentence;  // below 1 a ± needs its decimal
  EXPECT_NE(sentence.find(" (k = 2), yellower"), std::string::npos) << sentence;
}

TEST(ColorChange, NamesEveryDirection) {
  const Lab middle{55, 10, 15};
  EXPECT_THAT(changed(middle, {35, 10, 15}).directions, ElementsAre("darker"));
  EXPECT_THAT(changed(middle, {75, 10, 15}).directions, ElementsAre("lighter"));
  EXPECT_THAT(changed(middle, {55, 40, 28}).directions, ElementsAre("redder"));
  EXPECT_THAT(changed(middle, {55, 30, 50}).directions, ElementsAre("more orange"));
  EXPECT_THAT(changed(middle, {55, 10, 60}).directions, ElementsAre("yellower"));
  EXPECT_THAT(changed(middle, {55, -30, 30}).directions, ElementsAre("greener"));
  EXPECT_THAT(changed(middle, {55, -20, -5}).directions, ElementsAre("more blue-green"));
  EXPECT_THAT(changed({55, 0, 0}, {55, 0, -40}).directions, ElementsAre("bluer"));
  EXPECT_THAT(changed({55, 0, 0}, {55, 30, -35}).directions, ElementsAre("more violet"));
  EXPECT_THAT(changed({55, 0, 0}, {55, 40, 0}).directions, ElementsAre("more purplish red"));
  EXPECT_THAT(changed({55, 10, 30}, {55, 2, 6}).directions, ElementsAre("duller"));
  EXPECT_THAT(changed({86, -2, 30}, {50, -7, -14}).directions, ElementsAre("bluer", "darker"));
  EXPECT_THAT(changed(middle, middle).directions, IsEmpty());
}

TEST(ColorChange, GradesStrength) {
  const auto by = [](double lightness, const Matrix3& covariance = {}) {
    return changed({50, 0, 0}, {50 + lightness, 0, 0}, covariance).strength;
  };
  EXPECT_EQ(by(0.5), ChangeStrength::none);
  EXPECT_EQ(by(1.5), ChangeStrength::faint);
  EXPECT_EQ(by(3), ChangeStrength::slight);
  EXPECT_EQ(by(8), ChangeStrength::clear);
  EXPECT_EQ(by(15), ChangeStrength::strong);
  EXPECT_EQ(by(40), ChangeStrength::very_strong);
  EXPECT_EQ(by(1.5, Matrix3::diagonal(4, 4, 4)), ChangeStrength::within_uncertainty);
  EXPECT_THAT(changed({50, 0, 0}, {51, 0, 0}, Matrix3::diagonal(4, 4, 4)).directions, IsEmpty());
}

// Two independent readings, uncertain in lightness alone near L* 50: variances add, k = 2.
TEST(ColorChange, CarriesTheUncertaintyOfBothEnds) {
  const auto change = changed({50, 0, 0}, {62, 0, 0}, Matrix3::diagonal(0.25, 0, 0));
  EXPECT_NEAR(change.de00_expanded, 2 * std::sqrt(0.5) * 1.0, 0.1);  // S_L is 1.04 to 1.09 there
}

// Errors that both ends share leave less, or more, than two independent ones: what is given is said.
TEST(ColorChange, TakesTheUncertaintyOfADifferenceAsGiven) {
  const ColorState before{{70, 7, 24}, sharp}, after{{32, 12, 11}, sharp};
  const auto change = color_change(before, after, 1.46, namer());
  EXPECT_EQ(change.de00_expanded, 1.46);
  EXPECT_EQ(change.from, namer().describe(before.lab, sharp).name.name);
  EXPECT_NE(sentence_from(change, Wording()).find(" ± 1 (k = 2)"), std::string::npos)
      << sentence_from(change, Wording());
  EXPECT_EQ(color_change(before, after, 60, namer()).strength, ChangeStrength::within_uncertainty);
}

TEST(ColorChange, SaysWhenNothingHappened) {
  const auto change = changed({50, 0, 0}, {50.2, 0, 0}, sharp);
  EXPECT_EQ(
      sentence_from(change, Wording()).find("medium gray; no change beyond the uncertainty ΔE00 0.2 ± "), 0u)
      << sentence_from(change, Wording());
}

}  // namespace
}  // namespace colorlib
