#include <gmock/gmock.h>
#include <sys/wait.h>
#include <unistd.h>

#include <colorlib/records/collection.hpp>
#include <colorlib/records/collection_text.hpp>
#include <nlohmann/json.hpp>
#include <set>

namespace colorlib {
namespace {

using testing::HasSubstr;

// Of the invented scenario.
Collection cindermarsh() {
  Collection c;
  c.number = "QH-03";
  c.collector = "Odmira Vell";
  c.collected = "2031-10-05T11:07+02:00";
  c.place = "Cindermarsh Heath";
  c.area = "Merrowshire";
  c.latitude_deg = 51.23456;
  c.longitude_deg = -2.34567;
  c.coordinate_uncertainty_m = 20;
  c.working_name = "Cortinarius sp.";
  c.deposit_covered = "yes";
  return c;
}

TEST(CollectionFields, GoToTextAndBackUnchanged) {
  const Collection before = cindermarsh();
  Collection after;
  for (const CollectionField& field : collection_fields())
    ASSERT_TRUE(set_field(after, field, field_text(before, field))) << field.name;
  EXPECT_EQ(after, before);
}

TEST(CollectionFields, RefuseWhatIsNotMeant) {
  Collection c;
  const auto said = [&](const char* field, const char* text) {
    const auto set = set_field(c, *find_collection_field(field), text);
    return set ? std::string("taken") : set.error().message;
  };
  EXPECT_THAT(said("latitude_deg", "91"), HasSubstr("between -90 and 90"));
  EXPECT_THAT(said("latitude_deg", "51,2"), HasSubstr("no number"));
  EXPECT_THAT(said("collected", "5.10.2031"), HasSubstr("ISO 8601"));
  EXPECT_THAT(said("contrast_ratio_percent", "120"), HasSubstr("between 0 and 110"));
  EXPECT_EQ(said("contrast_ratio_percent", "101.5"), "taken");
  EXPECT_THAT(said("collected", "1031-10-05"), HasSubstr("of the year 1031"));
  EXPECT_THAT(said("collected", "2301"), HasSubstr("of the year 2301"));
  EXPECT_EQ(said("collected", "1820-05"), "taken");
  EXPECT_THAT(said("deposit_covered", "maybe"), HasSubstr("neither yes nor no"));
  EXPECT_THAT(said("remarks", "a\x01z"), HasSubstr("control character"));
  EXPECT_THAT(said("remarks", "a\xC2\x9Bz"), HasSubstr("control character"));
  EXPECT_THAT(said("remarks", "\xff\xfe"), HasSubstr("UTF-8"));
  EXPECT_THAT(said("remarks", std::string(5000, 'x').c_str()), HasSubstr("5000 bytes"));
  EXPECT_EQ(said("remarks", "  two\r\nlines "), "taken");
  EXPECT_EQ(c.remarks, "two lines");
}

TEST(CollectionFields, ADepositDoesNotEndBeforeItBegan) {
  const auto sound = [](const char* began, const char* ended) {
    Collection c = cindermarsh();
    c.deposit_began = began;
    c.deposit_ended = ended;
    return check_collection(c).has_value();
  };
  EXPECT_TRUE(sound("2031-10-05", "2031-10-05"));
  EXPECT_TRUE(sound("2031-10-05T20:00", "2031-10-05")) << "it may have ended at midnight";
  EXPECT_TRUE(sound("2031-10", "2031-10-05"));
  EXPECT_TRUE(sound("2031-10-05T22:00", "2031-10-06T08:00"));
  EXPECT_TRUE(sound("2031-10-05T22:30+02:00", "2031-10-05T21:00Z")) << "half an hour later";
  EXPECT_TRUE(sound("2031-10-05T22:30+02:00", "2031-10-05T21:00")) << "the zone is not known";
  EXPECT_FALSE(sound("2031-10-06", "2031-10-05"));
  EXPECT_FALSE(sound("2031-11", "2031-10-05"));
  EXPECT_FALSE(sound("2031-10-05T20:00", "2031-10-05T19:59"));
  EXPECT_FALSE(sound("2031-10-05T22:30+02:00", "2031-10-05T20:00Z"));
}

TEST(Iso8601, TakesDaysThatExist) {
  for (const char* good : {"2031", "2031-10", "2028-02-29", "2031-10-05T11:07", "2031-10-05T11:07:13.37Z",
                           "2031-10-05T11:07:13-09:30"})
    EXPECT_TRUE(is_iso8601(good)) << good;
  for (const char* bad :
       {"", "31", "2031-13", "2031-02-29", "2031-10-05 11:07", "2031-10-05T", "2031-10-05T24:00",
        "2031-10-05T11:07:", "2031-10-05T11:07+2", "2031-10-05T11:07:13.Z", "2031/10/05"})
    EXPECT_FALSE(is_iso8601(bad)) << bad;
}

TEST(Uid, IsNewEachTime) {
  EXPECT_NE(new_uid(), new_uid());
  EXPECT_THAT(new_uid(), testing::MatchesRegex(
                             "urn:uuid:[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}"));
}

TEST(Uid, IsKnownByItsForm) {
  EXPECT_TRUE(is_uid(new_uid()));
  EXPECT_TRUE(is_uid("urn:uuid:00000000-0000-4000-8000-000000000003"));
  for (const char* bad :
       {"", "urn:uuid:", "00000000-0000-4000-8000-000000000003",
        "urn:uuid:00000000-0000-4000-8000-00000000000x", "urn:uuid:00000000-0000-4000-8000-0000000000034"})
    EXPECT_FALSE(is_uid(bad)) << bad;
  EXPECT_FALSE(is_uid(new_uid() + std::string(1, '\0')));
}

// A generator that is seeded once repeats itself in every process forked after that.
TEST(Uid, IsNewInForkedProcesses) {
  std::set<std::string> uids{new_uid()};
  constexpr std::size_t children = 4;
  for (std::size_t i = 0; i < children; ++i) {
    int ends[2];
    ASSERT_EQ(::pipe(ends), 0);
    const pid_t child = ::fork();
    ASSERT_GE(child, 0);
    if (child == 0) {
      const std::string uid = new_uid();
      ::_exit(::write(ends[1], uid.data(), uid.size()) == static_cast<ssize_t>(uid.size()) ? 0 : 1);
    }
    ::close(ends[1]);
    char block[100];
    const ssize_t size = ::read(ends[0], block, sizeof block);
    ::close(ends[0]);
    int status = 0;
    ASSERT_EQ(::waitpid(child, &status, 0), child);
    ASSERT_EQ(size, 45);
    uids.insert(std::string(block, static_cast<std::size_t>(size)));
  }
  uids.insert(new_uid());
  EXPECT_EQ(uids.size(), children + 2);
}

TEST(Place, IsCoarsenedOnceAndTheTruthStaysInside) {
  const Collection exact = cindermarsh();
  const Collection coarse = with_place(exact, PlaceDetail::coarse);
  EXPECT_EQ(coarse.latitude_deg, 51.2);
  EXPECT_EQ(coarse.longitude_deg, -2.3);
  EXPECT_EQ(coarse.place, "");
  EXPECT_EQ(coarse.area, "Merrowshire");
  EXPECT_EQ(coarse.place_coarseness_deg, 0.1);
  // The site is 3.8 km north and 3.2 km west of the grid's point; 20 m were not known before.
  EXPECT_GT(*coarse.coordinate_uncertainty_m, 5000 + 20);
  EXPECT_LT(*coarse.coordinate_uncertainty_m, 8000);
  EXPECT_EQ(with_place(coarse, PlaceDetail::coarse), coarse);
}

TEST(Place, IsRoundedToAnyGridButNeverFiner) {
  Collection kept = cindermarsh();
  coarsen_place(kept, 1);
  EXPECT_EQ(kept.latitude_deg, 51.0);
  EXPECT_EQ(kept.longitude_deg, -2.0);
  EXPECT_EQ(kept.place, cindermarsh().place) << "words are not touched";
  const Collection coarse = kept;
  coarsen_place(kept, 0.01);
  EXPECT_EQ(kept, coarse);
  Collection words_only = cindermarsh();
  words_only.latitude_deg.reset();
  words_only.longitude_deg.reset();
  const Collection before = words_only;
  coarsen_place(words_only, 1);
  EXPECT_EQ(words_only, before);
}

TEST(Place, IsKnownAgainOnACoarserGrid) {
  const Collection exact = cindermarsh();
  for (const double grid_deg : {0.01, 0.1, 1.0}) {
    Collection coarse = exact;
    coarsen_place(coarse, grid_deg);
    EXPECT_TRUE(is_same_place_coarser(coarse, exact)) << grid_deg;
    EXPECT_FALSE(is_same_place_coarser(exact, coarse)) << "the exact one says more";
    EXPECT_FALSE(is_same_place_coarser(coarse, coarse)) << "on the same grid it is not coarser";
    coarse.longitude_deg = *coarse.longitude_deg + grid_deg;
    EXPECT_FALSE(is_same_place_coarser(coarse, exact)) << "the next cell, grid " << grid_deg;
  }
  Collection on_the_line = exact;
  on_the_line.latitude_deg = 51.25;
  for (const double rounded : {51.2, 51.3}) {
    Collection coarse = with_place(on_the_line, PlaceDetail::coarse);
    coarse.latitude_deg = rounded;
    EXPECT_TRUE(is_same_place_coarser(coarse, on_the_line)) << rounded;
  }
  EXPECT_FALSE(is_same_place_coarser(with_place(exact, PlaceDetail::none), exact));
  EXPECT_FALSE(is_same_place_coarser(with_place(exact, PlaceDetail::coarse), Collection{}));
}

TEST(Place, IsLeftOutWhereAskedOrHidden) {
  const Collection none = with_place(cindermarsh(), PlaceDetail::none);
  EXPECT_FALSE(none.latitude_deg || none.longitude_deg || none.coordinate_uncertainty_m);
  EXPECT_EQ(none.place + none.area, "");
  Collection hidden = cindermarsh();
  hidden.hide_place = "yes";
  EXPECT_FALSE(with_place(hidden, PlaceDetail::coarse).latitude_deg);
  EXPECT_EQ(with_place(hidden, PlaceDetail::exact), hidden);
}

TEST(CollectionFile, ReadsJsonAndCsvAlike) {
  const auto json = parse_collections(
      R"([{"number": "QH-01", "latitude_deg": 51.5, "longitude_deg": -2, "deposit_covered": true, "tissue": null}])",
      "c.json");
  ASSERT_TRUE(json) << json.error().message;
  const auto csv =
      parse_collections("number;latitude_deg;longitude_deg;deposit_covered\nQH-01;51,5;-2;yes\n", "c.csv");
  ASSERT_TRUE(csv) << csv.error().message;
  EXPECT_EQ(*json, *csv);
  const auto plain =
      parse_collections("number,latitude_deg,longitude_deg,deposit_covered\nQH-01,51.5,-2,yes\n", "c.csv");
  ASSERT_TRUE(plain) << plain.error().message;
  EXPECT_EQ(*json, *plain);
}

TEST(CollectionFile, TakesDecimalCommasWhereCommasDoNotPartTheCells) {
  const auto read =
      parse_collections("number;latitude_deg;longitude_deg;place\nA3;51,2;-2,25;Heath, north\n", "a3.csv");
  ASSERT_TRUE(read) << read.error().message;
  EXPECT_EQ(read->front().latitude_deg, 51.2);
  EXPECT_EQ(read->front().longitude_deg, -2.25);
  EXPECT_EQ(read->front().place, "Heath, north");
  const auto refused =
      parse_collections("number,latitude_deg,longitude_deg\nA3,\"51,2\",\"-2,25\"\n", "a3.csv");
  ASSERT_FALSE(refused);
  EXPECT_THAT(refused.error().message, HasSubstr("'51,2' is no number"));
}

TEST(CollectionFile, JsonComesBackUnchanged) {
  Collection c = cindermarsh();
  c.uid = new_uid();
  const auto back = collection_from_json(collection_json(c), "test");
  ASSERT_TRUE(back);
  EXPECT_EQ(*back, c);
}

TEST(CollectionFile, RefusesInWords) {
  const auto said = [](const char* text) {
    const auto read = parse_collections(text, "c.txt");
    return read ? std::string("taken") : read.error().message + " " + read.error().advice;
  };
  EXPECT_THAT(said("{\"number\": \"1\", \"edible\": \"x\"}"), HasSubstr("'edible' is no known field"));
  EXPECT_THAT(said("{\"collector\": \"V\"}"), HasSubstr("no number"));
  EXPECT_THAT(said("[{\"number\": \"1\"}, {\"number\": \"1\"}]"), HasSubstr("'1' stands twice"));
  EXPECT_THAT(said("number,collected\n1,yesterday\n"), HasSubstr("line 2: field collected: 'yesterday'"));
  EXPECT_THAT(said("{\"number\": \"1\", \"latitude_deg\": 5}"), HasSubstr("only one of latitude"));
  EXPECT_THAT(said("{\"number\": "), HasSubstr("no sound JSON"));
  EXPECT_THAT(said("[[[[[1]]]]]"), HasSubstr("no sound JSON"));
}

}  // namespace
}  // namespace colorlib
