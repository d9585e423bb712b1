#include <gmock/gmock.h>

#include <set>
#include <viewer/command/reading_identity.hpp>

namespace tintfall {
namespace {

using colorlib::Subject;

TEST(ReadingIdentity, WhatIsSaidDiffersHoweverItIsDividedOverTheFields) {
  const auto subject = [](const char* item, const char* collector, const char* tissue) {
    Subject made;
    made.item = item, made.collector = collector, made.tissue = tissue;
    return subject_identity(made);
  };
  const std::set<std::string> all{
      subject("x;y", "z", ""), subject("x", "y;z", ""),   subject("x", "y", "z"),   subject("x;y;z", "", ""),
      subject("", "x;y", "z"), subject("1:x", "1:y", ""), subject("x;1:y", "", ""), subject("x", "", "y")};
  EXPECT_EQ(all.size(), 8u);
  EXPECT_EQ(subject("x;y", "z", ""), subject("x;y", "z", ""));
}

TEST(ReadingIdentity, TheSheetsNameIsNotMistakenForWhatFollowsIt) {
  const auto with_sheet = [](const char* sheet, std::vector<std::string> charts) {
    ReadChoices choices;
    ReadJob job;
    choices.sheet = sheet;
    for (std::string& name : charts) job.request.candidates.emplace_back().name = std::move(name);
    return reading_identity(choices, job);
  };
  EXPECT_NE(with_sheet("a", {"frame"}), with_sheet("a;-1", {"frame"}));
  EXPECT_NE(with_sheet("", {"frame", "strip"}), with_sheet("", {"frame,strip"}));
  EXPECT_EQ(with_sheet("a", {"frame", "strip"}), with_sheet("a", {"frame", "strip"}));
}

}  // namespace
}  // namespace tintfall
