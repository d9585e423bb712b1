#include <gmock/gmock.h>

#include <colorlib/records/record_json.hpp>
#include <nlohmann/json.hpp>
#include <tests/colorlib/records/example_series.hpp>

namespace colorlib {
namespace {

using nlohmann::json;
using testing::HasSubstr;

/// The series back from its JSON.
SeriesRecord back_from(const SeriesRecord& series) {
  const auto back = parse_series(series_json(series), "series.json");
  if (!back) throw std::runtime_error(back.error().message);
  return back->value();
}

double largest_distance(const Lab& a, const Lab& b) {
  return std::max({std::abs(a.l - b.l), std::abs(a.a - b.a), std::abs(a.b - b.b)});
}

// A series of which nothing stands ends in the status of why its frames were dropped.
TEST(SeriesParse, AJournalKeepsWhyAFrameWasDropped) {
  for (const ErrorCode code :
       {ErrorCode::unreadable_photo, ErrorCode::unsupported_photo, ErrorCode::unreadable_reference,
        ErrorCode::unreadable_chart, ErrorCode::unreadable_regions, ErrorCode::chart_not_found,
        ErrorCode::untrustworthy}) {
    FrameRecord frame;
    frame.photo = "photo.jpg";
    frame.dropped = Error{code, "It could not be read.", "Take it again."};
    const auto back = parse_frame(frame_json(frame));
    ASSERT_TRUE(back && back->dropped) << code_name(code);
    EXPECT_EQ(code_name(back->dropped->code), code_name(code));
    EXPECT_EQ(back->dropped->message, frame.dropped->message);
  }
}

TEST(SeriesParse, AFileNameWithControlCharactersComesBackWithoutThem) {
  FrameRecord frame;
  frame.photo = "a\x1b[2J.jpg";
  frame.dropped =
      Error{ErrorCode::unreadable_photo, "Reading 'a\x1b[2J.jpg': it is empty.", "Take it again."};
  const auto back = parse_frame(frame_json(frame));
  ASSERT_TRUE(back && back->dropped);
  EXPECT_EQ(back->photo, "a?[2J.jpg");
  EXPECT_EQ(back->dropped->message, "Reading 'a?[2J.jpg': it is empty.");
  SeriesRecord series = series_record(invented_courses().front(), geometric_s);
  series.frames.back().photo = frame.photo;
  EXPECT_EQ(back_from(series).frames.back().photo, "a?[2J.jpg");
}

// What is told and drawn of a course comes back; colours to the three decimals that are written.
TEST(SeriesParse, GivesEveryCourseBack) {
  constexpr double rounding = 0.0005 + 1e-9;
  double worst_curve = 0;
  for (const InventedCourse& course : invented_courses()) {
    SCOPED_TRACE(course.name);
    SeriesRecord series = series_record(course, geometric_s);
    series.spots[0].sentence = "It turned.";
    series.spots[0].warnings = {"No water."};
    const SeriesRecord back = back_from(series);
    EXPECT_EQ(back.zero, series.zero);
    EXPECT_EQ(back.protocol.reagent, "KOH");
    EXPECT_EQ(back.protocol.temperature_c, 18);
    EXPECT_EQ(back.frames.size(), series.frames.size());
    EXPECT_EQ(back.frames.back().dropped->message, "No marker was found.");
    ASSERT_EQ(back.spots.size(), 2u);
    EXPECT_EQ(back.spots[1].refused->message, "It is seen once.");
    EXPECT_FALSE(back.spots[1].has_course());
    const SpotRecord &spot = back.spots[0], &before = series.spots[0];
    EXPECT_TRUE(spot.has_course());
    EXPECT_EQ(spot.sentence, "It turned.");
    EXPECT_EQ(spot.warnings, before.warnings);
    EXPECT_EQ(spot.frames, before.frames);
    EXPECT_EQ(spot.kinetics.model, before.kinetics.model);
    EXPECT_EQ(is_reaction(spot.kinetics), is_reaction(before.kinetics));
    ASSERT_EQ(spot.kinetics.path.size(), before.kinetics.path.size());
    for (std::size_t i = 0; i < spot.kinetics.path.size(); ++i)
      EXPECT_LE(largest_distance(spot.kinetics.path[i].lab, before.kinetics.path[i].lab), rounding);
    const auto drawn = fitted_path(spot.kinetics, geometric_s),
               meant = fitted_path(before.kinetics, geometric_s);
    ASSERT_EQ(drawn.size(), meant.size());
    for (std::size_t i = 0; i < drawn.size(); ++i)
      worst_curve = std::max(worst_curve, largest_distance(drawn[i], meant[i]));
  }
  // Three rounded colours are mixed with shares of 1 at most.
  EXPECT_LE(worst_curve, 3 * rounding);
  std::printf("the curves come back to %.4f\n", worst_curve);
}

TEST(SeriesParse, KnowsAPhotosRecordFromASeries) {
  const auto photo = parse_series(record_json(full_record()), "photo.json");
  ASSERT_TRUE(photo) << photo.error().message;
  EXPECT_FALSE(photo->has_value());
}

TEST(SeriesParse, TakesARecordWithoutACurve) {
  json record = json::parse(series_json(series_record(invented_courses().front(), geometric_s)));
  record["spots"][0]["kinetics"].erase("curve");
  const auto back = parse_series(record.dump(), "older.json");
  ASSERT_TRUE(back) << back.error().message;
  EXPECT_TRUE(fitted_path((*back)->spots[0].kinetics, geometric_s).empty());
}

TEST(SeriesParse, NamesWhatIsWrong) {
  const json sound = json::parse(series_json(series_record(invented_courses().front(), geometric_s)));
  const auto said = [&](const char* pointer, const json& value) {
    json record = sound;
    record[json::json_pointer(pointer)] = value;
    const auto back = parse_series(record.dump(), "broken.json");
    return back ? std::string("taken") : back.error().message;
  };
  EXPECT_EQ(said("/zero", "applied"), "taken");
  EXPECT_THAT(said("/zero", "noon"), HasSubstr("zero"));
  EXPECT_THAT(said("/frames/1", 7), HasSubstr("frames[1]"));
  EXPECT_THAT(said("/frames/1/readings/0/lab", {1, 2}), HasSubstr("frames[1].readings[0].lab"));
  EXPECT_THAT(said("/spots/0/kind", "potato"), HasSubstr("spots[0].kind"));
  EXPECT_THAT(said("/spots/0/kinetics/path/2/seconds", -1e6), HasSubstr("path[2].seconds goes back in time"));
  EXPECT_THAT(said("/spots/0/kinetics/path/0/seconds", -1e6), HasSubstr("no frame's"));
  EXPECT_THAT(said("/spots/0/kinetics/path/0/lab_covariance", {1, 2}), HasSubstr("lab_covariance"));
  EXPECT_THAT(said("/spots/0/kinetics/curve/lab", json::array()), HasSubstr("curve has no known number"));
  EXPECT_THAT(said("/spots/0/kinetics/curve/times/1", -1), HasSubstr("rates above 0"));
  EXPECT_THAT(said("/protocol/temperature_c", "warm"), HasSubstr("temperature"));
}

}  // namespace
}  // namespace colorlib
