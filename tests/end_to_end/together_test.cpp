/// Several photographs of one specimen as one record; a calibration as a colour profile.
#include <gmock/gmock.h>

#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/colorimetry/icc_input_profile.hpp>
#include <colorlib/records/catalogue_entry.hpp>
#include <colorlib/records/record_json.hpp>
#include <nlohmann/json.hpp>
#include <regex>
#include <tests/end_to_end/bad_call.hpp>
#include <tests/end_to_end/demo_photo.hpp>
#include <tests/support/eight_bit.hpp>

namespace tintfall {
namespace {

using namespace colorlib;
using nlohmann::json;
using testing::HasSubstr;
using testing::Not;

/// The same sheet and specimens as the demo photo, photographed again from elsewhere, in other noise.
scenes::Scene another_photo(std::uint64_t seed) {
  auto settings = scenes::random_scene(scenes::Condition::daylight_phone, 21, scenes::Pool::tuning);
  settings.photo_seed = seed;
  settings.view = scenes::random_scene(scenes::Condition::daylight_phone, seed, scenes::Pool::tuning).view;
  return scenes::render(settings, demo_photo().chart);
}

struct Together {
  ScratchFolder folder;
  std::vector<std::string> photos;
  std::string reference, regions;

  Together() {
    photos.push_back(folder.write("a.jpg", demo_photo().scene.jpeg_bytes));
    photos.push_back(folder.write("b.jpg", another_photo(801).jpeg_bytes));
    photos.push_back(folder.write("c.jpg", another_photo(802).jpeg_bytes));
    reference = folder.write("reference.txt", demo_photo().reference_text);
    regions = folder.write("regions.json", demo_photo().regions_text);
  }
  std::vector<std::string> call(std::vector<std::string> more) const {
    std::vector<std::string> call{"read"};
    call.insert(call.end(), photos.begin(), photos.end());
    call.insert(call.end(), {"--together", "--reference", reference});
    call.insert(call.end(), more.begin(), more.end());
    return call;
  }
};

TEST(TogetherCommand, MakesOneRecordThatSaysHowThePhotosAgree) {
  const Together together;
  const auto run =
      run_tintfall(together.call({"--regions", together.regions, "--height", "0", "--json", "-"}));
  ASSERT_EQ(run.status, 0) << run.err;
  const json record = json::parse(run.out);
  ASSERT_EQ(record["photos"].size(), 3u);
  EXPECT_EQ(record["photos"][1]["name"], "b.jpg");
  EXPECT_EQ(record["photo"]["name"], "a.jpg");
  const auto& truths = demo_photo().scene.specimens;
  ASSERT_EQ(record["readings"].size(), truths.size());
  std::size_t standing = 0;
  for (std::size_t i = 0; i < truths.size(); ++i) {
    const json& reading = record["readings"][i];
    if (reading.contains("refused")) continue;
    ++standing;
    EXPECT_EQ(reading["agreement"]["photos"].size(), 3u);
    EXPECT_EQ(reading["agreement"]["photos"][2]["photo"], "c.jpg");
    const Lab lab{reading["lab"][0], reading["lab"][1], reading["lab"][2]};
    EXPECT_LE(difference_ciede2000(lab, truths[i].as_seen), 3 * reading["de00_expanded"].get<double>());
    // One photo's noise and light are averaged: never less certain than half as sure as that photo alone.
    EXPECT_GT(reading["lab_covariance"][0][0].get<double>(), 0);
  }
  EXPECT_GE(standing, 1u);
  const auto parsed = parse_record(run.out, "together.json");
  ASSERT_TRUE(parsed) << parsed.error().message;
  EXPECT_EQ(parsed->photos.size(), 3u);
  EXPECT_EQ(json::parse(record_json(*parsed)), record) << "read and written again it is the same";

  const auto words = run_tintfall(together.call({"--regions", together.regions, "--height", "0"}));
  EXPECT_THAT(words.out, HasSubstr("3 photos together"));
  EXPECT_THAT(words.out, HasSubstr("c.jpg"));
}

TEST(TogetherCommand, TheRecordHoldsTheFullNameWhateverIsSaid) {
  const Together together;
  const std::vector<std::string> usual{"--regions", together.regions, "--height", "0"};
  const auto record_with = [&](const std::vector<std::string>& options) {
    auto more = usual;
    more.insert(more.end(), options.begin(), options.end());
    more.insert(more.end(), {"--json", together.folder.path("together.json")});
    const auto run = run_tintfall(together.call(more));
    EXPECT_EQ(run.status, 0) << run.err;
    return std::pair(json::parse(together.folder.read("together.json")), run.out);
  };
  const auto [full, full_words] = record_with({});
  const auto [coarse, coarse_words] = record_with({"--level", "1", "--of", "bruise"});
  EXPECT_EQ(coarse, full);
  EXPECT_NE(coarse_words, full_words) << "what is said follows the options";
}

/// A photo of the same sheet with another specimen: its opening darkened.
std::string odd_photo() {
  const scenes::Scene scene = another_photo(803);
  Image8 picture = eight_bit(scene.photo);
  const RectangleMm opening = demo_photo().chart.windows.front().place;
  for (int row = 0; row < picture.rows; ++row)
    for (int column = 0; column < picture.columns; ++column) {
      const PointMm p = scene.view.mm_from_px({static_cast<double>(column), static_cast<double>(row)});
      if (opening.contains(p))
        for (int k = 0; k < 3; ++k)
          picture.at(row, column)[k] = static_cast<std::uint8_t>(picture.at(row, column)[k] * 0.8);
    }
  return scenes::encode_jpeg(picture, 92, true, std::nullopt);
}

TEST(TogetherCommand, NamesThePhotoThatDoesNotBelong) {
  Together together;
  together.photos.push_back(together.folder.write("odd.jpg", odd_photo()));
  const auto run = run_tintfall(together.call({"--regions", together.regions, "--height", "0"}));
  ASSERT_EQ(run.status, 0) << run.err;
  EXPECT_THAT(run.out, HasSubstr("left out: odd.jpg"));
  EXPECT_THAT(run.out, HasSubstr("outlier-photo"));
}

// A record must not be known by a photograph that its colours were not made of.
TEST(TogetherCommand, IsCataloguedUnderAPhotoThatWasUsed) {
  Together together;
  together.photos.insert(together.photos.begin(), together.folder.write("odd.jpg", odd_photo()));
  const std::string file = together.folder.path("whole.json");
  const auto run = run_tintfall(
      together.call({"--regions", together.regions, "--height", "0", "--item", "QH-03", "--json", file}));
  ASSERT_EQ(run.status, 0) << run.err;
  json record = json::parse(together.folder.read("whole.json"));
  EXPECT_EQ(record["photos"][0]["name"], "odd.jpg");
  EXPECT_EQ(record["photo"]["name"], "a.jpg");
  EXPECT_EQ(record["photo"]["sha256"], record["photos"][1]["sha256"]);
  EXPECT_EQ(record["calibration"]["check_de00_mean"], record["photos"][1]["check"]["check_de00_mean"]);
  EXPECT_LT(run.out.find("odd.jpg"), run.out.find("a.jpg   ")) << "told in the order they were named";

  const std::string hash = record["photo"]["sha256"];
  record["photo"] = record["photos"][0];  // as early records have it
  record["photo"].erase("check");
  together.folder.write("early.json", record.dump());
  for (const std::string& text : {together.folder.read("whole.json"), together.folder.read("early.json")}) {
    const auto kept = catalogue_record_from(text, "record");
    ASSERT_TRUE(kept) << kept.error().message;
    EXPECT_EQ(kept->photo_name, "a.jpg");
    EXPECT_EQ(kept->photo_sha256, hash);
  }
}

TEST(TogetherCommand, WrongUseIsRefused) {
  const Together together;
  const auto refused = [&](const std::vector<std::string>& arguments, const std::string& word) {
    expect_refused(arguments, {2, "bad-call", word});
  };
  refused({"read", together.photos[0], "--together"}, "at least two");
  refused({"read", together.photos[0], together.photos[0], "--together"}, "named twice");
  const std::string copy = together.folder.write("copy.jpg", together.folder.read("a.jpg"));
  refused({"read", together.photos[1], together.photos[0], copy, "--together"},
          "are one photograph, byte by byte");
  refused(together.call({"--save"}), "--save");
  refused(together.call({"--masstone"}), "--masstone");
  refused(together.call({"--icc", together.folder.path("x.icc")}), "--icc");
}

TEST(IccCommand, TheProfileReadsThePhotoBack) {
  const Together together;
  const std::string out = together.folder.path("photo.icc");
  const auto run = run_tintfall({"read", together.photos[0], "--reference", together.reference, "--regions",
                                 together.regions, "--height", "0", "--icc", out});
  ASSERT_EQ(run.status, 0) << run.err;
  EXPECT_THAT(run.out, HasSubstr("light in the middle of the opening"));
  const std::regex line("read back through it: [^\n]*ΔE00 ([0-9.]+) from the reading");
  int regions = 0;
  double worst = 0;
  for (auto match = std::sregex_iterator(run.out.begin(), run.out.end(), line);
       match != std::sregex_iterator(); ++match, ++regions)
    worst = std::max(worst, std::stod((*match)[1]));
  std::printf("%d regions read back through the profile, worst dE00 %.2f\n", regions, worst);
  EXPECT_GE(regions, 1);
  // Table of 33 nodes, light of the opening's middle for the whole opening, glints left in.
  EXPECT_LE(worst, 2.5);
  EXPECT_TRUE(IccToLab::create(together.folder.read("photo.icc")));
}

TEST(IccCommand, WrongUseIsRefused) {
  const Together together;
  expect_refused({"read", together.photos[0], together.photos[1], "--icc", together.folder.path("x.icc")},
                 {2, "bad-call", "2 photos"});
  expect_refused({"read", together.photos[0], "--icc", together.photos[0]},
                 {2, "bad-call", "one of the inputs"});
  expect_refused({"read", together.photos[0], "--icc", "-"}, {2, "bad-call", "goes to a file"});
}

}  // namespace
}  // namespace tintfall
