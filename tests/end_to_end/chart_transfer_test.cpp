/// A printed strip gets reference values beside a measured frame, is read about with them, and is looked at
/// again later.
#include <gmock/gmock.h>

#include <fmt/format.h>

#include <colorlib/chart/reference_text.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <nlohmann/json.hpp>
#include <tests/end_to_end/bad_call.hpp>
#include <tests/scenes/scene.hpp>

namespace tintfall {
namespace {

using namespace colorlib;
using nlohmann::json;
using testing::HasSubstr;

/// Photos of a known frame and a printed strip that changes its side.
struct Photographed {
  ScratchFolder folder;
  ChartDefinition frame = find_chart("frame-a5").value(), strip = find_chart("strip").value();
  std::vector<std::string> photos;
  std::string known;
  std::vector<Lab> truth;

  Photographed() {
    for (int i = 0; i < 3; ++i) {
      auto settings = scenes::random_scene(scenes::Condition::daylight_phone, 41, scenes::Pool::tuning);
      settings.photo_seed = 900 + static_cast<std::uint64_t>(i);
      settings.specimens.clear();
      settings.sheet.curl = {};
      settings.view.rotation_deg = 5.0 * i;
      scenes::SheetSettings print =
          scenes::random_scene(scenes::Condition::daylight_phone, 42, scenes::Pool::tuning).sheet;
      print.curl = {};
      print.print_random_sd = 4;
      settings.second =
          scenes::SecondSheet{strip, print, 43, 4, i == 1 ? -strip.height_mm - 5 : frame.height_mm + 5, 0.5};
      const scenes::Scene scene = scenes::render(settings, frame);
      truth = scene.second_true_patches;
      photos.push_back(folder.write(fmt::format("{}.jpg", i + 1), scene.jpeg_bytes));
      if (i == 0) known = folder.write("known.txt", scenes::reference_text(scene, frame));
    }
  }
  std::vector<std::string> call(const std::string& out, std::vector<std::string> more = {}) const {
    std::vector<std::string> call{"chart", "transfer"};
    call.insert(call.end(), photos.begin(), photos.end());
    call.insert(call.end(), {"--from", "frame-a5", "--from-reference", known, "--to", "strip", "--out",
                             folder.path(out)});
    call.insert(call.end(), more.begin(), more.end());
    return call;
  }
};

const Photographed& photographed() {
  static const Photographed made;
  return made;
}

TEST(ChartTransferCommand, WritesAFileThatServesAsReference) {
  const Photographed& made = photographed();
  const auto run =
      run_tintfall(made.call("strip-02.txt", {"--label", "strip-02", "--date", "2031-04-09", "--json", "-"}));
  ASSERT_EQ(run.status, 0) << run.err;
  const json answer = json::parse(run.out);
  EXPECT_EQ(answer["format"], "tintfall-transfer");
  EXPECT_EQ(answer["photos"].size(), 3u);
  EXPECT_EQ(answer["sides"], 2);
  const auto values = read_reference(made.folder.path("strip-02.txt"), made.strip);
  ASSERT_TRUE(values) << values.error().message;
  EXPECT_EQ(values->kind, ReferenceKind::transferred);
  EXPECT_EQ(values->created, "2031-04-09");
  EXPECT_THAT(values->measurement_source,
              HasSubstr("chart transfer from frame-a5, values known.txt (sha256 "));
  EXPECT_THAT(made.folder.read("strip-02.txt"), HasSubstr("# photo 2.jpg sha256 "));
  std::vector<double> errors;
  for (std::size_t i = 0; i < values->patches.size(); ++i)
    errors.push_back(difference_ciede2000(values->patches[i].lab, made.truth[i]));
  std::sort(errors.begin(), errors.end());
  std::printf("strip of %zu patches: median dE00 %.2f, worst %.2f\n", errors.size(),
              errors[errors.size() / 2], errors.back());
  EXPECT_LE(errors[errors.size() / 2], 0.9);
}

TEST(ChartTransferCommand, KnownValuesOfAnotherPrintAreSaid) {
  const Photographed& made = photographed();
  const auto own = run_tintfall(made.call("own.txt", {"--known", "above,below,above"}));
  ASSERT_EQ(own.status, 0) << own.err;
  EXPECT_THAT(own.err, testing::Not(HasSubstr("other-print")));
  const scenes::Scene another = scenes::render(
      scenes::random_scene(scenes::Condition::daylight_phone, 44, scenes::Pool::tuning), made.frame);
  auto call = made.call("another.txt");
  std::replace(call.begin(), call.end(), made.known,
               made.folder.write("another-known.txt", scenes::reference_text(another, made.frame)));
  const auto run = run_tintfall(call);
  ASSERT_EQ(run.status, 0) << run.err;
  EXPECT_THAT(run.err, HasSubstr("other-print"));
}

TEST(ChartTransferCommand, WrongCallsAreRefused) {
  const Photographed& made = photographed();
  const auto refused = [&](const std::vector<std::string>& arguments, const Refusal& refusal) {
    expect_refused(arguments, refusal);
  };
  auto two = made.call("x.txt");
  two.erase(two.begin() + 4);
  refused(two, {2, "bad-call", "2 photos"});
  auto twice = made.call("x.txt");
  twice[4] = twice[3];
  refused(twice, {2, "bad-call", "named twice"});
  refused(made.call("1.jpg"), {2, "bad-call", "one of the inputs"});
  refused(made.call("x.txt", {"--known", "north"}), {2, "bad-call", "north"});
  refused(made.call("x.txt", {"--known", "right"}), {2, "bad-call", "said to lie right, and it lies above"});
  refused(made.call("x.txt", {"--known", "left,right"}), {2, "bad-call", "2 sides for 3 photos"});
  refused(made.call("x.txt", {"--to-corners", "1,1", "2,2"}), {2, "bad-call", "2 corners for 3 photos"});
  auto missing = made.call("x.txt");
  std::replace(missing.begin(), missing.end(), std::string("strip"), std::string("two-backings-a5"));
  refused(missing, {4, "chart-not-found", "two-backings-a5"});
  auto wrong_file = made.call("x.txt");
  std::replace(wrong_file.begin(), wrong_file.end(), made.known,
               made.folder.write("other.txt", reference_text(nominal_reference(made.strip), {})));
  refused(wrong_file, {3, "unreadable-reference", "patches of 'frame-a5'"});
  const auto one_sheet_called_two = [&] {
    auto call = made.call("x.txt", {"--known", "left"});
    std::replace(call.begin(), call.end(), std::string("strip"), std::string("frame-a5"));
    return call;
  }();
  refused(one_sheet_called_two, {4, "chart-not-found", "only one sheet was found"});
  EXPECT_FALSE(made.folder.has("x.txt"));
}

TEST(ChartFadingCommand, NamesThePatchesThatChanged) {
  const Photographed& made = photographed();
  const ScratchFolder folder;
  ReferenceValues values = nominal_reference(made.strip);
  for (auto& patch : values.patches) patch.standard_uncertainty = {0.3, 0.3, 0.3};
  const auto write = [&](const char* name, const char* day) {
    return folder.write(
        name,
        reference_text(values, {{"CREATED", day}, {"MEASUREMENT_SOURCE", "chart transfer from frame-a5"}}));
  };
  const std::string before = write("spring.txt", "2031-04-09");
  values.patches[12].lab.b -= 9;
  values.patches[0].lab.l += 0.1;
  const std::string after = write("autumn.txt", "2031-10-05");
  const auto run = run_tintfall(
      {"chart", "fading", before, after, "--chart", "strip", "--json", folder.path("fading.json")});
  ASSERT_EQ(run.status, 0) << run.err;
  EXPECT_THAT(run.out, HasSubstr("1 of 30 patches has changed"));
  EXPECT_THAT(run.out, HasSubstr(made.strip.patches[12].id));
  const json answer = json::parse(folder.read("fading.json"));
  EXPECT_EQ(answer["changed"], 1);
  EXPECT_EQ(answer["patches"][12]["change"], "changed");
  EXPECT_EQ(answer["patches"][3]["change"], "unchanged");
  expect_refused({"chart", "fading", after, before, "--chart", "strip"}, {2, "bad-call", "2031-10-05"});
  expect_refused({"chart", "fading", before, before, "--chart", "strip"},
                 {2, "bad-call", "the very same values"});
  expect_refused({"chart", "fading", before, after, "--chart", "frame-a5"},
                 {3, "unreadable-reference", "frame-a5"});
}

}  // namespace
}  // namespace tintfall
