#include <gmock/gmock.h>
#include <jpeglib.h>
#include <lcms2.h>
#include <zlib.h>

#include <algorithm>
#include <cmath>
#include <tests/end_to_end/bad_call.hpp>
#include <tests/end_to_end/demo_photo.hpp>

namespace tintfall {
namespace {

using colorlib::Image8;
using testing::Eq;
using testing::HasSubstr;

const Refusal unreadable{3, "unreadable-photo", ""}, unsupported{3, "unsupported-photo", ""};

Refusal saying(Refusal refusal, std::string word) {
  refusal.word = std::move(word);
  return refusal;
}

/// A PNG that says it has `width` x `height` pixels, and then holds next to nothing.
std::string png_of_size(std::uint32_t width, std::uint32_t height) {
  const auto big_endian = [](std::uint32_t v) {
    return std::string{static_cast<char>(v >> 24), static_cast<char>(v >> 16), static_cast<char>(v >> 8),
                       static_cast<char>(v)};
  };
  const auto chunk = [&](const std::string& body) {
    const auto sum = crc32(0, reinterpret_cast<const Bytef*>(body.data()), static_cast<uInt>(body.size()));
    return big_endian(static_cast<std::uint32_t>(body.size() - 4)) + body +
           big_endian(static_cast<std::uint32_t>(sum));
  };
  const std::string header =
      "IHDR" + big_endian(width) + big_endian(height) + std::string("\x08\x02\x00\x00\x00", 5);
  return "\x89PNG\r\n\x1a\n" + chunk(header) +
         chunk(std::string("IDAT\x78\x9c\x03\x00\x00\x00\x00\x01", 12)) + chunk("IEND");
}

/// The first frame header's height and width overwritten.
std::string jpeg_of_size(std::string jpeg, int width, int height) {
  const auto frame = jpeg.find("\xFF\xC0");
  EXPECT_NE(frame, std::string::npos);
  jpeg[frame + 5] = static_cast<char>(height >> 8);
  jpeg[frame + 6] = static_cast<char>(height & 0xFF);
  jpeg[frame + 7] = static_cast<char>(width >> 8);
  jpeg[frame + 8] = static_cast<char>(width & 0xFF);
  return jpeg;
}

std::string cmyk_jpeg() {
  jpeg_compress_struct writer;
  jpeg_error_mgr errors;
  writer.err = jpeg_std_error(&errors);
  jpeg_create_compress(&writer);
  unsigned char* bytes = nullptr;
  unsigned long size = 0;
  jpeg_mem_dest(&writer, &bytes, &size);
  writer.image_width = writer.image_height = 64;
  writer.input_components = 4;
  writer.in_color_space = JCS_CMYK;
  jpeg_set_defaults(&writer);
  jpeg_start_compress(&writer, TRUE);
  std::vector<JSAMPLE> row(64 * 4, 100);
  JSAMPROW rows[] = {row.data()};
  while (writer.next_scanline < writer.image_height) jpeg_write_scanlines(&writer, rows, 1);
  jpeg_finish_compress(&writer);
  jpeg_destroy_compress(&writer);
  std::string result(reinterpret_cast<char*>(bytes), size);
  free(bytes);
  return result;
}

std::string grey_profile() {
  cmsToneCurve* curve = cmsBuildGamma(nullptr, 2.2);
  cmsHPROFILE profile = cmsCreateGrayProfile(cmsD50_xyY(), curve);
  cmsUInt32Number size = 0;
  cmsSaveProfileToMem(profile, nullptr, &size);
  std::string bytes(size, '\0');
  cmsSaveProfileToMem(profile, bytes.data(), &size);
  cmsCloseProfile(profile);
  cmsFreeToneCurve(curve);
  return bytes;
}

TEST(BadPhotos, Missing) {
  const ScratchFolder scratch;
  expect_refused({"read", scratch.path("none.jpg")}, saying(unreadable, "does not exist"));
}

TEST(BadPhotos, AFolder) {
  const ScratchFolder scratch;
  std::filesystem::create_directory(scratch.path("photos"));
  expect_refused({"read", scratch.path("photos")}, saying(unreadable, "folder"));
}

TEST(BadPhotos, Empty) {
  const ScratchFolder scratch;
  expect_refused({"read", scratch.write("empty.jpg", "")}, saying(unreadable, "empty"));
}

TEST(BadPhotos, TruncatedAnywhere) {
  const ScratchFolder scratch;
  const std::string& whole = demo_photo().scene.jpeg_bytes;
  for (const double share : {0.00001, 0.001, 0.01, 0.3, 0.9})
    expect_refused(
        {"read",
         scratch.write("cut.jpg", whole.substr(0, 3 + static_cast<std::size_t>(
                                                          share * static_cast<double>(whole.size()))))},
        unreadable);
}

TEST(BadPhotos, RenamedTextAndRandomBytes) {
  const ScratchFolder scratch;
  expect_refused({"read", scratch.write("text.jpg", "These are words, not a photo.\n")},
                 saying(unsupported, "text"));
  std::string noise;
  for (unsigned i = 0, x = 12345; i < 50000; ++i, x = x * 1664525u + 1013904223u)
    noise += static_cast<char>(x >> 24);
  expect_refused({"read", scratch.write("noise.png", noise)}, unreadable);
}

TEST(BadPhotos, AnotherNameIsNoReasonToRefuse) {
  const ScratchFolder scratch;
  const auto run = run_tintfall(
      {"read", scratch.write("really-a-jpeg.png", demo_photo().scene.jpeg_bytes), "--json", "-"});
  EXPECT_THAT(run.status, Eq(0)) << run.err;
}

TEST(BadPhotos, AbsurdlyLarge) {
  const ScratchFolder scratch;
  expect_refused({"read", scratch.write("huge.png", png_of_size(1u << 30, 1u << 30))}, unreadable);
  expect_refused({"read", scratch.write("large.png", png_of_size(60000, 60000))},
                 saying(unreadable, "60000 x 60000"));
  expect_refused(
      {"read", scratch.write("large.jpg", jpeg_of_size(demo_photo().scene.jpeg_bytes, 65500, 65500))},
      saying(unreadable, "65500 x 65500"));
}

TEST(BadPhotos, AbsurdlyLargeFile) {
  const ScratchFolder scratch;
  scratch.write("sparse.jpg", demo_photo().scene.jpeg_bytes);
  std::filesystem::resize_file(scratch.path("sparse.jpg"), 5'000'000'000);  // takes no room on disk
  expect_refused({"read", scratch.path("sparse.jpg")}, saying(unreadable, "larger"));
}

TEST(BadPhotos, LargerThanItsData) {
  const ScratchFolder scratch;
  expect_refused({"read", scratch.write("short.png", png_of_size(4000, 3000))}, unreadable);
  expect_refused(
      {"read", scratch.write("short.jpg", jpeg_of_size(demo_photo().scene.jpeg_bytes, 12000, 12000))},
      unreadable);
}

TEST(BadPhotos, ColoursForPrinting) {
  const ScratchFolder scratch;
  expect_refused({"read", scratch.write("cmyk.jpg", cmyk_jpeg())}, saying(unsupported, "CMYK"));
}

TEST(BadPhotos, ProfilesThatCannotBelong) {
  const ScratchFolder scratch;
  const std::string& jpeg = demo_photo().scene.jpeg_bytes;
  expect_refused({"read", scratch.write("grey-profile.jpg", with_profile(jpeg, grey_profile()))},
                 saying(unsupported, "profile"));
}

TEST(BadPhotos, DamagedProfilesAreSaidAndSrgbIsAssumed) {
  const ScratchFolder scratch;
  const auto run = run_tintfall(
      {"read",
       scratch.write("noise.jpg", with_profile(demo_photo().scene.jpeg_bytes, std::string(3000, 'x'))),
       "--json", "-"});
  EXPECT_THAT(run.status, Eq(0)) << run.err;
  EXPECT_THAT(run.err, HasSubstr("profile is damaged"));
  EXPECT_THAT(run.out, HasSubstr("\"profile_assumed\": true"));
}

TEST(BadPhotos, NoChartInThePicture) {
  const ScratchFolder scratch;
  const Refusal none{4, "chart-not-found", ""};
  expect_refused({"read", scratch.write("table.jpg", changed_photo([](const Image8& picture) {
                                          Image8 table(600, 800, 3);
                                          for (int r = 0; r < table.rows; ++r)
                                            for (int c = 0; c < table.columns; ++c)
                                              for (int k = 0; k < 3; ++k)
                                                table.at(r, c)[k] = static_cast<std::uint8_t>(
                                                    120 + 60 * std::sin(0.05 * c + 0.02 * r + k) +
                                                    picture.at(r, c)[k] % 7);
                                          return table;
                                        }))},
                 none);
  Image8 black(48, 64, 3);
  expect_refused({"read", scratch.write("black.jpg", changed_photo([&](const Image8&) { return black; }))},
                 none);
  expect_refused(
      {"read", scratch.write("one-pixel.jpg", changed_photo([&](const Image8&) { return Image8(1, 1, 3); }))},
      none);
}

TEST(BadPhotos, ChartMirrored) {
  const ScratchFolder scratch;
  expect_refused({"read", scratch.write("mirrored.jpg", changed_photo(mirrored))},
                 {4, "chart-not-found", "mirror"});
}

TEST(BadPhotos, ChartBlurredAway) {
  const ScratchFolder scratch;
  expect_refused(
      {"read", scratch.write("blurred.jpg", changed_photo([](const Image8& p) { return blurred(p, 14); }))},
      {4, "chart-not-found", ""});
}

TEST(BadPhotos, ChartCutOff) {
  const ScratchFolder scratch;
  // One marker of six is left in the picture.
  const auto& corner = demo_photo().scene.view.px_from_mm({32, 32});
  expect_refused({"read", scratch.write("cut.jpg", changed_photo([&](const Image8& p) {
                                          return cropped(p, 0, 0, static_cast<int>(corner.x),
                                                         static_cast<int>(corner.y));
                                        }))},
                 {4, "chart-not-found", ""});
}

TEST(BadPhotos, OverExposed) {
  const ScratchFolder scratch;
  const auto far_too_bright = [&](double gain) {
    return scratch.write("white.jpg", changed_photo([&](const Image8& p) { return brightened(p, gain); }));
  };
  expect_refused({"read", far_too_bright(1.8)}, {5, "untrustworthy", "the bare paper is over-exposed"});
  expect_refused({"read", far_too_bright(2.6)}, {5, "untrustworthy", "patches can be used"});
  EXPECT_THAT(run_tintfall({"read", far_too_bright(2.6)}).err, HasSubstr("less exposure"));
}

TEST(BadPhotos, ALittleOverExposedBlamesTheExposureAndNotDirt) {
  const ScratchFolder scratch;
  const auto run = run_tintfall(
      {"read", scratch.write("bright.jpg", changed_photo([](const Image8& p) { return brightened(p, 1.5); })),
       "--region", "deposit@105,74,4"});
  ASSERT_EQ(run.status, 0) << run.err;
  EXPECT_THAT(run.out, HasSubstr("0 places of bare paper"));
  EXPECT_THAT(run.out, HasSubstr("expose less"));
  EXPECT_THAT(run.out, testing::Not(HasSubstr("clean the sheet")));
  EXPECT_THAT(run.out, testing::Not(HasSubstr("uneven-light")));
}

TEST(BadPhotos, OneBadPhotoDoesNotStopTheOthers) {
  const ScratchFolder scratch;
  const std::string good = scratch.write("good.jpg", demo_photo().scene.jpeg_bytes),
                    bad = scratch.write("bad.jpg", "words");
  const auto run =
      run_tintfall({"read", bad, good, scratch.path("none.jpg"), "--json", scratch.path("records.jsonl")});
  EXPECT_THAT(run.status, Eq(0)) << run.err;
  EXPECT_THAT(run.err, HasSubstr("\"photo\":\"bad.jpg\""));
  EXPECT_THAT(run.err, HasSubstr("\"photo\":\"none.jpg\""));
  const std::string records = scratch.read("records.jsonl");
  EXPECT_THAT(std::count(records.begin(), records.end(), '\n'), Eq(1));
  EXPECT_THAT(records, HasSubstr("\"good.jpg\""));
  EXPECT_THAT(run_tintfall({"read", scratch.path("none.jpg"), bad}).status, Eq(3));
}

}  // namespace
}  // namespace tintfall
