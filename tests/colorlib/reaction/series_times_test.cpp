#include <gmock/gmock.h>

#include <cmath>
#include <colorlib/reaction/series_times.hpp>
#include <limits>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

using testing::DoubleNear;
using testing::ElementsAre;
using testing::Eq;
using testing::HasSubstr;
using testing::IsEmpty;

TimedPhoto at(const std::string& name, std::string_view iso) {
  TimedPhoto photo{name, capture_time_from_iso8601(iso)};
  EXPECT_TRUE(photo.captured.has_value()) << iso;
  return photo;
}

std::vector<TimedPhoto> three() {
  return {at("a1.jpg", "2031-10-05T11:00:00.50+02:00"), at("a2.jpg", "2031-10-05T11:00:02.00+02:00"),
          at("a10.jpg", "2031-10-05T11:00:07.25+02:00")};
}

AppliedMoment moment(std::string_view text) {
  const auto result = applied_moment_from(text, {"a1.jpg", "a2.jpg", "a10.jpg"});
  EXPECT_TRUE(result.has_value()) << text;
  return result.value_or(AppliedMoment{});
}

TEST(SeriesTimes, CountFromTheFirstPhotoWithSubSeconds) {
  const auto times = series_times(three(), {});
  ASSERT_TRUE(times.has_value());
  EXPECT_THAT(times->seconds,
              ElementsAre(DoubleNear(0, 1e-6), DoubleNear(1.5, 1e-6), DoubleNear(6.75, 1e-6)));
  EXPECT_THAT(times->zero, Eq(SeriesZero::first_photo));
  EXPECT_THAT(times->remarks, IsEmpty());
  EXPECT_THAT(times->resolution_s, Eq(0));
}

TEST(SeriesTimes, ZeroByPhotoClockDayTimeAndSeconds) {
  for (const auto& [text, first] : {std::pair{"a2.jpg", -1.5},
                                    {"folder/a2.jpg", -1.5},
                                    {"+2.5", -2.5},
                                    {"2031-10-05T11:00:01.5+02:00", -1.0},
                                    {"2031-10-05T09:00:01.5Z", -1.0},
                                    {"11:00:01.5", -1.0}}) {
    TimesRequest request;
    request.applied = moment(text);
    const auto times = series_times(three(), request);
    ASSERT_TRUE(times.has_value()) << text;
    EXPECT_THAT(times->seconds[0], DoubleNear(first, 1e-6)) << text;
  }
}

TEST(SeriesTimes, AnIntervalThatTheClocksContradictIsRefused) {
  const auto stated = [](const std::vector<TimedPhoto>& photos, double interval_s) {
    TimesRequest request;
    request.interval_s = interval_s;
    return series_times(photos, request);
  };
  EXPECT_THAT(stated(three(), 5), FailsWith(ErrorCode::bad_call, HasSubstr("by the photos' own clock")));
  const auto every = [](double interval_s, int count, bool whole_seconds) {
    std::vector<TimedPhoto> photos;
    for (int i = 0; i < count; ++i) {
      CaptureTime time = *capture_time_from_iso8601("2031-10-05T11:00:00.00+02:00");
      const double second = i * interval_s;
      time.minute = static_cast<int>(second) / 60;
      time.second = std::fmod(whole_seconds ? std::floor(second) : second, 60);
      time.subsecond_digits = whole_seconds ? 0 : 2;
      photos.push_back({std::string("p").append(std::to_string(i)).append(".jpg"), time});
    }
    return photos;
  };
  // As stated, within the clocks' whole seconds, and as evenly as a hand keeps it.
  for (const bool whole : {false, true}) {
    for (const double taken_s : {2.5, 2.51}) {
      const auto times = stated(every(taken_s, 20, whole), 2.5);
      ASSERT_TRUE(times.has_value()) << taken_s << ' ' << whole;
      EXPECT_THAT(times->source, Eq(TimesSource::interval));
      EXPECT_THAT(times->seconds.back(), DoubleNear(19 * 2.5, 1e-9));
    }
    EXPECT_THAT(stated(every(30, 20, whole), 5), FailsWith(ErrorCode::bad_call, HasSubstr("'p1.jpg'")));
    EXPECT_THAT(stated(every(2.6, 20, whole), 2.5),
                FailsWith(ErrorCode::bad_call, HasSubstr("interval of 2.5 s")))
        << whole;
  }
  // Another order than the clocks'.
  auto turned = every(5, 6, true);
  std::swap(turned[1], turned[4]);
  EXPECT_THAT(stated(turned, 5), FailsWith(ErrorCode::bad_call, HasSubstr("'p4.jpg'")));
  // A clock that stands still says nothing; photos without a time are not asked.
  const auto still = stated(std::vector<TimedPhoto>(4, three().front()), 5);
  ASSERT_TRUE(still.has_value());
  EXPECT_THAT(still->remarks, ElementsAre(HasSubstr("all say the same moment")));
  EXPECT_TRUE(stated({three()[0], {"b.jpg", {}}, {"c.jpg", {}}}, 5).has_value());
}

TEST(SeriesTimes, AMomentThatCannotBeMeantIsRefused) {
  const auto checked = [](std::string_view text) {
    TimesRequest request;
    request.applied = moment(text);
    const auto times = series_times(three(), request);
    EXPECT_TRUE(times.has_value()) << text;
    return check_applied(*times);
  };
  EXPECT_THAT(checked("+9999"), FailsWith(ErrorCode::bad_call, HasSubstr("after the last photo")));
  EXPECT_THAT(checked("2001-01-01T00:00:00Z"),
              FailsWith(ErrorCode::bad_call, HasSubstr("before the first photo")));
  // The hour of a zone that was mixed up is beyond the series, the evening before is not.
  EXPECT_THAT(checked("2031-10-05T11:00:01Z"),
              FailsWith(ErrorCode::bad_call, HasSubstr("after the last photo")));
  for (const char* sound : {"+0", "+6.75", "a10.jpg", "2031-10-04T18:00:00+02:00"})
    EXPECT_TRUE(checked(sound).has_value()) << sound;
}

TEST(SeriesTimes, ASeriesOfDaysMayBeginDaysAfterTheApplication) {
  const std::vector<TimedPhoto> days{at("1.jpg", "2031-10-08T12:00:00Z"),
                                     at("2.jpg", "2031-10-10T12:00:00Z")};
  TimesRequest request;
  request.applied.kind = AppliedMoment::Kind::clock;
  for (const auto& [applied, sound] :
       {std::pair("2031-10-05T12:00:00Z", true), {"2031-09-01T12:00:00Z", false}}) {
    request.applied.clock = *capture_time_from_iso8601(applied);
    const auto times = series_times(days, request);
    ASSERT_TRUE(times.has_value());
    EXPECT_THAT(check_applied(*times).has_value(), Eq(sound)) << applied;
  }
}

// Photos over midnight, with and without a zone: the day that the clock time belongs to is not the first
// photo's.
TEST(SeriesTimes, ATimeOfDayIsOfTheDayThatBringsItNearestToTheFirstPhoto) {
  for (const char* zone : {"", "+02:00"}) {
    const auto named = [&](const char* name, const std::string& time) { return at(name, time + zone); };
    const std::vector<TimedPhoto> evening{named("a1.jpg", "2031-12-31T23:59:58"),
                                          named("a2.jpg", "2032-01-01T00:00:03"),
                                          named("a10.jpg", "2032-01-01T00:00:09")};
    const std::vector<TimedPhoto> morning{named("a1.jpg", "2032-03-01T00:00:05"),
                                          named("a2.jpg", "2032-03-01T00:01:00")};
    const auto first_s = [&](const std::vector<TimedPhoto>& photos, const char* text) {
      TimesRequest request;
      request.applied = moment(text);
      const auto times = series_times(photos, request);
      EXPECT_TRUE(times.has_value()) << text;
      if (!times) return 0.0;
      EXPECT_TRUE(check_applied(*times).has_value()) << text;
      return times->seconds[0];
    };
    EXPECT_THAT(first_s(evening, "00:00:02"), DoubleNear(-4, 1e-6));
    EXPECT_THAT(first_s(evening, "23:59:59"), DoubleNear(-1, 1e-6));
    EXPECT_THAT(first_s(evening, "18:30:00"), DoubleNear(5.5 * 3600 - 2, 1e-6));
    EXPECT_THAT(first_s(morning, "23:59:58"), DoubleNear(7, 1e-6));
    EXPECT_THAT(first_s(morning, "00:00:06"), DoubleNear(-1, 1e-6));
  }
  TimesRequest request;
  request.applied = moment("00:00:01");
  EXPECT_THAT(
      series_times({at("a1.jpg", "2031-12-31T23:59:58"), at("a2.jpg", "2032-01-01T00:00:03")}, request)
          ->remarks,
      testing::Contains(HasSubstr("day after the first photo")));
}

TEST(SeriesTimes, ATimeOfDayFarFromThePhotosNeedsADate) {
  const std::vector<TimedPhoto> short_series{at("a1.jpg", "2031-10-05T20:00:00"),
                                             at("a2.jpg", "2031-10-05T20:10:00")};
  for (const char* text : {"08:00:00", "13:59:00", "02:01:00"}) {
    TimesRequest request;
    request.applied = moment(text);
    const auto times = series_times(short_series, request);
    EXPECT_THAT(times, FailsWith(ErrorCode::bad_call, HasSubstr("its date cannot be told"))) << text;
    EXPECT_THAT(times.error().advice, HasSubstr("date")) << text;
  }
  TimesRequest request;
  request.applied = moment("2031-10-05T08:00:00");
  EXPECT_THAT(series_times(short_series, request)->seconds[0], DoubleNear(12 * 3600, 1e-6));
  // Among the photos of a long series no other day is as near.
  request.applied = moment("17:00:00");
  EXPECT_THAT(
      series_times({at("a1.jpg", "2031-10-05T09:30:00"), at("a2.jpg", "2031-10-05T18:00:00")}, request)
          ->seconds[0],
      DoubleNear(-7.5 * 3600, 1e-6));
}

TEST(SeriesTimes, MomentsThatAreNoneAreRefused) {
  for (const char* text :
       {"", "12", "yesterday", "-3", "+-3", "25:00:00", "2031-13-05T11:00:00", "b.jpg", "+nan"})
    EXPECT_THAT(applied_moment_from(text, {"a1.jpg"}), FailsWith(ErrorCode::bad_call, testing::_)) << text;
}

TEST(SeriesTimes, ZonesThatDifferAreTakenInUniversalTimeAndSaid) {
  const auto times =
      series_times({at("a.jpg", "2031-10-26T02:59:58+02:00"), at("b.jpg", "2031-10-26T02:00:03+01:00")}, {});
  ASSERT_TRUE(times.has_value());
  EXPECT_THAT(times->seconds[1], DoubleNear(5, 1e-6));
  EXPECT_THAT(times->remarks.front(), HasSubstr("2 time zones"));
}

TEST(SeriesTimes, EqualSecondsAreSpreadAndSaid) {
  const auto times = series_times({at("b3.jpg", "2031-10-05T11:00:01"), at("b1.jpg", "2031-10-05T11:00:00"),
                                   at("b2.jpg", "2031-10-05T11:00:00")},
                                  {});
  ASSERT_TRUE(times.has_value());
  EXPECT_THAT(times->seconds, ElementsAre(DoubleNear(1, 1e-6), DoubleNear(0, 1e-6), DoubleNear(0.5, 1e-6)));
  EXPECT_THAT(times->order, ElementsAre(1, 2, 0));
  EXPECT_THAT(times->remarks, ElementsAre(HasSubstr("whole seconds"), HasSubstr("share their second")));
  EXPECT_THAT(times->resolution_s, Eq(1));
}

TEST(SeriesTimes, AClockSetBackIsNoticed) {
  const auto times =
      series_times({at("c1.jpg", "2031-10-05T11:00:00.1"), at("c2.jpg", "2031-10-05T10:00:05.1")}, {});
  ASSERT_TRUE(times.has_value());
  EXPECT_THAT(times->remarks, testing::Contains(HasSubstr("goes back by 3595 s")));
}

TEST(SeriesTimes, AJumpOfAnHourIsNoticed) {
  const auto times =
      series_times({at("c1.jpg", "2031-10-05T11:00:00.1"), at("c2.jpg", "2031-10-05T11:00:05.1"),
                    at("c3.jpg", "2031-10-05T12:00:10.1"), at("c4.jpg", "2031-10-05T12:00:15.1")},
                   {});
  ASSERT_TRUE(times.has_value());
  EXPECT_THAT(times->remarks, testing::Contains(HasSubstr("nearly 1 h")));
}

TEST(SeriesTimes, WithoutAnyTimeTheCallIsWrong) {
  EXPECT_THAT(series_times({{"a.jpg", {}}}, {}), FailsWith(ErrorCode::bad_call, testing::_));
  TimesRequest request;
  request.interval_s = 2.5;
  const auto times = series_times({{"a.jpg", {}}, {"b.jpg", {}}}, request);
  ASSERT_TRUE(times.has_value());
  EXPECT_THAT(times->seconds, ElementsAre(0, 2.5));
}

TEST(SeriesTimes, AnIntervalIsAboveNothingAndAtMostAYear) {
  const auto with = [](double interval_s) {
    TimesRequest request;
    request.interval_s = interval_s;
    return series_times({{"a1.jpg", {}}, {"a2.jpg", {}}}, request);
  };
  for (const double bad : {0.0, -3.0, 1e300, 3.2e7, std::numeric_limits<double>::infinity(),
                           std::numeric_limits<double>::quiet_NaN()})
    EXPECT_THAT(with(bad), FailsWith(ErrorCode::bad_call, HasSubstr("interval"))) << bad;
  EXPECT_THAT(with(7 * 86400)->seconds[1], DoubleNear(7 * 86400, 1e-6));
}

TEST(SeriesTimes, TableCountsFromTheApplication) {
  TimesRequest request;
  request.table =
      parse_times_table("photo,seconds\na1.jpg,-2\na2.jpg,0.5\na10.jpg,9\nother.jpg,4\n", "t.csv").value();
  EXPECT_THAT(series_times(three(), request)->seconds, ElementsAre(-2, 0.5, 9));
  request.applied = moment("0");
  EXPECT_TRUE(series_times(three(), request).has_value());
  request.applied = moment("+3");
  EXPECT_THAT(series_times(three(), request), FailsWith(ErrorCode::bad_call, testing::_));
  request.applied = {};
  request.table->erase("a2.jpg");
  EXPECT_THAT(series_times(three(), request), FailsWith(ErrorCode::unreadable_table, testing::_));
}

TEST(SeriesTimes, BadTablesAreRefused) {
  for (const char* text :
       {"", "photo\na\n", "photo,seconds\na,b\n", "photo,seconds\na,1\na,2\n", "photo,seconds\na,nan\n"})
    EXPECT_THAT(parse_times_table(text, "t.csv"), FailsWith(ErrorCode::unreadable_table, testing::_)) << text;
}

TEST(SeriesTimes, ATableThatPutsTwoPhotosAtOneTimeIsRefusedByBothNames) {
  EXPECT_THAT(parse_times_table("photo,seconds\na1.jpg,-2\na2.jpg,5\na10.jpg,5.0\n", "t.csv"),
              FailsWith(ErrorCode::unreadable_table,
                        testing::AllOf(HasSubstr("'a2.jpg' on line 3"), HasSubstr("'a10.jpg' on line 4"))));
}

}  // namespace
}  // namespace colorlib
