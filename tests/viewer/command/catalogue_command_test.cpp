#include <gmock/gmock.h>

#include <nlohmann/json.hpp>
#include <sstream>
#include <tests/colorlib/records/catalogue_entries.hpp>
#include <tests/viewer/command/command_run.hpp>

namespace tintfall {
namespace {

using nlohmann::json;
using testing::HasSubstr;
using testing::Not;

/// A catalogue of its own, and short calls of the command on it.
class CatalogueCalls : public testing::Test {
 protected:
  void SetUp() override { setenv("TINTFALL_CATALOGUE", scratch_.path("club.db").c_str(), 1); }
  void TearDown() override { unsetenv("TINTFALL_CATALOGUE"); }
  CommandRun call(std::vector<std::string> arguments) {
    arguments.insert(arguments.begin(), "catalogue");
    return run_tintfall(arguments);
  }
  std::string done(std::vector<std::string> arguments) {
    const auto run = call(std::move(arguments));
    EXPECT_EQ(run.status, 0) << run.err;
    return run.out;
  }
  std::string record(const std::string& item, const std::string& reader, const colorlib::Lab& lab,
                     const std::string& name, const std::string& term) {
    return scratch_.write(item + reader + ".json", colorlib::scenario_record(item, reader, lab, name, term));
  }
  void add_rust() {
    done({"add", record("QH-03", "V", {42.4, 19.3, 29.4}, "strong brown", "rust"),
          record("QH-03", "Q", {43.7, 20.6, 27.2}, "strong brown", "rust"), "--collector", "Odmira Vell",
          "--collected", "2031-10-04", "--place", "Cindermarsh Heath", "--latitude-deg", "51.3333",
          "--longitude-deg", "-2.1111"});
  }
  ScratchFolder scratch_;
};

TEST_F(CatalogueCalls, GoThroughADay) {
  add_rust();
  EXPECT_THAT(done({"add", "--number", "QH-09", "--working-name", "Russula sp."}),
              HasSubstr("added 1 collection, 0 records"));
  EXPECT_THAT(done({"list"}), HasSubstr("QH-03     2 records,   2 readings   by Odmira Vell, 2031-10-04"));
  EXPECT_THAT(done({"find", "--near", "42", "19", "29"}), HasSubstr("ΔE00 0.4, within 5 with > 99 %"));
  EXPECT_THAT(done({"find", "--name", "rust", "--collector", "q", "--json", "-"}),
              HasSubstr("\"read_by\": \"Q\""));
  EXPECT_THAT(done({"show", "QH-03"}), HasSubstr("Cindermarsh Heath"));
  done({"edit", "QH-03", "--place", "Tansy Hollow", "--new-number", "QH-03a"});
  EXPECT_THAT(done({"show", "QH-03a", "--history"}),
              HasSubstr("place 'Cindermarsh Heath' -> 'Tansy Hollow'"));
  done({"remove", "QH-09"});
  EXPECT_THAT(done({"list"}), Not(HasSubstr("QH-09")));
  EXPECT_THAT(done({"list", "--removed"}), HasSubstr("QH-09"));
  done({"remove", "QH-09", "--restore"});
  EXPECT_THAT(done({"check"}), HasSubstr("The catalogue is sound."));
  done({"backup", scratch_.path("copy.db")});
  EXPECT_THAT(done({"list", "--catalogue", scratch_.path("copy.db")}), HasSubstr("QH-03a"));
}

TEST_F(CatalogueCalls, OptionsFillTheBlanksOfAFieldsFile) {
  const std::string fields =
      scratch_.write("autumn.csv", "number,collector,place\nQH-03,Quill,\nQH-04,,Heath\n");
  done({"add", "--fields", fields, "--collector", "Odmira Vell", "--place", "Tansy Hollow"});
  const auto field = [&](const char* number, const char* name) {
    return json::parse(done({"show", number, "--json", "-"}))["collection"][name].get<std::string>();
  };
  EXPECT_EQ(field("QH-03", "collector"), "Quill") << "the file's own word stands";
  EXPECT_EQ(field("QH-03", "place"), "Tansy Hollow");
  EXPECT_EQ(field("QH-04", "collector"), "Odmira Vell");
  EXPECT_EQ(field("QH-04", "place"), "Heath");
}

TEST_F(CatalogueCalls, WhatNothingCanTakeIsRefused) {
  const std::string fields = scratch_.write("autumn.csv", "number\nQH-03\n");
  const auto number = call({"add", "--fields", fields, "--number", "QH-04"});
  EXPECT_EQ(number.status, 2);
  EXPECT_THAT(number.err, HasSubstr("--number is said of records"));
  for (const std::vector<std::string>& what :
       {std::vector<std::string>{"--fields", fields}, {"--number", "QH-04"}}) {
    auto arguments = what;
    arguments.insert(arguments.begin(), "add");
    arguments.insert(arguments.end(), {"--reagent", "KOH 5 %"});
    const auto reagent = call(arguments);
    EXPECT_EQ(reagent.status, 2);
    EXPECT_THAT(reagent.err, HasSubstr("--reagent is said of records"));
  }
  EXPECT_FALSE(scratch_.has("club.db"));
}

TEST_F(CatalogueCalls, AFileThatCannotBeImportedLeavesNoNewCatalogue) {
  EXPECT_EQ(call({"import", scratch_.path("missing.csv")}).status, 3);
  EXPECT_EQ(call({"import", scratch_.write("bad.csv", "a,b\n1,2\n")}).status, 3);
  EXPECT_FALSE(scratch_.has("club.db"));
}

TEST_F(CatalogueCalls, ExportsToStandardOutput) {
  add_rust();
  done({"export", "--out", scratch_.path("all.csv")});
  const auto run = call({"export", "--format", "csv", "--out", "-"});
  EXPECT_EQ(run.status, 0) << run.err;
  EXPECT_EQ(run.out, scratch_.read("all.csv")) << "nothing else stands there";
  EXPECT_THAT(run.err, HasSubstr("1 collection written to standard output"));
  EXPECT_FALSE(std::filesystem::exists("-"));
}

TEST_F(CatalogueCalls, SayThatColourTellsNothingAboutEating) {
  add_rust();
  for (const std::vector<std::string>& asked :
       {std::vector<std::string>{"list"}, {"show", "QH-03"}, {"find", "--near", "42", "19", "29"}}) {
    EXPECT_THAT(done(asked), HasSubstr("never tells whether a mushroom is safe to eat")) << asked.front();
    auto in_json = asked;
    in_json.insert(in_json.end(), {"--json", "-"});
    EXPECT_THAT(done(in_json), Not(HasSubstr("Caution"))) << asked.front();
  }
}

TEST_F(CatalogueCalls, AnswersInJson) {
  add_rust();
  const auto hits = json::parse(done({"find", "--near", "42", "19", "29", "--expanded", "1", "--json", "-"}));
  EXPECT_EQ(hits["hits"].size(), 2u);
  EXPECT_EQ(hits["hits"][0]["reading"]["name"], "strong brown");
  EXPECT_LT(hits["hits"][0]["de00"].get<double>(), hits["hits"][1]["de00"].get<double>());
  const auto list = json::parse(done({"list", "--json", "-"}));
  EXPECT_EQ(list["collections"][0]["readings"], 2);
  const auto shown = json::parse(done({"show", "QH-03", "--json", "-"}));
  EXPECT_EQ(shown["records"][0]["record"]["format"], "tintfall-record");
  EXPECT_EQ(json::parse(done({"check", "--json", "-"}))["problems"], json::array());
}

TEST_F(CatalogueCalls, FindsTheLikeOfARecord) {
  add_rust();
  const auto like = record("QH-99", "H", {42.2, 19.2, 29.2}, "strong brown", "rust");
  EXPECT_THAT(done({"find", "--like", like, "--within", "1"}), HasSubstr("QH-03"));
}

TEST_F(CatalogueCalls, ExportsWithoutPlacesUnlessAsked) {
  add_rust();
  const std::string csv = scratch_.path("out.csv");
  done({"export", "--out", csv});
  EXPECT_THAT(scratch_.read("out.csv"), testing::AllOf(HasSubstr("51.3,-2.1"), Not(HasSubstr("Cindermarsh")),
                                                       Not(HasSubstr("51.3333"))));
  done({"export", "--out", csv, "--places", "none"});
  EXPECT_THAT(scratch_.read("out.csv"), Not(HasSubstr("51.3")));
  done({"export", "--out", csv, "--places", "exact"});
  EXPECT_THAT(scratch_.read("out.csv"), testing::AllOf(HasSubstr("51.3333"), HasSubstr("Cindermarsh Heath")));
}

TEST_F(CatalogueCalls, ExportImportExportIsIdentical) {
  add_rust();
  for (const std::string ending : {"csv", "cgats", "zip", "txt", "jsonl"}) {
    const std::string first = "first." + ending, second = "second." + ending,
                      other = scratch_.path(ending + ".db");
    done({"export", "--out", scratch_.path(first), "--places", "exact"});
    done({"import", scratch_.path(first), "--catalogue", other});
    done({"export", "--out", scratch_.path(second), "--places", "exact", "--catalogue", other});
    EXPECT_EQ(scratch_.read(first), scratch_.read(second)) << ending;
  }
}

// Under every --places and in every format that is read back: nothing is added, nothing is made coarser.
TEST_F(CatalogueCalls, PassOverTheirOwnExport) {
  add_rust();
  const std::string before = done({"show", "QH-03"});
  for (const std::string places : {"coarse", "none", "exact"})
    for (const std::string ending : {"csv", "cgats", "zip", "txt", "jsonl"}) {
      const std::string file = scratch_.path(places + "." + ending);
      done({"export", "--out", file, "--places", places});
      EXPECT_THAT(
          done({"import", file}),
          HasSubstr("added 0 collections, 0 records with 0 readings; already there 1 collection, 2 records"))
          << file;
      EXPECT_EQ(done({"show", "QH-03"}), before) << file;
    }
}

TEST_F(CatalogueCalls, PassOverTheirOwnExportOfARenumberedCollection) {
  done({"add", "--number", "QH-10", "--place", "Heath"});
  for (const std::string ending : {"csv", "txt", "zip", "jsonl"})
    done({"export", "--places", "exact", "--out", scratch_.path("old." + ending)});
  done({"edit", "QH-10", "--new-number", "QH-10a"});
  for (const std::string ending : {"csv", "txt", "zip", "jsonl"}) {
    const std::string said = done({"import", scratch_.path("old." + ending)});
    EXPECT_THAT(said, HasSubstr("added 0 collections")) << ending;
    EXPECT_THAT(said, HasSubstr("QH-10 is known here as QH-10a, and was not added anew.")) << ending;
  }
  EXPECT_THAT(done({"check"}), HasSubstr("1 collection,"));
}

TEST_F(CatalogueCalls, SayWhatCgatsLeavesOut) {
  done({"add", "--number", "QH-09"});
  const auto nothing = call({"export", "--out", scratch_.path("all.cgats")});
  EXPECT_EQ(nothing.status, 2);
  EXPECT_THAT(nothing.err, HasSubstr("CGATS holds colours only"));
  EXPECT_FALSE(scratch_.has("all.cgats"));
  add_rust();
  const std::string said = done({"export", "--out", scratch_.path("all.cgats")});
  EXPECT_THAT(said, HasSubstr("1 collection written to"));
  EXPECT_THAT(said, HasSubstr("1 collection without one (QH-09)"));
  EXPECT_THAT(done({"export", "--out", scratch_.path("all.csv")}), HasSubstr("2 collections written to"));
}

TEST_F(CatalogueCalls, ReferToPhotosByContentAndCopyOnlyWhenAsked) {
  const auto photo = scratch_.write("QH-03-V.jpg", "the photograph's bytes");
  const auto rec = record("QH-03", "V", {42.4, 19.3, 29.4}, "strong brown", "rust");
  EXPECT_EQ(call({"add", rec, "--copy-photos", scratch_.path("photos")}).status, 2) << "which photos?";
  done({"add", rec, "--photo", photo, "--copy-photos", scratch_.path("photos")});
  const auto shown = json::parse(done({"show", "QH-03", "--json", "-"}));
  const std::string hash = shown["records"][0]["record"]["photo"]["sha256"];
  EXPECT_EQ(hash.size(), 64u);
  EXPECT_TRUE(scratch_.has("photos/" + hash + ".jpg"));
}

TEST_F(CatalogueCalls, ARecordThatLiesElsewhereIsSaidToAndMakesNoCollection) {
  const auto rec = record("QH-03", "V", {42.4, 19.3, 29.4}, "strong brown", "rust");
  done({"add", rec});
  EXPECT_THAT(done({"add", rec}), Not(HasSubstr("lies in"))) << "where it was to go";
  const std::string again = done({"add", rec, "--number", "Q9"});
  EXPECT_THAT(
      again,
      HasSubstr("added 0 collections, 0 records with 0 readings; already there 0 collections, 1 record"));
  EXPECT_THAT(again,
              HasSubstr("The record of 'QH-03-V.jpg' lies in QH-03 already, and was not added to Q9."));
  EXPECT_THAT(done({"list"}), Not(HasSubstr("Q9")));
  const auto fresh = record("QH-04", "V", {50, 19.3, 29.4}, "strong brown", "rust");
  EXPECT_THAT(done({"add", rec, fresh, "--number", "Q9"}), HasSubstr("added 1 collection, 1 record "));
  const auto fields = scratch_.write("f.csv", "number,place\nQ10,Heath\n");
  done({"add", "--fields", fields, rec, "--number", "Q10"});
  EXPECT_THAT(done({"show", "Q10"}), HasSubstr("Heath")) << "it was asked for by itself";
}

TEST_F(CatalogueCalls, APhotoOfNoneOfTheRecordsIsRefused) {
  const auto photo = scratch_.write("q3.jpg", "another photograph's bytes");
  const auto rec = record("QH-03", "V", {42.4, 19.3, 29.4}, "strong brown", "rust");
  const auto own = scratch_.write("QH-03-V.jpg", "the photograph's bytes");
  const auto run =
      call({"add", rec, "--photo", own, "--photo", photo, "--copy-photos", scratch_.path("photos")});
  EXPECT_EQ(run.status, 2) << run.out;
  EXPECT_THAT(run.err, testing::AllOf(HasSubstr("q3.jpg"), HasSubstr("none of the records named")));
  EXPECT_FALSE(scratch_.has("photos"));
  EXPECT_FALSE(scratch_.has("club.db"));
  EXPECT_EQ(call({"add", "--number", "QH-04", "--photo", photo}).status, 2) << "there is no record at all";
}

/// A PNG of 8 x 8 brown pixels.
std::string small_png() {
  static constexpr unsigned char bytes[] = {
      0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0x00, 0x00, 0x00, 0x0d, 0x49, 0x48, 0x44,
      0x52, 0x00, 0x00, 0x00, 0x08, 0x00, 0x00, 0x00, 0x08, 0x08, 0x02, 0x00, 0x00, 0x00, 0x4b,
      0x6d, 0x29, 0xdc, 0x00, 0x00, 0x00, 0x11, 0x49, 0x44, 0x41, 0x54, 0x78, 0xda, 0x63, 0x88,
      0xb2, 0x91, 0xc3, 0x8a, 0x18, 0x86, 0x96, 0x04, 0x00, 0xa4, 0xc7, 0x2d, 0x01, 0x1d, 0x36,
      0x77, 0xbf, 0x00, 0x00, 0x00, 0x00, 0x49, 0x45, 0x4e, 0x44, 0xae, 0x42, 0x60, 0x82};
  return {reinterpret_cast<const char*>(bytes), sizeof bytes};
}

TEST_F(CatalogueCalls, SayHowManyPicturesAReportHas) {
  add_rust();
  std::filesystem::create_directory(scratch_.path("pictures"));
  const auto report = [&] {
    return done({"export", "--out", scratch_.path("out.pdf"), "--pictures", scratch_.path("pictures")});
  };
  EXPECT_THAT(report(), HasSubstr("Pictures of 0 of 2 records were found in"));
  scratch_.write("pictures/QH-03-V.jpg.overlay.png", small_png());
  EXPECT_THAT(report(), HasSubstr("Pictures of 1 of 2 records were found in"));
  const auto refused = [&](const std::string& out, const std::string& pictures) {
    const auto run = call({"export", "--out", scratch_.path(out), "--pictures", pictures});
    EXPECT_EQ(run.status, 2);
    EXPECT_FALSE(scratch_.has(out));
    return run.err;
  };
  EXPECT_THAT(refused("none.pdf", scratch_.path("nodir")), HasSubstr("nodir', which is no folder"));
  EXPECT_THAT(refused("none.csv", scratch_.path("pictures")), HasSubstr("for a PDF report"));
}

TEST_F(CatalogueCalls, CountOneInTheSingular) {
  done({"add", record("QH-06", "V", {42.9, 4.7, 25.3}, "moderate yellowish brown", "olive")});
  EXPECT_THAT(done({"list"}), HasSubstr("1 record,    1 reading"));
}

// Of many records in one file the one without an item is named by its line and photo; nothing is added.
TEST_F(CatalogueCalls, NameTheLineAndPhotoOfARecordWithoutItem) {
  const std::string good =
      colorlib::scenario_record("QH-03", "V", {42.4, 19.3, 29.4}, "strong brown", "rust");
  std::string bare = colorlib::scenario_record("QH-06", "Q", {42.4, 19.3, 29.4}, "strong brown", "rust");
  bare.replace(bare.find("\"item\":\"QH-06\""), 14, "\"item\":\"\"");
  const auto run = call({"add", scratch_.write("au.jsonl", good + "\n\n" + bare + "\n")});
  EXPECT_EQ(run.status, 2);
  EXPECT_THAT(run.err,
              HasSubstr("au.jsonl', line 3, of the photo 'QH-06-Q.jpg', does not say which collection"));
  EXPECT_FALSE(scratch_.has("club.db"));
}

TEST_F(CatalogueCalls, RefuseInWords) {
  const auto said = [&](std::vector<std::string> arguments, int status) {
    const auto run = call(std::move(arguments));
    EXPECT_EQ(run.status, status) << run.err;
    EXPECT_EQ(run.out, "");
    return run.err;
  };
  EXPECT_THAT(said({"list"}, 3), HasSubstr("does not exist"));
  EXPECT_FALSE(scratch_.has("club.db")) << "asking made a catalogue";
  add_rust();
  EXPECT_THAT(said({"show", "QH-77"}, 2), HasSubstr("no collection 'QH-77'"));
  EXPECT_THAT(said({"add"}, 2), HasSubstr("Nothing was named"));
  EXPECT_THAT(said({"add", scratch_.write("bad.json", "{}")}, 3), HasSubstr("bad.json"));
  EXPECT_THAT(said({"add", "--number", "X", "--collected", "soon"}, 2), HasSubstr("collected"));
  EXPECT_THAT(said({"edit", "QH-03"}, 2), HasSubstr("Nothing was said"));
  EXPECT_THAT(said({"find", "--from", "yesterday"}, 2), HasSubstr("ISO 8601"));
  EXPECT_THAT(said({"find", "--from", "2031-12", "--to", "2031-01"}, 2), HasSubstr("lies after --to"));
  EXPECT_THAT(said({"list", "--from", "2031-10-06", "--to", "2031-10-05"}, 2), HasSubstr("lies after --to"));
  EXPECT_THAT(said({"find", "--from", "2032", "--to", "2031-12"}, 2), HasSubstr("lies after --to"));
  done({"find", "--from", "2031-12", "--to", "2031"});
  done({"find", "--from", "2031-10-05", "--to", "2031-10-05"});
  EXPECT_THAT(said({"find", "--near", "1", "2", "3", "--like", "x.json"}, 2), HasSubstr("both"));
  EXPECT_THAT(said({"find", "--within", "3"}, 2), HasSubstr("--within says how near to a colour"));
  EXPECT_THAT(said({"export", "--out", scratch_.path("x.csv"), "--within", "1"}, 2), HasSubstr("--within"));
  EXPECT_FALSE(scratch_.has("x.csv"));
  EXPECT_THAT(said({"export", "--out", scratch_.path("x.docx")}, 2), HasSubstr("does not tell"));
  EXPECT_THAT(said({"export", "--out", scratch_.path("x.csv"), "--number", "none"}, 2),
              HasSubstr("nothing was written"));
  EXPECT_THAT(said({"export", "--out", scratch_.path("x.csv"), "--places", "some"}, 2),
              HasSubstr("--places"));
  EXPECT_THAT(said({"import", scratch_.write("bad.csv", "a,b\n1,2\n")}, 3), HasSubstr("'a'"));
  EXPECT_THAT(said({"import", scratch_.write("all.pdf", "%PDF-1.5\n")}, 3),
              testing::AllOf(HasSubstr("PDF is for people and not read back"), HasSubstr(".jsonl")));
  const std::string picture =
      scratch_.write("photo.jpg", std::string("\xff\xd8\xff\xe0\0\x10JFIF\n\"\n", 13));
  EXPECT_THAT(said({"import", picture}, 3),
              HasSubstr("it is no table of text but binary, with NUL bytes in it"));
  EXPECT_THAT(said({"list", "--catalogue", "postgresql://v:secret@h/d"}, 2),
              testing::AllOf(HasSubstr("password"), Not(HasSubstr("secret"))));
  EXPECT_THAT(said({"list", "--catalogue", "postgresql:host=/nowhere dbname=x"}, 3), HasSubstr("server"));
  EXPECT_THAT(said({"backup", scratch_.path("club.db")}, 2), HasSubstr("one of the inputs"));
  scratch_.write("victim.jpg", "\xFF\xD8 a photograph");
  scratch_.write("other.db", std::string("SQLite format 3\0", 16) + std::string(84, '\0'));
  for (const char* name : {"victim.jpg", "other.db"}) {
    const std::string before = scratch_.read(name);
    said({"backup", scratch_.path(name)}, 2);
    EXPECT_EQ(scratch_.read(name), before);
  }
  EXPECT_THAT(said({"backup", scratch_.path("other.db")}, 2), HasSubstr("is there and no catalogue"));
  scratch_.write("empty.db", "");
  for (const char* name : {"empty.db", "empty.db"}) done({"backup", scratch_.path(name)});
}

}  // namespace
}  // namespace tintfall
