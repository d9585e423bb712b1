#include <gtest/gtest.h>

#include <colorlib/image/capture_metadata.hpp>
#include <colorlib/image/exif_block_internal.hpp>
#include <ctime>

#include "photo_files.hpp"

namespace colorlib {
namespace {

TEST(CaptureTime, ReadsSubSecondsAndZone) {
  const auto time = capture_time_from_exif("2031:04:09 10:12:03", "25", "+02:00");
  ASSERT_TRUE(time);
  EXPECT_EQ(time->iso8601(), "2031-04-09T10:12:03.25+02:00");
  EXPECT_EQ(time->subsecond_digits, 2);
  EXPECT_EQ(time->zone_offset_minutes, 120);
}

TEST(CaptureTime, LeavesOutWhatTheFileDoesNotSay) {
  EXPECT_EQ(capture_time_from_exif("2031:04:09 10:12:03", "", "")->iso8601(), "2031-04-09T10:12:03");
  EXPECT_EQ(capture_time_from_exif("2031:04:09 10:12:03", "007", "-03:30")->iso8601(),
            "2031-04-09T10:12:03.007-03:30");
  EXPECT_EQ(capture_time_from_exif("2031:04:09 10:12:03", "x", "+99:00")->iso8601(), "2031-04-09T10:12:03");
  EXPECT_EQ(capture_time_from_exif("2031:04:09 10:12:03", std::string("5 \0", 3), "Z")->iso8601(),
            "2031-04-09T10:12:03.5+00:00");
}

TEST(CaptureTime, RefusesWhatIsNoDate) {
  for (const char* text :
       {"", "    :  :     :  :  ", "0000:00:00 00:00:00", "2031:13:09 10:12:03", "2031:02:29 10:12:03",
        "2031:04:09 24:12:03", "2031-04-09 10:12:03", "2031:04:09T10:12:03", "2031:04:09 10:12", "yesterday"})
    EXPECT_FALSE(capture_time_from_exif(text, "", "")) << text;
  EXPECT_TRUE(capture_time_from_exif("2032:02:29 10:12:03", "", ""));
}

TEST(CaptureTime, SecondsAgreeWithTheSystemCalendar) {
  for (const char* text : {"1970:01:01 00:00:00", "1999:12:31 23:59:59", "2000:02:29 12:00:00",
                           "2031:04:09 10:12:03", "2100:03:01 00:00:01"}) {
    const auto time = capture_time_from_exif(text, "5", "");
    ASSERT_TRUE(time) << text;
    std::tm parts{};
    parts.tm_year = time->year - 1900, parts.tm_mon = time->month - 1, parts.tm_mday = time->day;
    parts.tm_hour = time->hour, parts.tm_min = time->minute, parts.tm_sec = static_cast<int>(time->second);
    EXPECT_DOUBLE_EQ(time->seconds(), static_cast<double>(timegm(&parts)) + 0.5) << text;
  }
  const double here = capture_time_from_exif("2031:04:09 10:12:03", "", "+02:00")->seconds();
  const double there = capture_time_from_exif("2031:04:09 08:12:05", "", "+00:00")->seconds();
  EXPECT_DOUBLE_EQ(there - here, 2) << "known zones are removed";
}

TEST(ExifBlock, SaysEverythingInBothByteOrders) {
  for (const bool big_endian : {false, true}) {
    photo_files::Exif exif;
    exif.big_endian = big_endian;
    exif.orientation = 6;
    exif.make = "Example";
    exif.model = "Box 1";
    exif.time_original = "2031:04:09 10:12:03";
    exif.subseconds_original = "25";
    exif.zone_original = "+02:00";
    exif.exposure_s = {1, 125};
    exif.f_number = {28, 10};
    exif.focal_length_mm = {50, 1};
    exif.iso_speed = 200;
    const std::string block = photo_files::exif_block(exif);
    for (const std::string& bytes : {block, std::string("Exif\0\0", 6) + block}) {
      const auto capture = capture_from_exif(bytes);
      EXPECT_EQ(capture.orientation, 6);
      EXPECT_EQ(capture.camera_make, "Example");
      EXPECT_EQ(capture.camera_model, "Box 1");
      ASSERT_TRUE(capture.captured);
      EXPECT_EQ(capture.captured->iso8601(), "2031-04-09T10:12:03.25+02:00");
      EXPECT_DOUBLE_EQ(capture.exposure_s.value_or(0), 1.0 / 125);
      EXPECT_DOUBLE_EQ(capture.f_number.value_or(0), 2.8);
      EXPECT_DOUBLE_EQ(capture.focal_length_mm.value_or(0), 50);
      EXPECT_DOUBLE_EQ(capture.iso_speed.value_or(0), 200);
    }
  }
}

TEST(ExifBlock, TakesTheDigitizedTimeOnlyWhenThereIsNoOther) {
  photo_files::Exif exif;
  exif.time_digitized = "2031:04:09 11:00:00";
  EXPECT_EQ(capture_from_exif(photo_files::exif_block(exif)).captured->hour, 11);
  exif.time_original = "2031:04:09 10:00:00";
  EXPECT_EQ(capture_from_exif(photo_files::exif_block(exif)).captured->hour, 10);
}

TEST(ExifBlock, DamagedOrSilentBlocksSayNothing) {
  photo_files::Exif zero;
  zero.exposure_s = {0, 0};
  zero.f_number = {0, 1};
  zero.orientation = 77;
  const std::string silent = photo_files::exif_block(zero);
  for (const std::string& bytes :
       {std::string(), std::string(5, 'x'), std::string(100, '\xff'), silent, silent.substr(0, 20)}) {
    const auto capture = capture_from_exif(bytes);
    EXPECT_EQ(capture.orientation, 1);
    EXPECT_FALSE(capture.captured);
    EXPECT_FALSE(capture.exposure_s);
    EXPECT_FALSE(capture.f_number);
  }
}

}  // namespace
}  // namespace colorlib
