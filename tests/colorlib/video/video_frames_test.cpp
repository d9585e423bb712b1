#include <gmock/gmock.h>
#include <unistd.h>

#include <cmath>
#include <colorlib/video/video_frames.hpp>
#include <fstream>
#include <tests/colorlib/video/video_files.hpp>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

using testing::DoubleNear;
using testing::ElementsAre;
using testing::Eq;
using testing::HasSubstr;

class VideoFramesTest : public testing::Test {
 protected:
  VideoFramesTest() {
    std::string pattern = (std::filesystem::temp_directory_path() / "tintfall-video-XXXXXX").string();
    folder_ = mkdtemp(pattern.data());
  }
  ~VideoFramesTest() override { std::filesystem::remove_all(folder_); }
  std::filesystem::path path(const std::string& name) const { return folder_ / name; }
  std::filesystem::path folder_;
};

/// Left half one colour, right half another; the level is the frame's.
Image8 picture(int width, int height, std::array<int, 3> left, std::array<int, 3> right) {
  Image8 image(height, width, 3);
  for (int r = 0; r < height; ++r)
    for (int c = 0; c < width; ++c)
      for (int k = 0; k < 3; ++k)
        image.at(r, c)[k] =
            static_cast<std::uint8_t>((c < width / 2 ? left : right)[static_cast<std::size_t>(k)]);
  return image;
}

std::filesystem::path write(const std::filesystem::path& path, const VideoFileSettings& settings,
                            const std::vector<long>& times) {
  VideoWriter writer(path, settings);
  for (const long t : times)
    writer.add(picture(settings.width_px, settings.height_px, {200, 120, 60}, {40, 90, 160}), t);
  writer.finish();
  return path;
}

std::vector<double> times_of(VideoFrames& frames) {
  std::vector<double> times;
  for (;;) {
    const auto next = frames.next();
    if (!next || !*next) return times;
    times.push_back((*next)->seconds());
  }
}

TEST_F(VideoFramesTest, TimesAreTheStreamsOwnAtAVariableRate) {
  for (const char* name : {"a.mp4", "a.mkv"}) {
    VideoFileSettings settings;
    auto frames = VideoFrames::open(write(path(name), settings, {0, 33, 66, 140, 700, 733, 2000}));
    ASSERT_TRUE(frames.has_value()) << frames.error().message;
    EXPECT_THAT(times_of(*frames),
                ElementsAre(DoubleNear(0, 1e-3), DoubleNear(0.033, 1e-3), DoubleNear(0.066, 1e-3),
                            DoubleNear(0.140, 1e-3), DoubleNear(0.700, 1e-3), DoubleNear(0.733, 1e-3),
                            DoubleNear(2.0, 1e-3)))
        << name;
  }
}

TEST_F(VideoFramesTest, ColoursComeBackByTheStreamsMatrixAndRange) {
  for (const char* codec : {"libx264", "mpeg4", "libvpx-vp9"}) {
    VideoFileSettings settings;
    settings.codec = codec;
    settings.quality = 10;
    auto frames = VideoFrames::open(write(path(std::string(codec) + ".mkv"), settings, {0, 40, 80}));
    ASSERT_TRUE(frames.has_value()) << codec << frames.error().message;
    const auto frame = frames->next();
    ASSERT_TRUE(frame.has_value() && *frame);
    const auto photo = (*frame)->photo();
    ASSERT_TRUE(photo.has_value());
    const Vector3 left = photo->encoded_at(100, 180), right = photo->encoded_at(500, 180);
    const double wanted_left[] = {200, 120, 60}, wanted_right[] = {40, 90, 160};
    for (std::size_t k = 0; k < 3; ++k) {
      // 8 bits in limited range and compression: a few steps.
      EXPECT_THAT(255 * left[k], DoubleNear(wanted_left[k], 4)) << codec;
      EXPECT_THAT(255 * right[k], DoubleNear(wanted_right[k], 4)) << codec;
    }
  }
}

/// Three frames of one kind, then three of another.
std::filesystem::path write_changing(const std::filesystem::path& path, const VideoFileSettings& first,
                                     const VideoFileSettings& then) {
  VideoWriter writer(path, first);
  const auto add = [&](const VideoFileSettings& kind, long from) {
    for (long t = from; t < from + 120; t += 40)
      writer.add(picture(kind.width_px, kind.height_px, {200, 120, 60}, {40, 90, 160}), t);
  };
  add(first, 0);
  writer.change(then);
  add(then, 120);
  writer.finish();
  return path;
}

TEST_F(VideoFramesTest, FramesOfAnotherSizeAreLeftOutAndCounted) {
  VideoFileSettings small, large;
  small.codec = large.codec = "mjpeg";
  small.width_px = 320, small.height_px = 240;
  large.width_px = 1280, large.height_px = 720;
  for (const char* pixels : {"yuvj422p", "yuvj420p"})  // converted to planes here, or used as they are
    for (const auto& [first, then] : {std::pair{small, large}, {large, small}}) {
      VideoFileSettings a = first, b = then;
      a.pixel_format = b.pixel_format = pixels;
      auto frames = VideoFrames::open(write_changing(path("changing.mkv"), a, b));
      ASSERT_TRUE(frames.has_value()) << frames.error().message;
      int count = 0;
      for (;;) {
        const auto next = frames->next();
        ASSERT_TRUE(next.has_value()) << next.error().message;
        if (!*next) break;
        ++count;
        const FramePlane luma = (*next)->luma();
        EXPECT_THAT(luma.width, Eq(a.width_px));
        EXPECT_THAT(luma.height, Eq(a.height_px));
      }
      EXPECT_THAT(count, Eq(3)) << pixels << ", " << a.width_px;
      EXPECT_THAT(frames->of_other_size(), Eq(3)) << pixels << ", " << a.width_px;
      EXPECT_THAT(frames->damaged(), Eq(0));
    }
}

TEST_F(VideoFramesTest, PlanesStayRightWhenThePixelFormatChanges) {
  VideoFileSettings half, full;
  half.codec = full.codec = "mjpeg";
  half.pixel_format = "yuvj422p";
  full.pixel_format = "yuvj444p";
  for (const auto& [first, then] : {std::pair{half, full}, {full, half}}) {
    auto frames = VideoFrames::open(write_changing(path("changing.mkv"), first, then));
    ASSERT_TRUE(frames.has_value()) << frames.error().message;
    for (int i = 0; i < 6; ++i) {
      const auto next = frames->next();
      ASSERT_TRUE(next.has_value() && *next) << i;
      // Left (200, 120, 60), right (40, 90, 160) by JPEG's own matrix [T871]; two levels for compression and
      // rounding each.
      const auto value = [](const FramePlane& plane, int x, int y) {
        return static_cast<int>(plane.data[y * plane.stride + x * plane.step]);
      };
      const VideoFrame& frame = **next;
      EXPECT_NEAR(value(frame.luma(), 100, 180), 137, 4) << i;
      EXPECT_NEAR(value(frame.luma(), 500, 180), 83, 4) << i;
      EXPECT_NEAR(value(frame.blue_difference(), 50, 90), 84, 4) << i;
      EXPECT_NEAR(value(frame.blue_difference(), 250, 90), 171, 4) << i;
      EXPECT_NEAR(value(frame.red_difference(), 50, 90), 173, 4) << i;
      EXPECT_NEAR(value(frame.red_difference(), 250, 90), 97, 4) << i;
    }
  }
}

TEST_F(VideoFramesTest, RotationIsApplied) {
  for (const auto& [turn, x, y] : {std::tuple{90, 180, 100}, {180, 500, 180}, {270, 180, 500}}) {
    VideoFileSettings settings;
    settings.rotation_deg = turn;
    auto frames = VideoFrames::open(write(path("turned.mp4"), settings, {0, 40}));
    ASSERT_TRUE(frames.has_value());
    EXPECT_THAT(frames->description().width_px, Eq(turn % 180 == 0 ? 640 : 360));
    const auto frame = frames->next();
    ASSERT_TRUE(frame.has_value() && *frame);
    const auto photo = (*frame)->photo();
    ASSERT_TRUE(photo.has_value());
    EXPECT_THAT(photo->width_px(), Eq(frames->description().width_px));
    // What was left is on top after a quarter turn clockwise, right after half a turn, at the bottom after
    // three.
    EXPECT_GT(photo->encoded_at(x, y)[0], 0.6) << turn;
    // The luma under the same upright place is the same pixel's.
    const auto [sx, sy] = (*frame)->stored(x, y);
    const FramePlane luma = (*frame)->luma();
    const Vector3 rgb = photo->encoded_at(x, y);
    const double wanted = 16 + 219 * (0.2126 * rgb[0] + 0.7152 * rgb[1] + 0.0722 * rgb[2]);
    EXPECT_THAT(luma.data[static_cast<int>(sy) * luma.stride + static_cast<int>(sx)],
                testing::AllOf(testing::Ge(wanted - 4), testing::Le(wanted + 4)));
  }
}

TEST_F(VideoFramesTest, WhenItWasRecorded) {
  VideoFileSettings settings;
  settings.creation_time = "2031-10-05T09:00:00.000000Z";
  const auto frames = VideoFrames::open(write(path("dated.mp4"), settings, {0, 40}));
  ASSERT_TRUE(frames.has_value());
  ASSERT_TRUE(frames->description().recorded.has_value());
  EXPECT_THAT(frames->description().recorded->hour, Eq(9));
}

TEST_F(VideoFramesTest, BadFilesAreRefusedInWords) {
  EXPECT_THAT(VideoFrames::open(path("none.mp4")),
              FailsWith(ErrorCode::unreadable_photo, HasSubstr("none.mp4")));
  std::ofstream(path("text.mp4")) << "this is no video, whatever it is called";
  EXPECT_THAT(VideoFrames::open(path("text.mp4")),
              FailsWith(ErrorCode::unreadable_photo, HasSubstr("text.mp4")));
  VideoFileSettings settings;
  settings.high_dynamic_range = true;
  EXPECT_THAT(VideoFrames::open(write(path("hdr.mp4"), settings, {0, 40})),
              FailsWith(ErrorCode::unsupported_photo, HasSubstr("high dynamic range")));
}

TEST_F(VideoFramesTest, ACutOffFileGivesWhatItHolds) {
  VideoFileSettings settings;
  std::vector<long> times;
  for (long t = 0; t < 3000; t += 33) times.push_back(t);
  const auto whole = write(path("whole.mkv"), settings, times);
  std::filesystem::resize_file(whole, std::filesystem::file_size(whole) / 2);
  auto frames = VideoFrames::open(whole);
  ASSERT_TRUE(frames.has_value());
  const std::size_t got = times_of(*frames).size();
  EXPECT_GT(got, 5u);
  EXPECT_LT(got, times.size());
}

TEST_F(VideoFramesTest, IsToldFromPicturesByContent) {
  EXPECT_TRUE(looks_like_video(write(path("v.mp4"), {}, {0, 40})));
  EXPECT_TRUE(looks_like_video(write(path("v.mkv"), {}, {0, 40})));
  std::ofstream(path("p.jpg"), std::ios::binary) << "\xFF\xD8\xFF\xE0 0123456789abcdef";
  EXPECT_FALSE(looks_like_video(path("p.jpg")));
  std::ofstream(path("h.heic"), std::ios::binary) << std::string(
      "\0\0\0\x18"
      "ftypheic\0\0\0\0mif1",
      20);
  EXPECT_FALSE(looks_like_video(path("h.heic")));
  EXPECT_FALSE(looks_like_video(path("none")));
}

}  // namespace
}  // namespace colorlib
