/// A folder of photographs, read, stopped and read again, and what of it comes into a catalogue.
#include <gmock/gmock.h>

#include <nlohmann/json.hpp>
#include <sstream>
#include <tests/end_to_end/demo_photo.hpp>
#include <tests/viewer/command/command_run.hpp>

namespace tintfall {
namespace {

using nlohmann::json;
using testing::HasSubstr;
using testing::Not;

class Folder : public testing::Test {
 protected:
  void SetUp() override {
    std::filesystem::create_directory(scratch_.path("photos"));
    scratch_.write("photos/1.jpg", demo_photo().scene.jpeg_bytes);
    scratch_.write("photos/2.jpg", demo_photo().scene.jpeg_bytes + " ");  // the same picture, other bytes
    scratch_.write("photos/3.jpg", demo_photo().scene.jpeg_bytes.substr(0, 2000));
    scratch_.write("ref.txt", demo_photo().reference_text);
    scratch_.write("regions.json", demo_photo().regions_text);
  }
  CommandRun read(std::vector<std::string> more = {}) {
    std::vector<std::string> call{
        "read",      scratch_.path("photos"),       "--reference", scratch_.path("ref.txt"),
        "--regions", scratch_.path("regions.json"), "--item",      "QH-03"};
    call.insert(call.end(), more.begin(), more.end());
    return run_tintfall(call);
  }
  ScratchFolder scratch_;
};

TEST_F(Folder, IsReadWithATableAndGoesOnWhereItWas) {
  const auto first =
      read({"--resume", "--overlays", scratch_.path("overlays"), "--json", scratch_.path("all.jsonl")});
  ASSERT_EQ(first.status, 0) << first.err;
  EXPECT_THAT(first.out, HasSubstr("3.jpg  refused: "));
  EXPECT_THAT(first.out, HasSubstr("2 read, 1 refused"));
  EXPECT_TRUE(scratch_.has("overlays/1.jpg.overlay.png"));
  EXPECT_TRUE(scratch_.has("photos/1.jpg.reading.json"));
  std::istringstream lines(scratch_.read("all.jsonl"));
  std::vector<std::string> hashes;
  for (std::string line; std::getline(lines, line);) hashes.push_back(json::parse(line)["photo"]["sha256"]);
  ASSERT_EQ(hashes.size(), 2u);
  EXPECT_NE(hashes[0], hashes[1]);

  // What is saved is not read again, but a photo that changed is.
  std::string saved = scratch_.read("photos/1.jpg.reading.json");
  const auto at = saved.find("\"item\": \"QH-03\"");
  ASSERT_NE(at, std::string::npos);
  scratch_.write("photos/1.jpg.reading.json", saved.replace(at, 15, "\"item\": \"QH-99\""));
  scratch_.write("photos/2.jpg", demo_photo().scene.jpeg_bytes + "  ");
  const auto second = read({"--resume", "--json", "-"});
  ASSERT_EQ(second.status, 0) << second.err;
  EXPECT_THAT(second.out, HasSubstr("QH-99"));
  EXPECT_THAT(second.out, HasSubstr("QH-03"));
  EXPECT_THAT(second.out, Not(HasSubstr(hashes[1])));
}

// A saved reading answers only the call that it was made by: anything else would be passed off as its answer.
TEST_F(Folder, WhatWasSavedWithOtherOptionsIsReadAnew) {
  ASSERT_EQ(read({"--save", "--quiet"}).status, 0);
  const std::string saved = scratch_.read("photos/1.jpg.reading.json");
  const auto same = read({"--resume", "--json", "-"});
  ASSERT_EQ(same.status, 0) << same.err;
  EXPECT_THAT(same.err, Not(HasSubstr("other options")));
  EXPECT_EQ(scratch_.read("photos/1.jpg.reading.json"), saved);

  scratch_.write("other.csv", "item\nQH-07\n");
  std::string measured_again = demo_photo().reference_text;
  measured_again.insert(measured_again.find("NUMBER_OF_FIELDS"), "# measured again\n");
  for (const std::vector<std::string>& changed :
       std::vector<std::vector<std::string>>{{"--light", "lamp"},
                                             {"--state", "fresh"},
                                             {"--fields", scratch_.path("other.csv"), "--surface", "foil"},
                                             {"--height", "2"},
                                             {"--region", "deposit@60,60,4"},
                                             {"--masstone"}}) {
    auto call = changed;
    call.insert(call.end(), {"--resume", "--json", "-"});
    const auto other = read(call);
    ASSERT_EQ(other.status, 0) << other.err;
    EXPECT_THAT(other.err, HasSubstr("2 of the photos had been saved with other options")) << changed.front();
  }
  scratch_.write("ref.txt", measured_again);
  EXPECT_THAT(read({"--resume", "--masstone", "--json", "-"}).err, HasSubstr("other options"))
      << "the file of reference values has another content";
}

TEST_F(Folder, APhotoThatIsPassedOverHasItsOverlayAllTheSame) {
  ASSERT_EQ(read({"--resume", "--quiet"}).status, 0);
  ASSERT_EQ(read({"--resume", "--quiet", "--overlays", scratch_.path("late")}).status, 0);
  EXPECT_TRUE(scratch_.has("late/1.jpg.overlay.png"));
}

// One photo, told from its saved record, is told as when it was read: figures, flags and all.
TEST_F(Folder, APhotoThatIsPassedOverIsToldAsItWasWhenRead) {
  const auto one = [&](const char* how) {
    return run_tintfall({"read", scratch_.path("photos/1.jpg"), "--regions", scratch_.path("regions.json"),
                         "--verbose", how});
  };
  const auto fresh = one("--save"), again = one("--resume");
  ASSERT_EQ(fresh.status, 0) << fresh.err;
  EXPECT_THAT(fresh.out, HasSubstr("nominal-reference: "));
  EXPECT_EQ(again.out, fresh.out);
  EXPECT_THAT(fresh.err, Not(HasSubstr("not read again")));
  EXPECT_THAT(again.err, HasSubstr("1.jpg was not read again"));

  ASSERT_EQ(read({"--save", "--quiet"}).status, 0);
  EXPECT_THAT(read({"--resume", "--json", "-"}).err, HasSubstr("2 of the 3 photos were not read again"));
}

TEST_F(Folder, OneJobOrTwoReadTheSame) {
  const auto one = read({"--jobs", "1", "--json", "-"});
  const auto two = read({"--jobs", "2", "--json", "-"});
  ASSERT_EQ(one.status, 0) << one.err;
  EXPECT_EQ(one.out, two.out);
}

// A photograph's position never leaves it: neither record, overlay nor report hold EXIF.
TEST_F(Folder, GoesIntoACatalogueAndOntoPaper) {
  ASSERT_EQ(read({"--overlays", scratch_.path("overlays"), "--json", scratch_.path("all.jsonl")}).status, 0);
  const auto call = [&](std::vector<std::string> arguments) {
    arguments.insert(arguments.begin(), "catalogue");
    arguments.insert(arguments.end(), {"--catalogue", scratch_.path("c.db")});
    const auto run = run_tintfall(arguments);
    EXPECT_EQ(run.status, 0) << run.err;
    return run.out;
  };
  EXPECT_THAT(call({"add", scratch_.path("all.jsonl")}), HasSubstr("added 1 collection, 2 records"));
  call({"export", "--out", scratch_.path("r.pdf"), "--pictures", scratch_.path("overlays")});
  EXPECT_THAT(scratch_.read("r.pdf"), testing::StartsWith("%PDF"));
  call({"export", "--out", scratch_.path("p.pdf"), "--pictures", scratch_.path("photos")});
  for (const char* file : {"r.pdf", "p.pdf", "overlays/1.jpg.overlay.png"}) {
    EXPECT_THAT(scratch_.read(file), Not(HasSubstr("Exif")));
    EXPECT_THAT(scratch_.read(file), Not(HasSubstr("eXIf")));
  }
  EXPECT_GT(scratch_.read("r.pdf").size(), 100'000u) << "the overlays are missing";
}

}  // namespace
}  // namespace tintfall
