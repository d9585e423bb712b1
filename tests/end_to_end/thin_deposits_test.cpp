#include <gmock/gmock.h>

#include <colorlib/records/record_json.hpp>
#include <sstream>
#include <tests/end_to_end/bad_call.hpp>
#include <tests/end_to_end/demo_photo.hpp>
#include <tests/viewer/command/command_run.hpp>

namespace tintfall {
namespace {

using colorlib::scenes::Condition;
using testing::AllOf;
using testing::Eq;
using testing::HasSubstr;

/// A film over white and over black card.
colorlib::scenes::Scene film_photo(colorlib::scenes::Substrate ground) {
  auto settings = colorlib::scenes::random_scene(Condition::thin_paper, 4);
  settings.substrate = ground;
  settings.specimens = {settings.specimens[2]};
  settings.specimens[0].thickness = 0.9;
  return colorlib::scenes::render(settings, demo_photo().chart);
}

TEST(ThinDeposits, TwoPhotosGiveOneMasstoneInBothRecords) {
  const ScratchFolder scratch;
  const auto white = film_photo(colorlib::scenes::Substrate::card_white);
  const auto black = film_photo(colorlib::scenes::Substrate::card_black);
  scratch.write("white.jpg", white.jpeg_bytes);
  scratch.write("black.jpg", black.jpeg_bytes);
  scratch.write("ref.txt", colorlib::scenes::reference_text(white, demo_photo().chart));
  const auto run = run_tintfall({"read", scratch.path("black.jpg"), scratch.path("white.jpg"), "--reference",
                                 scratch.path("ref.txt"), "--two-backings", "--json", "-"});
  ASSERT_THAT(run.status, Eq(0)) << run.err;
  std::istringstream lines(run.out);
  std::string first, second, more;
  ASSERT_TRUE(std::getline(lines, first) && std::getline(lines, second));
  EXPECT_FALSE(std::getline(lines, more));
  const auto one = colorlib::parse_record(first, "first"), other = colorlib::parse_record(second, "second");
  ASSERT_TRUE(one && other);
  const auto &here = one->readings.at(0).layer, &there = other->readings.at(0).layer;
  ASSERT_TRUE(here && there && !here->refused);
  EXPECT_THAT(here->method, Eq("two-photos"));
  EXPECT_THAT(here->with, Eq("white.jpg"));
  EXPECT_THAT(there->with, Eq("black.jpg"));
  EXPECT_THAT(here->lab, Eq(there->lab));
  // The films as seen differ, the masstone is one.
  EXPECT_LT(one->readings[0].lab.l, other->readings[0].lab.l);

  const auto summary = run_tintfall({"read", scratch.path("black.jpg"), scratch.path("white.jpg"),
                                     "--reference", scratch.path("ref.txt"), "--two-backings"});
  EXPECT_THAT(summary.out, AllOf(HasSubstr("masstone, of a layer thick enough"), HasSubstr("contrast ratio"),
                                 HasSubstr("from two grounds, with white.jpg"), HasSubstr("thin-deposit")));
}

TEST(ThinDeposits, FoilThatWasSaidIsNoGround) {
  const ScratchFolder scratch;
  scratch.write("photo.jpg", demo_photo().scene.jpeg_bytes);
  scratch.write("ref.txt", demo_photo().reference_text);
  const auto run = run_tintfall({"read", scratch.path("photo.jpg"), "--reference", scratch.path("ref.txt"),
                                 "--region", "deposit@105,74,4", "--surface", "foil", "--masstone"});
  ASSERT_THAT(run.status, Eq(0)) << run.err;
  EXPECT_THAT(run.out,
              AllOf(HasSubstr("no masstone"), HasSubstr("said to lie on foil"), HasSubstr("matt card")));
}

TEST(ThinDeposits, TwoBackingsNeedsTwoPhotos) {
  expect_refused({"read", "one.jpg", "--two-backings"}, {2, "bad-call", "exactly two"});
  const ScratchFolder scratch;
  const std::string photo = scratch.write("a.jpg", "one"), copy = scratch.write("b.jpg", "one");
  expect_refused({"read", photo, photo, "--two-backings"},
                 {2, "bad-call", "named twice; --two-backings needs one over each ground"});
  expect_refused({"read", photo, copy, "--two-backings"}, {2, "bad-call", "one photograph, byte by byte"});
  expect_refused({"read", "1.jpg", "2.jpg", "3.jpg", "--two-backings"}, {2, "bad-call", "exactly two"});
}

TEST(ThinDeposits, APhotoThatCannotBeReadIsNamed) {
  const ScratchFolder scratch;
  scratch.write("photo.jpg", demo_photo().scene.jpeg_bytes);
  expect_refused({"read", scratch.path("photo.jpg"), scratch.path("none.jpg"), "--two-backings"},
                 {3, "unreadable-photo", "none.jpg"});
}

}  // namespace
}  // namespace tintfall
