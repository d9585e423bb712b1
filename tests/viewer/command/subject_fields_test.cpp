#include <gmock/gmock.h>

#include <tests/support/color_matchers.hpp>
#include <tests/viewer/command/command_run.hpp>
#include <viewer/command/subject_fields.hpp>

namespace tintfall {
namespace {

using colorlib::ErrorCode;
using colorlib::FailsWith;
using testing::AllOf;
using testing::ElementsAre;
using testing::Eq;
using testing::HasSubstr;
using testing::IsEmpty;

TEST(SubjectFields, OneObjectServesAllPhotos) {
  const auto fields = parse_subject_fields(R"({"item": "QH-03", "state": "air-dried"})", "f.json");
  ASSERT_TRUE(fields.has_value()) << fields.error().message;
  EXPECT_THAT(fields->subject_of("any.jpg").item, Eq("QH-03"));
  EXPECT_THAT(fields->subject_of("other.jpg").state, Eq("air-dried"));
  EXPECT_THAT(fields->subject_of("other.jpg").collector, Eq(""));
}

TEST(SubjectFields, TablesOfSpreadsheetsAreTakenWithByteOrderMarkAndSemicolons) {
  const auto fields = parse_subject_fields(
      "\xEF\xBB\xBFphoto;item;surface\r\nfolder/a.jpg;QH-01;foil\r\nb.jpg;QH-02;card\r\n", "f.csv");
  ASSERT_TRUE(fields.has_value()) << fields.error().message;
  EXPECT_THAT(fields->subject_of("a.jpg").item, Eq("QH-01"));
  EXPECT_THAT(fields->subject_of("b.jpg").surface, Eq("card"));
  EXPECT_THAT(fields->subject_of("c.jpg").item, Eq(""))
      << "nothing is invented for a photo that is not listed";
}

TEST(SubjectFields, ListOfObjectsIsByPhoto) {
  const auto fields =
      parse_subject_fields(R"([{"photo": "a.jpg", "item": "1"}, {"photo": "b.jpg", "item": "2"}])", "f.json");
  ASSERT_TRUE(fields.has_value()) << fields.error().message;
  EXPECT_THAT(fields->subject_of("b.jpg").item, Eq("2"));
}

TEST(SubjectFields, RowsAndPhotosThatDoNotMeetAreNamed) {
  const auto fields = parse_subject_fields("photo,item\na.jpg,1\nQ2.JPG,2\ngone.jpg,3\n", "f.csv").value();
  EXPECT_THAT(unmatched_rows(fields, {"folder/a.jpg", "folder/q2.jpg"}),
              ElementsAre(AllOf(HasSubstr("Rows"), HasSubstr(": Q2.JPG, gone.jpg.")),
                          AllOf(HasSubstr("Photos"), HasSubstr(": q2.jpg."))));
  EXPECT_THAT(unmatched_rows(fields, {"a.jpg", "Q2.JPG", "x/gone.jpg"}), IsEmpty());
  EXPECT_THAT(unmatched_rows(parse_subject_fields("item\nQH-03\n", "f.csv").value(), {"a.jpg"}), IsEmpty())
      << "one row for all";
  std::string many = "photo,item\na.jpg,1\n";
  for (int i = 100; i < 120; ++i) many += std::to_string(i) + ".jpg,x\n";
  EXPECT_THAT(unmatched_rows(parse_subject_fields(many, "f.csv").value(), {"a.jpg"}),
              ElementsAre(HasSubstr("109.jpg and 10 more.")));
}

TEST(SubjectFields, TheCommandSaysThem) {
  const ScratchFolder scratch;
  const auto fields = scratch.write("who.csv", "photo,item\nQ2.JPG,QH-03\n");
  const auto run = run_tintfall({"read", scratch.write("q2.jpg", "no photo"), "--fields", fields});
  EXPECT_THAT(run.err, AllOf(HasSubstr("none of these photos (capitals count): Q2.JPG."),
                             HasSubstr("no row in --fields: q2.jpg.")));
}

TEST(SubjectFields, PhotosOfOneThingMayNotBeOfTwo) {
  const auto said = [](const char* photo, const char* item, const char* tissue, const char* light) {
    return SubjectOfPhoto{photo, {item, "", tissue, "", "", light}};
  };
  EXPECT_TRUE(check_one_thing({said("a.jpg", "QH-01", "cap", "daylight"), said("b.jpg", "", "", ""),
                               said("c.jpg", "QH-01", "cap", "lamp")}));
  EXPECT_THAT(check_one_thing({said("a.jpg", "QH-01", "", ""), said("b.jpg", "", "", ""),
                               said("c.jpg", "QH-02", "", "")}),
              colorlib::FailsWith(colorlib::ErrorCode::bad_call,
                                  HasSubstr("item of 'a.jpg' is 'QH-01' and that of 'c.jpg' is 'QH-02'")));
  EXPECT_FALSE(check_one_thing({said("a.jpg", "", "cap", ""), said("b.jpg", "", "stem", "")}));
}

TEST(SubjectFields, TwoItemsAreNotReadTogether) {
  const ScratchFolder scratch;
  const auto fields = scratch.write("f.csv", "photo,item\na.jpg,QH-01\nb.jpg,QH-02\n");
  for (const char* how : {"--together", "--two-backings"}) {
    const auto run = run_tintfall(
        {"read", scratch.write("a.jpg", "a"), scratch.write("b.jpg", "b"), how, "--fields", fields});
    EXPECT_EQ(run.status, 2) << how << run.err;
    EXPECT_THAT(run.err, HasSubstr("item of 'a.jpg' is 'QH-01' and that of 'b.jpg' is 'QH-02'")) << how;
  }
}

TEST(SubjectFields, OptionsGoBeforeTheFile) {
  colorlib::Subject file, option;
  file.item = "from file";
  file.tissue = "cap";
  option.item = "from option";
  EXPECT_THAT(merged(file, option).item, Eq("from option"));
  EXPECT_THAT(merged(file, option).tissue, Eq("cap"));
}

TEST(SubjectFields, WhatCannotBeMeantIsNamed) {
  const std::pair<const char*, const char*> cases[] = {
      {R"({"colector": "V"})", "colector"},
      {R"({"item": 3})", "item"},
      {R"({"item": "x")", "JSON"},
      {R"([{"item": "a"}, {"item": "b"}])", "entry 1"},
      {R"([{"photo": "a.jpg"}, {"photo": "x/a.jpg"}])", "second one"},
      {R"({"light": "candle"})", "candle"},
      {R"({"light": "\u001b[2J"})", "'?[2J'"},
      {R"({"\u009b2J": "x"})", "'?2J'"},
      {R"([1])", "entry 1"},
      {R"([[[[[[]]]]]])", "JSON"},
      {"item,colour\nQH-03,red\n", "colour"},
      {"item\nQH-03\nQH-04\n", "line 2"},
  };
  for (const auto& [text, word] : cases)
    EXPECT_THAT(parse_subject_fields(text, "f"), FailsWith(ErrorCode::unreadable_table, HasSubstr(word)))
        << text;
}

TEST(SubjectFields, MissingFileIsNamed) {
  EXPECT_THAT(read_subject_fields("/no/such/file.csv"),
              FailsWith(ErrorCode::unreadable_table, HasSubstr("does not exist")));
}

}  // namespace
}  // namespace tintfall
