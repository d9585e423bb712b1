#include <gmock/gmock.h>

#include <sstream>
#include <tuple>
#include <viewer/command/reading_summary.hpp>

namespace tintfall {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

colorlib::Record example() {
  colorlib::Record record;
  record.photo.name = "photo.jpg";
  record.photo.width_px = 4000;
  record.photo.height_px = 3000;
  record.chart.name = "frame-a5";
  record.chart.reference_kind = "measured";
  record.chart.reference_source = "ref.txt; DESCRIPTOR: long words";
  record.calibration.markers_found = 4;
  record.calibration.patches_used = 56;
  record.calibration.patches_dropped = {{"N03", "over-exposed"}};
  colorlib::Reading reading;
  reading.id = "A";
  reading.kind = colorlib::RegionKind::deposit;
  reading.pixels = 51234;
  reading.area_mm2 = 212;
  reading.lab = {42.3, 20.3, 29.4};
  reading.lab_expanded = {1.1, 0.9, 0.8};
  reading.de00_expanded = 1.3;
  reading.words.munsell = "4.5YR 4.1/5.8";
  reading.words.name = {"strong brown", 0.81, 0};
  reading.words.alternatives = {{"grayish brown", 0.12, 1.1}};
  reading.words.trade_terms = {"rust", "tobacco"};
  reading.flags = {{"specular", "Glints were left out."}};
  reading.budget = {{"light", colorlib::Matrix3::diagonal(0.25, 0.01, 0.01)}};
  record.readings.push_back(reading);
  colorlib::Reading refused;
  refused.id = "B";
  refused.kind = colorlib::RegionKind::spot;
  refused.refused =
      colorlib::Error{colorlib::ErrorCode::untrustworthy, "It is over-exposed.", "Expose less."};
  record.readings.push_back(refused);
  return record;
}

TEST(Summary, SaysWhatADepositLeavesBare) {
  auto record = example();
  const auto said = [&](std::optional<double> share) {
    record.readings[0].coverage_share = share;
    std::ostringstream out;
    print_summary(record, {}, {}, out);
    return out.str();
  };
  EXPECT_THAT(said(0.87), HasSubstr("51234 pixels, 212 mm², 87 % of it covered by the deposit"));
  EXPECT_THAT(said(0.99), Not(HasSubstr("covered")));
  EXPECT_THAT(said(std::nullopt), Not(HasSubstr("covered")));
}

std::string summary(const SummaryOptions& options) {
  std::ostringstream out;
  print_summary(example(), {}, options, out);
  return out.str();
}

TEST(Summary, SaysNameFiguresAndFlagsWithAdvice) {
  EXPECT_THAT(summary({}), AllOf(HasSubstr("deposit A   strong brown (81 %)"),
                                 HasSubstr("otherwise grayish brown (12 %, ΔE00 1.1 away)"),
                                 HasSubstr("L* 42.3 ± 1.1   a* 20.3 ± 0.9   b* 29.4 ± 0.8"),
                                 HasSubstr("ΔE00 1.3"), HasSubstr("Munsell 4.5YR 4.1/5.8"),
                                 HasSubstr("rust or tobacco"), HasSubstr("51234 pixels, 212 mm²"),
                                 HasSubstr("flags: specular"), HasSubstr("specular: Glints were left out.")));
}

TEST(Summary, ContrastRatiosShowADigitOfTheirUncertainty) {
  for (const auto& [ratio, expanded, text] : {std::tuple{0.871, 0.042, "contrast ratio 87 ± 4 %"},
                                              {0.988, 0.0034, "contrast ratio 98.8 ± 0.3 %"},
                                              {0.99987, 0.0004, "contrast ratio 99.99 ± 0.04 %"},
                                              {1.0, 0.0, "contrast ratio 100.00 ± 0.01 %"}}) {
    colorlib::Record record = example();
    record.readings[0].layer.emplace();
    record.readings[0].layer->method = "two-grounds";
    record.readings[0].layer->contrast_ratio = ratio;
    record.readings[0].layer->contrast_ratio_expanded = expanded;
    std::ostringstream out;
    print_summary(record, {}, {}, out);
    EXPECT_THAT(out.str(), HasSubstr(text));
  }
}

TEST(Summary, TheThickestTenthIsToldWhereItCanBeSeen) {
  colorlib::Record record = example();
  auto& tenth = record.readings[0].tenth.emplace();
  tenth.lab = {38.25, 21.5, 30.75};
  tenth.lab_expanded = {1.2, 0.9, 0.8};
  tenth.de00_expanded = 1.4;
  tenth.de00_from_mean = 3.87;
  tenth.words.name = {"moderate brown", 0.75, 0};
  tenth.words.munsell = "4.4YR 3.7/6.0";
  const auto told = [&](bool verbose) {
    SummaryOptions options;
    options.verbose = verbose;
    std::ostringstream out;
    print_summary(record, {}, options, out);
    return out.str();
  };
  EXPECT_THAT(
      told(false),
      AllOf(HasSubstr("thickest tenth: moderate brown (75 %), Munsell 4.4YR 3.7/6.0, ΔE00 3.9 from the "),
            HasSubstr("L* 38.2 ± 1.2   a* 21.5 ± 0.9   b* 30.8 ± 0.8")));
  tenth.de00_from_mean = 0.4;
  EXPECT_THAT(told(false), Not(HasSubstr("thickest")));
  EXPECT_THAT(told(true), HasSubstr("ΔE00 0.4 from the mean"));
}

TEST(Summary, ExplainsEachFlagOnce) {
  auto record = example();
  record.readings.push_back(record.readings.front());
  record.flags = {{"assumed-profile", "sRGB was assumed."}, {"specular", "Glints were left out."}};
  std::ostringstream out;
  print_summary(record, {}, {}, out);
  const std::string text = out.str();
  const auto first = text.find("Glints were left out.");
  ASSERT_NE(first, std::string::npos);
  EXPECT_EQ(text.find("Glints were left out.", first + 1), std::string::npos);
  EXPECT_THAT(text, HasSubstr("assumed-profile: sRGB was assumed."));
}

TEST(Summary, AFlagThatIsNotKnownHereIsListedByItsCode) {
  auto record = example();
  record.flags = {{"of-a-later-version", ""}};
  std::ostringstream out;
  print_summary(record, {}, {}, out);
  EXPECT_THAT(out.str(), HasSubstr("            of-a-later-version\n"));
}

TEST(Summary, RefusedRegionsSayCauseAndCure) {
  EXPECT_THAT(summary({}), AllOf(HasSubstr("spot B   no reading"), HasSubstr("It is over-exposed."),
                                 HasSubstr("Expose less.")));
}

TEST(Summary, CountsPatchesAndNamesTheReference) {
  EXPECT_THAT(summary({}), AllOf(HasSubstr("56 patches used, 1 dropped"), HasSubstr("(ref.txt)"),
                                 Not(HasSubstr("long words")), Not(HasSubstr("N03"))));
}

TEST(Summary, VerboseListsWhatWasDroppedAndTheBudget) {
  SummaryOptions options;
  options.verbose = true;
  EXPECT_THAT(summary(options), AllOf(HasSubstr("N03: over-exposed"), HasSubstr("light          L* ± 1.00"),
                                      HasSubstr("long words")));
}

TEST(Summary, SwatchesOnlyWhereColourIsShown) {
  EXPECT_THAT(summary({}), Not(HasSubstr("\x1b")));
  SummaryOptions options;
  options.colour = true;
  EXPECT_THAT(summary(options), HasSubstr("\x1b[48;2;"));
}

TEST(Summary, AReagentSpotIsSeenEvenWhenItIsRefused) {
  colorlib::Record record = example();
  EXPECT_TRUE(shows_reagent_spot(record)) << "its spot was refused, the drop lay there all the same";
  record.readings.pop_back();
  EXPECT_FALSE(shows_reagent_spot(record));
}

TEST(Summary, CautionStandsUnderIt) {
  std::ostringstream out;
  print_caution(out);
  EXPECT_THAT(out.str(), AllOf(HasSubstr("never tells"), HasSubstr("working names")));
}

}  // namespace
}  // namespace tintfall
