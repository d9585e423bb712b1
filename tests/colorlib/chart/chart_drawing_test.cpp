#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <lcms2.h>
#include <png.h>
#include <colorlib/chart/chart_drawing.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <colorlib/base/image.hpp>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <tests/support/color_matchers.hpp>

extern "C" {
#include <apriltag/apriltag.h>
#include <apriltag/tag36h11.h>
}

namespace colorlib {
namespace {

using testing::HasSubstr;

constexpr int dots_per_inch = 300;
constexpr double px_per_mm = dots_per_inch / 25.4;

std::vector<ChartDefinition> charts() {
  auto shipped = shipped_charts();
  EXPECT_TRUE(shipped.has_value());
  return shipped ? *shipped : std::vector<ChartDefinition>();
}

std::string drawn(const ChartDefinition& chart, SheetFormat format, const std::string& label = "",
                  const std::string& date = "") {
  const auto bytes = draw_sheet(chart, {format, label, date, dots_per_inch});
  EXPECT_TRUE(bytes.has_value()) << bytes.error().message;
  return bytes.value_or(std::string());
}

Image8 decoded(const std::string& png) {
  png_image header{};
  header.version = PNG_IMAGE_VERSION;
  EXPECT_TRUE(png_image_begin_read_from_memory(&header, png.data(), png.size()));
  header.format = PNG_FORMAT_RGB;
  Image8 image(static_cast<int>(header.height), static_cast<int>(header.width), 3);
  EXPECT_TRUE(png_image_finish_read(&header, nullptr, image.data.data(), 0, nullptr)) << header.message;
  return image;
}

/// The sheet without label and date; drawn once for all tests.
const Image8& unlabelled(const ChartDefinition& chart) {
  static std::map<std::string, Image8> images;
  auto& image = images[chart.name];
  if (image.empty()) image = decoded(drawn(chart, SheetFormat::png));
  return image;
}

/// The pixel that covers a place of the sheet.
const std::uint8_t* pixel_at(const Image8& image, const PointMm& p) {
  const auto index = [](double mm, int count) {
    return std::clamp(static_cast<int>(std::floor(mm * px_per_mm)), 0, count - 1);
  };
  return image.at(index(p.y, image.rows), index(p.x, image.columns));
}

bool is_white(const std::uint8_t* pixel) { return pixel[0] == 255 && pixel[1] == 255 && pixel[2] == 255; }

std::uint32_t big_endian(const std::string& bytes, std::size_t at) {
  std::uint32_t value = 0;
  for (std::size_t i = 0; i < 4; ++i) value = value << 8 | static_cast<std::uint8_t>(bytes[at + i]);
  return value;
}

TEST(ChartDrawingTest, PdfPagesHaveTheTrueSize) {
  for (const auto& chart : charts()) {
    const std::string pdf = drawn(chart, SheetFormat::pdf);
    EXPECT_TRUE(pdf.starts_with("%PDF-"));
    std::smatch match;
    ASSERT_TRUE(std::regex_search(pdf, match, std::regex(R"(/MediaBox \[ 0 0 ([0-9.]+) ([0-9.]+) \])")))
        << chart.name;
    // Cairo writes six digits: 0.001 mm.
    EXPECT_NEAR(std::stod(match[1]) * 25.4 / 72, chart.width_mm, 0.001) << chart.name;
    EXPECT_NEAR(std::stod(match[2]) * 25.4 / 72, chart.height_mm, 0.001) << chart.name;
  }
}

TEST(ChartDrawingTest, SvgIsInMillimetres) {
  for (const auto& chart : charts()) {
    const std::string svg = drawn(chart, SheetFormat::svg);
    EXPECT_THAT(svg,
                HasSubstr(fmt::format("width=\"{}mm\" height=\"{}mm\" viewBox=\"0 0 {} {}\"", chart.width_mm,
                                      chart.height_mm, chart.width_mm, chart.height_mm)));
  }
}

TEST(ChartDrawingTest, PngPrintsTrueToSize) {
  for (const auto& chart : charts()) {
    const std::string png = drawn(chart, SheetFormat::png);
    const auto chunk = png.find("pHYs");
    ASSERT_NE(chunk, std::string::npos) << chart.name;
    const auto per_metre = big_endian(png, chunk + 4);
    EXPECT_EQ(per_metre, 11811u);  // 300 / 0.0254
    EXPECT_EQ(big_endian(png, chunk + 8), per_metre);
    EXPECT_EQ(png[chunk + 12], 1) << "unit: metre";
    const Image8 image = decoded(png);
    // Half a dot of rounding.
    EXPECT_NEAR(image.columns / px_per_mm, chart.width_mm, 0.5 / px_per_mm + 1e-9) << chart.name;
    EXPECT_NEAR(image.rows / px_per_mm, chart.height_mm, 0.5 / px_per_mm + 1e-9) << chart.name;
  }
}

TEST(ChartDrawingTest, MarkersAreFoundWhereTheDefinitionSays) {
  apriltag_family_t* family = tag36h11_create();
  apriltag_detector_t* detector = apriltag_detector_create();
  apriltag_detector_add_family_bits(detector, family, 0);
  detector->quad_decimate = 1;
  double worst_mm = 0;
  for (const auto& chart : charts()) {
    const Image8& image = unlabelled(chart);
    std::vector<std::uint8_t> grey(static_cast<std::size_t>(image.rows) *
                                   static_cast<std::size_t>(image.columns));
    for (std::size_t i = 0; i < grey.size(); ++i) grey[i] = image.data[3 * i + 1];
    image_u8_t view{image.columns, image.rows, image.columns, grey.data()};
    zarray_t* found = apriltag_detector_detect(detector, &view);
    std::map<int, std::array<PointMm, 4>> corners;
    for (int i = 0; i < zarray_size(found); ++i) {
      apriltag_detection_t* detection = nullptr;
      zarray_get(found, i, &detection);
      // The library counts pixel edges, as the sheet's millimetres do.
      for (std::size_t k = 0; k < 4; ++k)
        corners[detection->id][k] = {detection->p[k][0] / px_per_mm, detection->p[k][1] / px_per_mm};
    }
    apriltag_detections_destroy(found);
    EXPECT_EQ(corners.size(), chart.markers.size()) << chart.name;
    for (const auto& m : chart.markers) {
      ASSERT_TRUE(corners.contains(m.id)) << chart.name << " " << m.id;
      const double s = m.side_mm;
      // Upright: bottom-left, bottom-right, top-right, top-left.
      const PointMm wanted[] = {
          {m.x_mm, m.y_mm + s}, {m.x_mm + s, m.y_mm + s}, {m.x_mm + s, m.y_mm}, {m.x_mm, m.y_mm}};
      for (std::size_t k = 0; k < 4; ++k) {
        const double off = std::hypot(corners[m.id][k].x - wanted[k].x, corners[m.id][k].y - wanted[k].y);
        worst_mm = std::max(worst_mm, off);
        // One dot is 0.085 mm; the detector's corners are good to a fraction of it.
        EXPECT_LT(off, 0.1) << chart.name << " marker " << m.id << " corner " << k;
      }
    }
  }
  std::printf("worst marker corner: %.3f mm off\n", worst_mm);
  apriltag_detector_destroy(detector);
  tag36h11_destroy(family);
}

TEST(ChartDrawingTest, EveryCellOfEveryMarkerIsAsTheMarkerLibraryDrawsIt) {
  apriltag_family_t* family = tag36h11_create();
  for (const auto& chart : charts()) {
    const Image8& image = unlabelled(chart);
    for (const auto& m : chart.markers) {
      image_u8_t* pattern = apriltag_to_image(family, static_cast<std::uint32_t>(m.id));
      ASSERT_EQ(pattern->width, 10);
      const double cell = m.side_mm / 8;
      for (int row = 0; row < 10; ++row)
        for (int column = 0; column < 10; ++column) {
          const auto* pixel = pixel_at(image, {m.x_mm + (column - 0.5) * cell, m.y_mm + (row - 0.5) * cell});
          EXPECT_EQ(pixel[1], pattern->buf[row * pattern->stride + column])
              << chart.name << " marker " << m.id << " row " << row << " column " << column;
        }
      std::free(pattern->buf);
      std::free(pattern);
    }
  }
  tag36h11_destroy(family);
}

TEST(ChartDrawingTest, PatchCentresShowTheNominalColourAsLittleCmsConvertsIt) {
  cmsHPROFILE lab = cmsCreateLab4Profile(nullptr), srgb = cmsCreate_sRGBProfile();
  cmsHTRANSFORM transform = cmsCreateTransform(lab, TYPE_Lab_DBL, srgb, TYPE_RGB_DBL,
                                               INTENT_RELATIVE_COLORIMETRIC, cmsFLAGS_NOOPTIMIZE);
  double worst = 0;
  for (const auto& chart : charts()) {
    const Image8& image = unlabelled(chart);
    for (const auto& patch : chart.patches) {
      const double in[] = {patch.nominal_lab.l, patch.nominal_lab.a, patch.nominal_lab.b};
      double out[3];
      cmsDoTransform(transform, in, out, 1);
      const auto* pixel = pixel_at(image, patch.place.centre());
      for (int k = 0; k < 3; ++k) {
        const double off = std::abs(pixel[k] - 255 * out[k]);
        worst = std::max(worst, off);
        // Half a step of rounding, and the few ten thousandths by which the two matrices of sRGB differ.
        EXPECT_LT(off, 1.0) << chart.name << " " << patch.id << " channel " << k;
      }
      // The whole patch is of one colour, right up to a dot from its sides.
      const double inset = 1.5 / px_per_mm;
      for (const double x : {patch.place.x + inset, patch.place.x + patch.place.width - inset})
        for (const double y : {patch.place.y + inset, patch.place.y + patch.place.height - inset})
          EXPECT_TRUE(std::equal(pixel, pixel + 3, pixel_at(image, {x, y}))) << chart.name << " " << patch.id;
    }
  }
  std::printf("worst channel: %.2f of 255 steps off\n", worst);
  cmsDeleteTransform(transform);
  cmsCloseProfile(lab);
  cmsCloseProfile(srgb);
}

TEST(ChartDrawingTest, PaperStaysBareWhereSamplesAreTaken) {
  for (const auto& chart : charts()) {
    const Image8 image = decoded(drawn(chart, SheetFormat::png, "A5-03", "2031-04-02"));
    std::vector<RectangleMm> printed;
    for (const auto& p : chart.patches) printed.push_back(p.place);
    for (const auto& m : chart.markers) printed.push_back({m.x_mm, m.y_mm, m.side_mm, m.side_mm});
    for (const auto& t : chart.texts) printed.push_back(t.place);
    for (const auto& w : chart.windows) printed.push_back(w.place);
    std::vector<char> may_be_inked(image.data.size() / 3, 0);
    // A text may lean over its block by a stroke; an opening's outline lies outside it.
    constexpr double leeway_mm = 0.3;
    for (const auto& r : printed) {
      const auto px = [](double mm, int most) {
        return std::clamp(static_cast<int>(std::floor(mm * px_per_mm)), 0, most);
      };
      for (int y = px(r.y - leeway_mm, image.rows - 1); y <= px(r.y + r.height + leeway_mm, image.rows - 1);
           ++y)
        for (int x = px(r.x - leeway_mm, image.columns - 1);
             x <= px(r.x + r.width + leeway_mm, image.columns - 1); ++x)
          may_be_inked[static_cast<std::size_t>(y) * static_cast<std::size_t>(image.columns) +
                       static_cast<std::size_t>(x)] = 1;
    }
    std::size_t soiled = 0;
    for (std::size_t i = 0; i < may_be_inked.size(); ++i)
      soiled += !may_be_inked[i] && !is_white(&image.data[3 * i]);
    EXPECT_EQ(soiled, 0u) << chart.name;
  }
}

TEST(ChartDrawingTest, OpeningsAreEmptyExceptForBackings) {
  for (const auto& chart : charts()) {
    const Image8& image = unlabelled(chart);
    for (const auto& window : chart.windows) {
      const RectangleMm& w = window.place;
      for (double x = w.x + 0.5; x < w.x + w.width; x += 1)
        for (double y = w.y + 0.5; y < w.y + w.height; y += 1) {
          const bool on_black = !chart.backings.empty() && chart.backings[0].place.contains({x, y});
          ASSERT_EQ(is_white(pixel_at(image, {x, y})), !on_black) << chart.name << " " << x << ", " << y;
        }
      const auto* outside = pixel_at(image, {w.x - 0.5, w.y + w.height / 2});
      EXPECT_TRUE(is_white(outside)) << "the outline is no wider than the gap that samples keep";
    }
  }
}

TEST(ChartDrawingTest, RulersAreTrue) {
  for (const auto& chart : charts()) {
    const auto ruler = std::find_if(chart.texts.begin(), chart.texts.end(),
                                    [](const PrintedText& t) { return t.kind == PrintedTextKind::ruler; });
    ASSERT_NE(ruler, chart.texts.end());
    const Image8& image = unlabelled(chart);
    // The longest run of ink in a row of the block is the ruler's base line.
    double longest_mm = 0;
    for (double y = ruler->place.y; y < ruler->place.y + ruler->place.height; y += 0.5 / px_per_mm) {
      int run = 0;
      for (double x = ruler->place.x - 1; x < ruler->place.x + ruler->place.width + 1; x += 1 / px_per_mm) {
        run = pixel_at(image, {x, y})[1] < 200 ? run + 1 : 0;
        longest_mm = std::max(longest_mm, run / px_per_mm);
      }
    }
    // 50 mm from the middle of the first stroke to the middle of the last, strokes of 0.15 mm, two dots.
    EXPECT_NEAR(longest_mm, 50.15, 2 / px_per_mm) << chart.name;
  }
}

TEST(ChartDrawingTest, WordsAreAllThere) {
  for (const auto& chart : charts()) {
    const auto path = std::filesystem::temp_directory_path() / "tintfall_sheet_words.pdf";
    std::ofstream(path, std::ios::binary) << drawn(chart, SheetFormat::pdf, "A5-03", "2031-04-02");
    FILE* pipe = popen(("pdftotext -layout '" + path.string() + "' - | tr -s ' \\n\\f' '   '").c_str(), "r");
    ASSERT_NE(pipe, nullptr);
    std::string words;
    char block[4096];
    while (const auto got = std::fread(block, 1, sizeof block, pipe)) words.append(block, got);
    ASSERT_EQ(pclose(pipe), 0) << "pdftotext of poppler-utils is needed";
    for (const char* word :
         {"Label", "A5-03", "Printed", "2031-04-02", "50 mm", "100 %", "matt", "ruler", "markers in view.",
          "Colour never tells", "mushroom", "safe to", "Reagents:", "clean."})
      EXPECT_THAT(words, HasSubstr(word)) << chart.name;
    EXPECT_THAT(words, HasSubstr(chart.name));
    std::filesystem::remove(path);
  }
}

TEST(ChartDrawingTest, LongLabelsStayInsideTheirField) {
  for (const auto& chart : charts()) {
    const auto fields = std::find_if(chart.texts.begin(), chart.texts.end(),
                                     [](const PrintedText& t) { return t.kind == PrintedTextKind::fields; });
    const Image8& empty = unlabelled(chart);
    const Image8 full = decoded(drawn(chart, SheetFormat::png, std::string(120, 'W'), "2031-04-02"));
    int changed = 0;
    for (int y = 0; y < empty.rows; ++y)
      for (int x = 0; x < empty.columns; ++x)
        if (!std::equal(empty.at(y, x), empty.at(y, x) + 3, full.at(y, x))) {
          ++changed;
          ASSERT_TRUE(fields->place.contains({(x + 0.5) / px_per_mm, (y + 0.5) / px_per_mm}))
              << chart.name << " " << x / px_per_mm << ", " << y / px_per_mm;
        }
    EXPECT_GT(changed, 100) << chart.name;
  }
}

TEST(ChartDrawingTest, TellsWhenALabelIsCut) {
  for (const auto& chart : charts()) {
    for (const char* label : {"", "A5-03", "strip-02"})
      EXPECT_FALSE(label_is_shortened(chart, label)) << chart.name << " " << label;
    for (const std::string& label : {std::string(120, 'W'), std::string(40, 'W')})
      EXPECT_TRUE(label_is_shortened(chart, label)) << chart.name << " " << label;
  }
  // What is said is what is drawn: with one letter more than fits, the sheet looks like with two more.
  const auto chart = find_chart("frame-a5");
  ASSERT_TRUE(chart);
  std::string fits;
  while (!label_is_shortened(*chart, fits + "W")) fits += 'W';
  EXPECT_GT(fits.size(), 5u);
  const auto looks = [&](std::size_t more) {
    return decoded(drawn(*chart, SheetFormat::png, fits + std::string(more, 'W'))).data;
  };
  EXPECT_NE(looks(0), looks(1));
  EXPECT_EQ(looks(1), looks(2));
  auto bare = *chart;
  bare.texts.clear();
  EXPECT_FALSE(label_is_shortened(bare, std::string(120, 'W'))) << "there is no field for it";
}

TEST(ChartDrawingTest, TheSameCallGivesTheSameBytes) {
  const auto chart = find_chart("frame-a5");
  ASSERT_TRUE(chart);
  for (const auto format : {SheetFormat::pdf, SheetFormat::svg, SheetFormat::png})
    for (const std::string date : {"", "2031-04-02"})
      EXPECT_TRUE(drawn(*chart, format, "A5-03", date) == drawn(*chart, format, "A5-03", date));
}

TEST(ChartDrawingTest, ADefinitionWithoutWordsIsDrawnWithoutWords) {
  auto chart = find_chart("frame-a5");
  ASSERT_TRUE(chart);
  chart->texts.clear();
  const Image8 image = decoded(drawn(*chart, SheetFormat::png, "A5-03"));
  EXPECT_TRUE(is_white(pixel_at(image, {45, 132})));
  EXPECT_FALSE(is_white(pixel_at(image, chart->patches.front().place.centre())));
}

TEST(ChartDrawingTest, DrawsFromCoarseToFine) {
  // The text of a fine print once asked the font library for glyphs of 60 000 dots.
  const auto chart = find_chart("strip");
  ASSERT_TRUE(chart);
  for (const int dpi : {72, 150, 600, 1200}) {
    const auto png = draw_sheet(*chart, {SheetFormat::png, "A5-03", "2031-04-02", dpi});
    ASSERT_TRUE(png) << dpi << ": " << png.error().message;
    EXPECT_EQ(big_endian(*png, 16), static_cast<std::uint32_t>(std::lround(200 * dpi / 25.4)))
        << "width in the header";
  }
}

TEST(ChartDrawingTest, BadCallsAreRefused) {
  const auto chart = find_chart("frame-a5");
  ASSERT_TRUE(chart);
  const auto draw = [&](const SheetPrint& print) { return draw_sheet(*chart, print); };
  for (const std::string date :
       {"2031-02-30", "2031-4-2", "02.04.2031", "today", "2031-04-02T10:00", "0000-00-00"})
    EXPECT_THAT(draw({SheetFormat::pdf, "", date, 300}),
                FailsWith(ErrorCode::bad_call, HasSubstr("print date")))
        << date;
  for (const std::string& label :
       {std::string("two\nlines"), std::string(121, 'x'), std::string("\xFF\xFE"), std::string("a\0b", 3)})
    EXPECT_THAT(draw({SheetFormat::pdf, label, "", 300}), FailsWith(ErrorCode::bad_call, HasSubstr("label")));
  for (const int dpi : {-300, 0, 71, 1201, 2'000'000'000})
    EXPECT_THAT(draw({SheetFormat::png, "", "", dpi}),
                FailsWith(ErrorCode::bad_call, HasSubstr("dots per inch")));
}

TEST(ChartDrawingTest, AHugeSheetIsNotDrawnAsPixels) {
  auto chart = find_chart("frame-a5");
  ASSERT_TRUE(chart);
  chart->width_mm = chart->height_mm = 2000;
  EXPECT_THAT(draw_sheet(*chart, {SheetFormat::png, "", "", 1200}),
              FailsWith(ErrorCode::bad_call, HasSubstr("million")));
}

}  // namespace
}  // namespace colorlib
