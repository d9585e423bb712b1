#include <unistd.h>
#include <colorlib/base/file_access.hpp>
#include <filesystem>
#include <fstream>

#include "photo_checks.hpp"
#include "photo_files.hpp"

namespace colorlib {
namespace {

using namespace std::string_literals;
using testing::HasSubstr;
using namespace photo_files;

class DecodeFile : public testing::Test {
 protected:
  DecodeFile() { std::filesystem::create_directories(folder_); }
  ~DecodeFile() override { std::filesystem::remove_all(folder_); }
  std::filesystem::path write(const std::string& name, const std::string& bytes) const {
    std::ofstream(folder_ / name, std::ios::binary) << bytes;
    return folder_ / name;
  }
  std::filesystem::path folder_ =
      std::filesystem::temp_directory_path() / fmt::format("tintfall-decode-{}", ::getpid());
};

TEST_F(DecodeFile, TheNameSaysNothing) {
  const Image8 pattern = pattern_8(30, 20);
  const auto photo = decode_photo(write("really-a-png.jpg", png(pattern)));
  ASSERT_TRUE(photo) << photo.error().message;
  EXPECT_EQ(photo->name(), "really-a-png.jpg");
  EXPECT_EQ(largest_difference(*photo, pattern), 0);
}

TEST(Decode, StopsWhenAskedWhateverTheFormat) {
  struct Asked : Progress {
    explicit Asked(int polls_before) : after(polls_before) {}
    bool cancelled() const override { return ++polls > after; }
    int after;
    mutable int polls = 0;
  };
  TiffOptions planes, tiles;
  planes.separate = true;
  tiles.tile = 64;
  const Image8 pattern = pattern_8(83, 610);
  for (const auto& [name, file] : {std::pair{"a.jpg", jpeg(pattern)},
                                   {"a.png", png(pattern)},
                                   {"a.tif", tiff(pattern)},
                                   {"planes.tif", tiff(pattern, planes)},
                                   {"tiles.tif", tiff(pattern, tiles)},
                                   {"a.dng", dng(pattern_16(84, 610))}}) {
    SCOPED_TRACE(name);
    DecodeLimits limits;
    const Asked never(1'000'000);
    limits.progress = &never;
    const auto whole = decode_photo(file, name, limits);
    ASSERT_TRUE(whole) << whole.error().message;
    EXPECT_GT(never.polls, 3);
    for (const int after : {0, never.polls / 2, never.polls - 1}) {
      const Asked asked(after);
      limits.progress = &asked;
      EXPECT_THAT(decode_photo(file, name, limits), FailsWith(ErrorCode::cancelled, HasSubstr("stopped")));
      EXPECT_LE(asked.polls, after + 2);  // once more to say why it failed
    }
  }
}

TEST_F(DecodeFile, MissingEmptyAndFolder) {
  EXPECT_THAT(decode_photo(folder_ / "none.jpg"),
              FailsWith(ErrorCode::unreadable_photo, HasSubstr("does not exist")));
  EXPECT_THAT(decode_photo(folder_), FailsWith(ErrorCode::unreadable_photo, HasSubstr("folder")));
  EXPECT_THAT(decode_photo(write("empty.jpg", "")),
              FailsWith(ErrorCode::unreadable_photo, HasSubstr("empty")));
  EXPECT_THAT(decode_photo(""s, "empty.jpg"), FailsWith(ErrorCode::unreadable_photo, HasSubstr("empty")));
  DecodeLimits limits;
  limits.file_bytes = 100;
  EXPECT_THAT(decode_photo(write("big.png", png(pattern_8(30, 20))), limits),
              FailsWith(ErrorCode::unreadable_photo, HasSubstr("100")));
  EXPECT_THAT(decode_photo(png(pattern_8(30, 20)), "big.png", limits),
              FailsWith(ErrorCode::unreadable_photo, HasSubstr("100")));
}

TEST(Decode, OtherKindsAreNamed) {
  const std::pair<std::string, const char*> cases[] = {
      {"<!DOCTYPE html><html><body>Not found</body></html>", "a web page"},
      {"<html>x", "a web page"},
      {"<?xml version=\"1.0\"?><svg xmlns=\"x\"/>", "an SVG drawing"},
      {"L,a,b\n52,14,33\n", "a text file"},
      {"BMW is how this text file begins, and it is no picture", "a text file"},
      {"\0\0\0\x18"s + "ftypmp42\0\0\0\0isommp42"s + std::string(100, '\1'), "a video"},
      {"\0\0\0\x14"s + "ftypqt  \0\0\0\0qt  "s + std::string(100, '\1'), "a video"},
      {"\x1a\x45\xdf\xa3"s + std::string(100, '\1'), "a video"},
      {"RIFF\1\2\3\4AVI LIST"s, "a video"},
      {"RIFF\1\2\3\4WEBPVP8 "s, "a WebP picture"},
      {"GIF89a\1\0\1\0"s, "a GIF picture"},
      {"%PDF-1.7\n\1\2"s, "a PDF document"},
      {"PK\3\4\x14\0\6\0"s, "a ZIP archive"},
      {"BM\x36\0\x10\0\0\0\0\0\x36\0\0\0\x28\0\0\0\0\0"s, "a BMP picture"},
      {"8BPS\0\1\0\0"s, "a layered picture"},
      {"\0\0\0\x0cJXL \r\n\x87\n"s, "a JPEG XL picture"},
  };
  for (const auto& [bytes, words] : cases) {
    const auto photo = decode_photo(bytes, "sent.jpg");
    EXPECT_THAT(photo, FailsWith(ErrorCode::unsupported_photo, HasSubstr(words)));
    if (!photo) {
      EXPECT_THAT(photo.error().message, HasSubstr("sent.jpg"));
      EXPECT_THAT(photo.error().advice, HasSubstr("JPEG"));
    }
  }
}

TEST(Decode, NonsenseIsUnreadable) {
  for (const std::string& bytes : {std::string(1, '\0'), std::string(1000, '\0'), std::string(1000, '\x05'),
                                   "\xff\xd8"s, "\x89PNG"s, "\0\0"s})
    EXPECT_THAT(decode_photo(bytes, "noise.jpg"),
                FailsWith(ErrorCode::unreadable_photo, HasSubstr("noise.jpg")));
  for (const std::string& bytes :
       {"\xff\xd8\xff"s, "\x89PNG\r\n\x1a\n"s, "II*\0"s, "MM\0*"s, "II*\0\x08\0\0\0\0\0"s,
        "\0\0\0\x18"s + "ftypheic\0\0\0\0mif1heic"s, "II*\0\x10\0\0\0CR\2\0"s + std::string(40, '\0')}) {
    const auto photo = decode_photo(bytes, "head.bin");
    ASSERT_FALSE(photo);
    EXPECT_THAT(photo.error().message, HasSubstr("head.bin"));
    EXPECT_FALSE(photo.error().advice.empty());
  }
}

TEST(Decode, SentencesAreOneSentence) {
  const auto photo = decode_photo("GIF89a"s, "a.jpg");
  ASSERT_FALSE(photo);
  EXPECT_EQ(photo.error().message, "Reading 'a.jpg': it is a GIF picture, a photo is needed.");
}

TEST(Decode, TellsWhatItReads) {
  const auto formats = readable_formats();
  EXPECT_THAT(formats, testing::IsSupersetOf({"JPEG", "PNG", "TIFF", "camera raw"}));
}

}  // namespace
}  // namespace colorlib
