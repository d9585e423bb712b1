#include <gmock/gmock.h>

#include <colorlib/reaction/followed_regions.hpp>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

using testing::AllOf;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

Regions regions(const std::vector<std::string>& options) {
  Regions all;
  for (const std::string& option : options) {
    const auto region = region_from_option(option, region_id_at(all.items.size()));
    EXPECT_TRUE(region.has_value()) << option;
    if (region) all.items.push_back(*region);
  }
  return all;
}

TEST(FollowedRegions, AreTheSpotsAndBruises) {
  EXPECT_THAT(followed_regions(regions({"water@120,74,4", "spot@105,74,4", "bruise@90,74,4"})),
              ElementsAre("B", "C"));
  EXPECT_THAT(followed_regions(regions({"deposit@105,74,4", "control@78,74,4"})), IsEmpty());
}

TEST(FollowedRegions, AControlOnTheDropIsRefused) {
  for (const char* over :
       {"control@103,74,4", "control@105,74,4", "water@105,74,1", "water@112.9,74,4", "control@105,74,30"})
    EXPECT_THAT(check_controls_apart(regions({"spot@105,74,4", over})),
                FailsWith(ErrorCode::unreadable_regions, AllOf(HasSubstr("spot 'A'"), HasSubstr("'B'"))))
        << over;
  for (const char* apart :
       {"control@113,74,4", "control@90,74,4", "water@105,84,4", "deposit@105,74,4", "spot@106,74,4"})
    EXPECT_TRUE(check_controls_apart(regions({"spot@105,74,4", apart})).has_value()) << apart;
}

TEST(FollowedRegions, OnlyTheControlsThatServeMatter) {
  auto all = regions({"spot@105,74,4", "control@103,74,4", "control@85,74,4", "bruise@107,74,4"});
  all.items[0].controls = {"C"};
  all.items[3].controls = {"C"};
  EXPECT_TRUE(check_controls_apart(all).has_value());
  all.items[0].controls = {"C", "D"};
  EXPECT_THAT(check_controls_apart(all), FailsWith(ErrorCode::unreadable_regions, HasSubstr("bruise 'D'")));
}

TEST(FollowedRegions, CornersThatReachIntoOneAnotherShareAPlace) {
  Regions all = regions({"spot@105,74,4", "control@85,74,4"});
  all.items[1].shape = PolygonShape{{{80, 70}, {102, 74}, {80, 78}}};
  EXPECT_THAT(check_controls_apart(all), FailsWith(ErrorCode::unreadable_regions, HasSubstr("control 'B'")));
  all.items[1].shape = PolygonShape{{{80, 70}, {100.9, 74}, {80, 78}}};
  EXPECT_TRUE(check_controls_apart(all).has_value());
}

}  // namespace
}  // namespace colorlib
