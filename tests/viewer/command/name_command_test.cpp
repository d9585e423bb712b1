#include <gmock/gmock.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <sstream>
#include <streambuf>
#include <tests/viewer/command/command_run.hpp>

namespace tintfall {
namespace {

using nlohmann::json;
using testing::AllOf;
using testing::Contains;
using testing::Eq;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using testing::StartsWith;

json answered(std::vector<std::string> arguments) {
  arguments.insert(arguments.begin(), {"name", "--json", "-"});
  const auto run = run_tintfall(arguments);
  EXPECT_THAT(run.status, Eq(0)) << run.err;
  const auto object = json::parse(run.out, nullptr, false);
  EXPECT_FALSE(object.is_discarded()) << run.out;
  return object;
}

std::vector<json> lines_of(const std::string& text) {
  std::vector<json> lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) lines.push_back(json::parse(line, nullptr, false));
  return lines;
}

TEST(NameCommand, SaysNameMunsellWhiteAndObserver) {
  const auto run = run_tintfall({"name", "41", "20", "31"});
  EXPECT_THAT(run.status, Eq(0));
  EXPECT_THAT(run.err, IsEmpty());
  EXPECT_THAT(run.out, AllOf(StartsWith("strong brown\n"), HasSubstr("5.1YR 4.0/6.0"), HasSubstr("D50"),
                             HasSubstr("2 degree"), HasSubstr("rust"), Not(HasSubstr("\x1b"))));
  EXPECT_THAT(run_tintfall({"name", "41", "20", "31"}, "", true).out, StartsWith("\x1b[48;2;"));
}

TEST(NameCommand, SaysThatColourTellsNothingAboutEating) {
  EXPECT_THAT(run_tintfall({"name", "41", "20", "31"}).out,
              HasSubstr("never tells whether a mushroom is safe to eat"));
  EXPECT_THAT(run_tintfall({"name", "41", "20", "31", "--json", "-"}).out, Not(HasSubstr("Caution")));
}

TEST(NameCommand, WritesItsKeys) {
  const auto object = answered({"41", "20", "31", "-u", "2,1,1.5"});
  EXPECT_EQ(object["white"], "D50");
  EXPECT_EQ(object["observer"], "CIE 1931 2 degree");
  EXPECT_EQ(object["lab"], json({41.0, 20.0, 31.0}));
  EXPECT_EQ(object["lab_expanded"], json({2.0, 1.0, 1.5}));
  EXPECT_EQ(object["munsell"], "5.1YR 4.0/6.0");
  EXPECT_EQ(object["name"], "strong brown");
  EXPECT_GT(object["name_confidence"].get<double>(), 0.9);
  EXPECT_TRUE(object["alternatives"].is_array());
  EXPECT_GT(object["margin_de00"].get<double>(), 1);
  EXPECT_GT(object["de00_expanded"].get<double>(), 1);
  EXPECT_THAT(object["sentence"].get<std::string>(), StartsWith("strong brown ("));
  EXPECT_THAT(object["trade_terms"], Contains("rust"));
  EXPECT_EQ(object["tolerance_de00"], 2.0);
  EXPECT_EQ(object["within_tolerance"][0]["name"], "strong brown");
  EXPECT_FALSE(object.contains("answers"));
}

TEST(NameCommand, TakesNegativeNumbersHexCodesAndMunsell) {
  EXPECT_EQ(answered({"50", "-5", "-3"})["name"], "bluish gray");
  EXPECT_EQ(answered({"--", "50", "-5", "-3"})["lab"], json({50.0, -5.0, -3.0}));
  const auto hex = answered({"c8965a"});
  EXPECT_EQ(hex["input_kind"], "srgb-hex");
  EXPECT_EQ(answered({"#c8965a"})["lab"], hex["lab"]);
  EXPECT_EQ(answered({"5YR", "4/6"})["name"], "strong brown");
  EXPECT_EQ(answered({"5yr 4/6"})["munsell"], "5.0YR 4.0/6.0");
  EXPECT_EQ(answered({"N", "5"})["name"], "medium gray");
  const auto foreign = answered({"62", "12", "40", "--white", "d65"});
  EXPECT_EQ(foreign["input_white"], "D65");
  EXPECT_NE(foreign["lab"], json({62.0, 12.0, 40.0}));
}

TEST(NameCommand, NamesAtTheLevelAndInTheSpellingAskedFor) {
  EXPECT_EQ(answered({"51", "0", "0", "--level", "1"})["name"], "gray");
  EXPECT_EQ(answered({"75", "20", "55", "--level", "1"})["name"], "yellow");
  EXPECT_EQ(answered({"75", "20", "55", "--level", "2"})["name"], "orange yellow");
  const auto british = answered({"51", "0", "0", "--spelling", "british"});
  EXPECT_EQ(british["name"], "medium grey");
  EXPECT_EQ(british["published_name"], "medium gray");
  const ScratchFolder scratch;
  const auto words = scratch.write("words.csv", "published,said\nmedium gray,mittelgrau\n");
  EXPECT_EQ(answered({"51", "0", "0", "--spelling", "british", "--words", words})["name"], "mittelgrau");
}

TEST(NameCommand, AnswersIsItThis) {
  const auto object =
      answered({"88", "2", "19", "-u", "0.5", "--is", "cream", "--is", "rust", "--is", "pale yellow"});
  ASSERT_EQ(object["answers"].size(), 3u);
  EXPECT_EQ(object["answers"][0]["answer"], "yes");
  EXPECT_EQ(object["answers"][0]["kind"], "deposit term");
  EXPECT_EQ(object["answers"][1]["answer"], "no");
  EXPECT_EQ(answered({"88", "2", "19", "-u", "12", "--is", "cream"})["answers"][0]["answer"], "undecided");
  EXPECT_EQ(answered({"88", "2", "19", "--is", "cream", "--tolerance", "0.1"})["answers"][0]["answer"], "no");
  EXPECT_EQ(answered({"40", "-1", "-21", "--of", "bruise", "--is", "blue"})["answers"][0]["kind"],
            "bruise term");
  EXPECT_EQ(
      answered({"51", "0", "0", "--spelling", "british", "--is", "medium grey"})["answers"][0]["answer"],
      "yes");
  const auto run = run_tintfall({"name", "88", "2", "19", "--is", "puce"});
  EXPECT_THAT(run.err, HasSubstr("'tintfall name --known' lists the words there are"));
  EXPECT_THAT(run.status, Eq(2));
  EXPECT_THAT(run.err, HasSubstr("puce"));
}

TEST(NameCommand, NamesByScalesOfTheUser) {
  const ScratchFolder scratch;
  const auto plate = scratch.write("plate.csv", "name,L,a,b\nB2,88,2,18\nC3,82,6,28\n");
  const auto other = scratch.write("prints.csv", "name,munsell\nstraw,2.5Y 8.5/3\n");
  const auto object = answered({"88", "2", "19", "--scale", plate, "--scale", other, "--is", "B2"});
  ASSERT_EQ(object["scales"].size(), 2u);
  EXPECT_EQ(object["scales"][0]["scale"], "plate");
  EXPECT_EQ(object["scales"][0]["matches"][0]["entry"], "B2");
  EXPECT_EQ(object["scales"][0]["matches"][0]["within"], "yes");
  EXPECT_EQ(object["scales"][1]["scale"], "prints");
  EXPECT_EQ(object["answers"][0]["scale"], "plate");
  EXPECT_EQ(object["answers"][0]["kind"], "scale entry");
  EXPECT_THAT(run_tintfall({"name", "88", "2", "19", "--scale", plate}).out, HasSubstr("B2: ΔE00 0.6"));
  const auto broken = scratch.write("broken.csv", "name,L,a,b\nB2,88,2,18\nC3,pale,6,28\n");
  const auto run = run_tintfall({"name", "88", "2", "19", "--scale", broken});
  EXPECT_THAT(run.status, Eq(3));
  EXPECT_THAT(run.err, AllOf(HasSubstr("broken.csv"), HasSubstr("line 3"), HasSubstr("pale")));
}

TEST(NameCommand, AnswersAListLineByLine) {
  const auto run = run_tintfall({"name", "--spelling", "british"},
                                "\xEF\xBB\xBF"
                                "41 20 31\r\n\n# notes\n50,-5,-3\nN 5\n#808080\nfoo\n" +
                                    std::string(5000, '9') + "\n51 0 0");
  EXPECT_THAT(run.status, Eq(0)) << "at least one stands";
  const auto lines = lines_of(run.out);
  ASSERT_EQ(lines.size(), 7u) << run.out;
  for (const auto& line : lines) EXPECT_FALSE(line.is_discarded());
  EXPECT_EQ(lines[0]["name"], "strong brown");
  EXPECT_EQ(lines[1]["name"], "bluish grey");
  EXPECT_EQ(lines[2]["name"], "medium grey");
  EXPECT_EQ(lines[3]["input_kind"], "srgb-hex");
  EXPECT_EQ(lines[4]["line"], 7);
  EXPECT_EQ(lines[4]["error"]["code"], "bad-call");
  EXPECT_EQ(lines[5]["line"], 8);
  EXPECT_EQ(lines[6]["name"], "medium grey");
  EXPECT_THAT(run.err, AllOf(HasSubstr("line 7"), HasSubstr("line 8")));
}

/// Counts what has been written by the time each further line is asked for.
class AskedOneByOne : public std::streambuf {
 public:
  explicit AskedOneByOne(const std::ostringstream& out) : out_(out) {}
  std::vector<std::size_t> answered;

 protected:
  int_type underflow() override {
    const auto text = out_.str();
    answered.push_back(static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n')));
    if (answered.size() > 3) return traits_type::eof();
    setg(line_, line_, line_ + sizeof line_ - 1);
    return traits_type::to_int_type(line_[0]);
  }

 private:
  const std::ostringstream& out_;
  char line_[10] = "41 20 31\n";
};

TEST(NameCommand, StreamsAListWithoutWaitingForItsEnd) {
  std::ostringstream out, err;
  AskedOneByOne lines(out);
  std::istream in(&lines);
  Streams streams{in, out, err, false, false};
  EXPECT_THAT(run_command_line({"name", "-"}, streams), Eq(0));
  EXPECT_THAT(lines.answered, testing::ElementsAre(0, 1, 2, 3));
}

TEST(NameCommand, WritesAListToAFileAsAWhole) {
  const ScratchFolder scratch;
  const auto run = run_tintfall({"name", "--json", scratch.path("list.jsonl")}, "41 20 31\nfoo\n51 0 0\n");
  EXPECT_THAT(run.status, Eq(0));
  EXPECT_THAT(run.out, Eq("strong brown\nmedium gray\n"));
  EXPECT_EQ(lines_of(scratch.read("list.jsonl")).size(), 3u);
  const auto kept = scratch.write("kept.jsonl", "as it was");
  const auto refused = run_tintfall({"name", "--json", kept}, "foo\n");
  EXPECT_THAT(refused.status, Eq(3));
  EXPECT_THAT(scratch.read("kept.jsonl"), Eq("as it was"));
}

TEST(NameCommand, RefusesWhatCannotBeMeant) {
  for (const auto& arguments :
       std::vector<std::vector<std::string>>{{"name", "41", "20"},
                                             {"name", "41", "20", "31", "5"},
                                             {"name", "brown"},
                                             {"name", "150", "0", "0"},
                                             {"name", "50", "0", "0", "--level", "4"},
                                             {"name", "50", "0", "0", "--white", "D93"},
                                             {"name", "7.5YR", "5/6", "--white", "D65"},
                                             {"name", "eddbbd", "--white", "D50"},
                                             {"name", "50", "0", "0", "-u", "1,2"},
                                             {"name", "50", "0", "0", "-u", "-1"},
                                             {"name", "50", "0", "0", "-u", "nan"},
                                             {"name", "50", "0", "0", "--tolerance", "-1"},
                                             {"name", "50", "0", "0", "--spelling", "dutch"},
                                             {"name", "50", "0", "0", "--of", "cap"},
                                             {"name", "50", "0", "nan"}}) {
    std::string call;
    for (const auto& argument : arguments) call += argument + " ";
    SCOPED_TRACE(call);
    const auto run = run_tintfall(arguments);
    EXPECT_THAT(run.status, Eq(2)) << run.out;
    EXPECT_THAT(run.out, IsEmpty());
    EXPECT_THAT(run.err, StartsWith("tintfall: "));
  }
  EXPECT_THAT(run_tintfall({"name"}, "").status, Eq(3));
  const auto broken = run_tintfall({"name", "50", "0", "--json", "-"});
  EXPECT_EQ(json::parse(broken.out)["error"]["code"], "bad-call");
}

TEST(NameCommand, SaysWhatAWhiteIsFor) {
  EXPECT_THAT(run_tintfall({"name", "7.5YR 5/6", "--white", "D65"}).err,
              AllOf(HasSubstr("with the Munsell notation '7.5YR 5/6'"), HasSubstr("typed L a b")));
  EXPECT_THAT(run_tintfall({"name", "eddbbd", "--white", "D65"}).err,
              HasSubstr("with the sRGB code 'eddbbd'"));
  EXPECT_THAT(run_tintfall({"name", "--white", "D65"}, "62 12 40\nN 5\n").status, Eq(0))
      << "a list may be mixed";
}

TEST(NameCommand, TheHeadlineSaysWhatItsFigureIs) {
  const auto run = run_tintfall({"name", "43.2", "17.5", "27.5", "-u", "2"});
  EXPECT_THAT(run.out.substr(0, run.out.find('\n')),
              AllOf(HasSubstr("; within ΔE00 "), HasSubstr(" (95 %)"), Not(HasSubstr("±"))));
}

TEST(NameCommand, ListsTheWordsItKnows) {
  const auto run = run_tintfall({"name", "--known", "--spelling", "british"});
  EXPECT_THAT(run.status, Eq(0));
  EXPECT_THAT(run.out,
              AllOf(HasSubstr("deposit terms: white,"), HasSubstr("purple-brown"), HasSubstr("medium grey")));
  const auto lists = json::parse(run_tintfall({"name", "--known", "--json", "-"}).out);
  EXPECT_EQ(lists["names_of_level_3"].size(), 267u);
  EXPECT_EQ(lists["deposit_classes"].size(), 5u);
}

}  // namespace
}  // namespace tintfall
