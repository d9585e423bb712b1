/// A filmed reaction, read as a user would: `tintfall series film.mp4`.
#include <gmock/gmock.h>

#include <colorlib/base/data_folder.hpp>
#include <fstream>
#include <nlohmann/json.hpp>
#include <stdexcept>
#include <tests/colorlib/video/filmed_series.hpp>
#include <tests/viewer/command/command_run.hpp>

namespace tintfall {
namespace {

using namespace colorlib;
using nlohmann::json;
using testing::AllOf;
using testing::DoubleNear;
using testing::Eq;
using testing::Ge;
using testing::HasSubstr;
using testing::Le;
using testing::SizeIs;

/// Two seconds before the drop, ten after it; 12 frames a second.
struct Film {
  scenes::SeriesSettings settings;
  std::string open, covered;  ///< the files' bytes
  std::string reference_text, regions_text;
};

std::string bytes_of(const std::filesystem::path& path) {
  std::ifstream stream(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

const Film& demo_film() {
  static const Film film = [] {
    const auto chart = find_chart("frame-a5");
    if (!chart) throw std::runtime_error(chart.error().message);
    Film made;
    auto& s = made.settings;
    s.course = {{70, 7, 24}, {32, 12, 11}, {}, 1.2, 1.5, 0};
    s.tissue = {70, 7, 24};
    s.wet_tissue = {66.5, 7.2, 25};
    s.seconds = {-2, 1.2, 1.7, 2.3, 3, 4, 5.5, 10};
    s.seed = 5;
    s.width_px = 960;
    s.hand_deg = 0;
    s.drift = 0.02;
    const scenes::SeriesScene series(s, *chart);
    made.reference_text = scenes::reference_text(series.frame(0), *chart);
    made.regions_text = regions_json(series.regions());
    const ScratchFolder scratch;
    FilmSettings settings;
    settings.length_s = 12;
    settings.rate = 12;
    film_series(scratch.path("film.mp4"), series, settings);
    made.open = bytes_of(scratch.path("film.mp4"));
    settings.covered_s = {5.4, 6.6};
    film_series(scratch.path("film.mp4"), series, settings);
    made.covered = bytes_of(scratch.path("film.mp4"));
    return made;
  }();
  return film;
}

class FilmedSeries : public testing::Test {
 protected:
  void SetUp() override {
    scratch_.write("film.mp4", demo_film().open);
    scratch_.write("ref.txt", demo_film().reference_text);
    scratch_.write("regions.json", demo_film().regions_text);
  }
  CommandRun run(const std::vector<std::string>& more) const {
    std::vector<std::string> call{"series",      scratch_.path("film.mp4"),
                                  "--reference", scratch_.path("ref.txt"),
                                  "--regions",   scratch_.path("regions.json")};
    call.insert(call.end(), more.begin(), more.end());
    return run_tintfall(call);
  }
  const ScratchFolder scratch_;
};

TEST_F(FilmedSeries, CourseSentenceAndPictures) {
  const auto run = this->run({"--applied", "+2", "--reagent", "KOH", "--strength", "5 %", "--json", "-",
                              "--plot", scratch_.path("plot.svg"), "--strip", scratch_.path("strip.png")});
  ASSERT_THAT(run.status, Eq(0)) << run.err << run.out;
  const json record = json::parse(run.out);
  EXPECT_THAT(record["zero"], Eq("applied"));
  EXPECT_THAT(record["times"]["source"], Eq("stream"));
  EXPECT_THAT(record["times"]["remarks"].dump(), HasSubstr("Of 144 frames all were looked at"));
  const auto& frames = record["frames"];
  // Thinned: dense while the colour moves, sparse elsewhere.
  EXPECT_THAT(frames.size(), AllOf(Ge(12u), Le(60u)));
  int moving = 0, still = 0;
  for (const auto& frame : frames) {
    const double t = frame["seconds"].get<double>();
    (t > 1 && t < 5 ? moving : still) += 1;
  }
  EXPECT_THAT(moving, Ge(still)) << "4 s of change, 8 s without";
  const json kinetics = record["spots"][0]["kinetics"];
  const auto& course = demo_film().settings.course;
  // Frames are read 0.2 s apart at the densest; 10 % of the half time is less.
  EXPECT_THAT(kinetics["model"], Eq("first-order"));
  EXPECT_THAT(kinetics["onset_s"].get<double>(), DoubleNear(course.onset_s, 0.2));
  EXPECT_THAT(kinetics["half_time_s"].get<double>(), DoubleNear(course.half_s, 0.2));
  EXPECT_THAT(record["spots"][0]["sentence"].get<std::string>(), HasSubstr("KOH 5 %"));
  EXPECT_THAT(scratch_.read("plot.svg"), HasSubstr("<svg"));
  EXPECT_THAT(scratch_.read("strip.png"), testing::StartsWith("\x89PNG"));
}

TEST_F(FilmedSeries, AHiddenSheetIsCarriedOverWithAWiderUncertainty) {
  scratch_.write("film.mp4", demo_film().covered);
  const auto run = this->run({"--applied", "+2", "--json", "-"});
  ASSERT_THAT(run.status, Eq(0)) << run.err << run.out;
  const json record = json::parse(run.out);
  double widest_open = 0, narrowest_hidden = 1e9;
  int hidden = 0;
  for (const auto& frame : record["frames"]) {
    if (frame.contains("dropped")) continue;
    const double t = frame["seconds"].get<double>();
    const double expanded = frame["readings"][0]["lab_expanded"][0].get<double>();
    if (t >= 3.45 && t < 4.55)
      narrowest_hidden = std::min(narrowest_hidden, expanded), ++hidden;
    else
      widest_open = std::max(widest_open, expanded);
  }
  std::printf("%d frames without a sheet: L* +- %.2f and more, with one +- %.2f and less\n", hidden,
              narrowest_hidden, widest_open);
  EXPECT_THAT(hidden, Ge(1));
  EXPECT_THAT(record["times"]["remarks"].dump(), HasSubstr("the sheet was hidden"));
  EXPECT_THAT(record["spots"][0]["kinetics"]["half_time_s"].get<double>(),
              DoubleNear(demo_film().settings.course.half_s, 0.3));
}

TEST_F(FilmedSeries, TheMomentOfApplicationIsFoundWhereTheColourFirstMoves) {
  const auto run = this->run({"--applied", "found", "--json", "-"});
  ASSERT_THAT(run.status, Eq(0)) << run.err << run.out;
  const json record = json::parse(run.out);
  EXPECT_THAT(record["zero"], Eq("found"));
  // The film begins two seconds before the drop; the drop wets slowly, so what shows first is the
  // reaction, 1.2 s after it.
  const double first_frame_s = record["frames"][0]["seconds"].get<double>();
  EXPECT_THAT(-first_frame_s, AllOf(Ge(2.0), Le(3.9)));
  // Counted from what was found, the rest of the course is as long as ever.
  EXPECT_THAT(record["spots"][0]["kinetics"]["half_time_s"].get<double>(),
              DoubleNear(demo_film().settings.course.half_s, 0.3));
}

TEST_F(FilmedSeries, WrongCallsAndFiles) {
  EXPECT_THAT(run({"--interval", "5"}).status, Eq(2));
  EXPECT_THAT(run({"--jobs", "2"}).status, Eq(2));
  EXPECT_THAT(run({"--times", scratch_.path("t.csv")}).status, Eq(2));
  EXPECT_THAT(run({"--applied", "photo.jpg"}).status, Eq(2));
  EXPECT_THAT(run_tintfall({"series", scratch_.path("film.mp4")}).status, Eq(2)) << "no regions";
  const auto mixed = run({scratch_.write("still.jpg", "not looked into")});
  EXPECT_THAT(mixed.status, Eq(2));
  EXPECT_THAT(mixed.err,
              testing::AllOf(HasSubstr("is a series of its own"), HasSubstr("one video alone, or photos")));
  scratch_.write("film.mp4", demo_film().open.substr(0, 2000));
  EXPECT_THAT(run({}).status, Eq(3));
  scratch_.write("film.mp4", "no film at all");
  EXPECT_THAT(run({}).status, Eq(3));
}

}  // namespace
}  // namespace tintfall
