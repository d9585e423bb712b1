/// What goes out comes back the same, and stands up to independent readers.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <lcms2.h>

#include <algorithm>
#include <colorlib/base/reference_table.hpp>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/exports/catalogue_files.hpp>
#include <colorlib/exports/reading_rows.hpp>
#include <colorlib/exports/report_pdf.hpp>
#include <colorlib/exports/row_files.hpp>
#include <colorlib/exports/screen_color.hpp>
#include <colorlib/exports/zip_archive.hpp>
#include <colorlib/records/photo_names.hpp>
#include <cstdlib>
#include <fstream>
#include <functional>
#include <optional>
#include <random>
#include <regex>
#include <set>
#include <tests/colorlib/records/catalogue_entries.hpp>
#include <tests/colorlib/records/example_series.hpp>

namespace colorlib {
namespace {

using testing::Contains;
using testing::HasSubstr;
using testing::Not;
using testing::SizeIs;

/// The scenario, a collection without records, a refused reading, a reagent, and texts that could break a
/// format.
std::vector<CatalogueEntry> made_entries() {
  auto all = scenario_entries();
  CatalogueEntry bare;
  bare.collection.uid = new_uid();
  bare.collection.number = "QH-07, \"second\" 50 %; \\ é";
  bare.collection.remarks = "# 'quoted' and \"quoted\", a;b\\c %22 {x} <y> & z: 1";
  bare.collection.contrast_ratio_percent = 66.67;
  all.push_back(bare);
  CatalogueEntry refused;
  refused.collection.uid = new_uid();
  refused.collection.number = "QH-08";
  std::string json = scenario_record("QH-08", "V", {93, 0, 4}, "white", "white");
  const auto begin = json.find("\"pixels\""), end = json.find("\"flags\":[\"specular\"]");
  json.replace(
      begin, end - begin,
      R"("refused":{"code":"untrustworthy","message":"The layer is too thin.","advice":"Heap it."},)");
  const auto record =
      catalogue_record_from(json, "refused", {"potassium hydroxide 5 %", std::string(64, 'a')});
  EXPECT_TRUE(record) << record.error().message;
  refused.records = {*record};
  all.push_back(refused);
  return all;
}

const std::vector<CatalogueEntry>& entries() {
  static const auto made = made_entries();
  return made;
}

class RoundTrip : public testing::TestWithParam<CatalogueFormat> {};

TEST_P(RoundTrip, IsIdentical) {
  const auto first = exported(entries(), GetParam());
  ASSERT_TRUE(first) << first.error().message;
  const auto back = imported(*first, "export");
  ASSERT_TRUE(back) << back.error().message;
  const auto second = exported(*back, GetParam());
  ASSERT_TRUE(second) << second.error().message;
  EXPECT_EQ(*second, *first);
}

// Through a catalogue, which gives nothing back that it was not given.
TEST_P(RoundTrip, IsIdenticalThroughACatalogue) {
  const auto first = exported(entries(), GetParam());
  const auto back = imported(*first, "export");
  ASSERT_TRUE(back) << back.error().message;
  const ScratchCatalogue scratch;
  auto catalogue = scratch.open();
  Progress silent;
  const auto added = catalogue->add(*back, silent);
  ASSERT_TRUE(added) << added.error().message;
  std::vector<std::string> numbers;
  for (const CatalogueEntry& entry : *back) numbers.push_back(entry.collection.number);
  std::vector<CatalogueEntry> again;
  const auto read =
      catalogue->each(numbers, false, [&](const CatalogueEntry& entry) -> Result<std::monostate> {
        again.push_back(entry);
        return std::monostate{};
      });
  ASSERT_TRUE(read) << read.error().message;
  EXPECT_EQ(*exported(again, GetParam()), *first);
  EXPECT_THAT(catalogue->check(silent)->problems, testing::IsEmpty());
}

// The catalogue knows its own readings again, whatever they travelled as.
TEST_P(RoundTrip, AddsNothingTwice) {
  const ScratchCatalogue scratch;
  auto catalogue = scratch.open();
  Progress silent;
  ASSERT_TRUE(catalogue->add(entries(), silent));
  const auto back = imported(*exported(entries(), GetParam()), "export");
  ASSERT_TRUE(back);
  const auto again = catalogue->add(*back, silent);
  ASSERT_TRUE(again) << again.error().message;
  EXPECT_EQ(again->collections_added + again->records_added, 0u);
}

std::string format_name(const testing::TestParamInfo<CatalogueFormat>& info) {
  constexpr const char* names[] = {"csv", "cgats", "darwin_core", "text", "json_lines"};
  return names[static_cast<int>(info.param)];
}
INSTANTIATE_TEST_SUITE_P(Formats, RoundTrip,
                         testing::Values(CatalogueFormat::csv, CatalogueFormat::cgats,
                                         CatalogueFormat::darwin_core, CatalogueFormat::text,
                                         CatalogueFormat::json_lines),
                         format_name);

TEST(JsonLines, KeepRecordsToTheLetter) {
  const auto back = imported(*exported(entries(), CatalogueFormat::json_lines), "x.jsonl");
  ASSERT_TRUE(back) << back.error().message;
  EXPECT_EQ(*back, entries());
}

TEST(Csv, KeepsColourCovarianceAndWords) {
  const auto back = imported(*exported(entries(), CatalogueFormat::csv), "x.csv");
  ASSERT_TRUE(back) << back.error().message;
  const auto before = entries();
  ASSERT_EQ(back->size(), before.size());
  for (std::size_t i = 0; i < before.size(); ++i) {
    EXPECT_EQ((*back)[i].collection, before[i].collection);
    ASSERT_EQ((*back)[i].records.size(), before[i].records.size());
    for (std::size_t k = 0; k < before[i].records.size(); ++k)
      EXPECT_EQ((*back)[i].records[k].readings, before[i].records[k].readings);
  }
}

/// One record of three photos; regions S (a spot), W (water) and C (a control).
CatalogueEntry treated() {
  std::string text = scenario_record("QH-08", "V", {42, 19, 29}, "strong brown", "rust");
  const auto begin = text.find("{\"id\":\"A\""), end = text.find("],\"flags\":[]}", begin);
  const std::string reading = text.substr(begin, end - begin);
  std::string readings;
  for (const auto& [id, kind] : {std::pair{"W", "water"}, {"S", "spot"}, {"C", "control"}}) {
    std::string one = reading;
    one.replace(one.find("\"A\""), 3, fmt::format("\"{}\"", id));
    one.replace(one.find("deposit"), 7, kind);
    readings += (readings.empty() ? "" : ",") + one;
  }
  text.replace(begin, end - begin, readings);
  text.insert(text.rfind('}'), R"(,"photos":[{"name":"QH-08-V.jpg"},{"name":"b.jpg"},{"name":"c.jpg"}])");
  return entry_of(catalogue_record_from(text, "test", {"KOH 5 %", {}}).value()).value();
}

TEST(Csv, NamesTheReagentOnlyWhereItWas) {
  const ReadingRows rows = rows_from({treated()});
  const auto column = [&](const char* name) {
    return static_cast<std::size_t>(std::find(rows.columns.begin(), rows.columns.end(), name) -
                                    rows.columns.begin());
  };
  ASSERT_EQ(rows.cells.size(), 3u);
  EXPECT_EQ(rows.cells[0][column("reagent")], "");
  EXPECT_EQ(rows.cells[1][column("reagent")], "KOH 5 %");
  EXPECT_EQ(rows.cells[2][column("reagent")], "");
  EXPECT_EQ(rows.cells[0][column("other_photos")], "b.jpg; c.jpg");
  const auto back = imported(csv_from(rows), "x.csv");
  ASSERT_TRUE(back) << back.error().message;
  EXPECT_EQ(back->front().records.front().reagent, "KOH 5 %") << "the first row names none";
  EXPECT_EQ(photo_words(back->front().records.front()), "QH-08-V.jpg, b.jpg, c.jpg");
  EXPECT_EQ(csv_from(rows_from(*back)), csv_from(rows));
}

TEST(Cgats, HoldsColoursOnlyAndTellsWhatItLeavesOut) {
  CatalogueEntry empty, refused = treated();
  empty.collection.number = "QH-09";
  refused.records.front().readings.front().lab.reset();
  const NotExported left = not_exported({empty, refused, treated()}, CatalogueFormat::cgats);
  EXPECT_THAT(left.collections, testing::ElementsAre("QH-09"));
  EXPECT_EQ(left.refused, 1u);
  EXPECT_THAT(not_exported({empty, refused}, CatalogueFormat::csv).collections, testing::IsEmpty());
}

TEST(Csv, HasADepositClassInAColumnOfItsOwn) {
  const ReadingRows rows = rows_from(scenario_entries());
  const auto column = [&](const char* name) {
    return static_cast<std::size_t>(std::find(rows.columns.begin(), rows.columns.end(), name) -
                                    rows.columns.begin());
  };
  ASSERT_LT(column("deposit_classes"), rows.columns.size());
  EXPECT_EQ(rows.cells[4][column("terms")], "rust");
  EXPECT_EQ(rows.cells[4][column("deposit_classes")], "ochre");
}

TEST(Cgats, IsReadBackByLittleCms) {
  const std::string text = *exported(entries(), CatalogueFormat::cgats);
  cmsHANDLE table = cmsIT8LoadFromMem(nullptr, text.data(), static_cast<cmsUInt32Number>(text.size()));
  ASSERT_NE(table, nullptr);
  EXPECT_EQ(cmsIT8GetPropertyDbl(table, "NUMBER_OF_SETS"), 12);
  std::size_t row = 0;
  for (const CatalogueEntry& entry : scenario_entries())
    for (const CatalogueRecord& record : entry.records) {
      const std::string id = fmt::format("{}", ++row);
      const Lab lab = *record.readings.front().lab;
      EXPECT_DOUBLE_EQ(cmsIT8GetDataDbl(table, id.c_str(), "LAB_L"), lab.l);
      EXPECT_DOUBLE_EQ(cmsIT8GetDataDbl(table, id.c_str(), "LAB_A"), lab.a);
      EXPECT_DOUBLE_EQ(cmsIT8GetDataDbl(table, id.c_str(), "LAB_B"), lab.b);
      EXPECT_DOUBLE_EQ(cmsIT8GetDataDbl(table, id.c_str(), "STDEV_A"), 0.5);
      EXPECT_EQ(std::string(cmsIT8GetData(table, id.c_str(), "NUMBER")), entry.collection.number);
    }
  cmsIT8Free(table);
}

// What an instrument's program writes: no numbers of ours.
TEST(Cgats, OfAnInstrumentIsTaken) {
  const auto back = imported(
      "CGATS.17\nNUMBER_OF_FIELDS 7\nBEGIN_DATA_FORMAT\nSAMPLE_ID LAB_L LAB_A LAB_B STDEV_L STDEV_A STDEV_B\n"
      "END_DATA_FORMAT\nNUMBER_OF_SETS 1\nBEGIN_DATA\nQH-03 42.0 19.0 29.0 0.3 0.2 0.1\nEND_DATA\n",
      "instrument.txt");
  ASSERT_TRUE(back) << back.error().message;
  ASSERT_THAT(*back, SizeIs(1));
  EXPECT_EQ((*back)[0].collection.number, "QH-03");
  const CatalogueReading& reading = (*back)[0].records.at(0).readings.at(0);
  EXPECT_EQ(reading.lab, (Lab{42, 19, 29}));
  EXPECT_NEAR(reading.lab_covariance(0, 0), 0.09, 1e-12);
}

/// The archive's terms, as its description names them.
std::vector<std::string> terms_of(const std::string& meta) {
  std::vector<std::string> found;
  const std::regex term("term=\"([^\"]+)\"|rowType=\"([^\"]+)\"");
  for (auto match = std::sregex_iterator(meta.begin(), meta.end(), term); match != std::sregex_iterator();
       ++match)
    found.push_back((*match)[1].matched ? (*match)[1] : (*match)[2]);
  return found;
}

TEST(DarwinCore, UsesOnlyTermsOfTheStandard) {
  const auto table = ReferenceTable::read(
      std::string(TINTFALL_SOURCE_FOLDER) + "/reference/darwin_core_terms.csv", "the terms");
  ASSERT_TRUE(table) << table.error().message;
  std::set<std::string> known;
  for (std::size_t row = 0; row < table->rows(); ++row) known.insert(table->text(row, *table->column("iri")));
  const std::string archive = *exported(entries(), CatalogueFormat::darwin_core);
  const auto used = terms_of(*zip_member(archive, "meta.xml", 1 << 20));
  EXPECT_THAT(used, SizeIs(23 + 11 + 2));
  for (const std::string& term : used) EXPECT_TRUE(known.contains(term)) << term;
}

TEST(DarwinCore, HasAColumnForEachTermAndUncertaintiesInItsMeasurements) {
  const std::string archive = *exported(entries(), CatalogueFormat::darwin_core);
  EXPECT_THAT(*zip_names(archive),
              testing::ElementsAre("meta.xml", "occurrence.csv", "measurementorfact.csv", "tintfall.jsonl"));
  const auto occurrences =
      ReferenceTable::parse(*zip_member(archive, "occurrence.csv", 1 << 20), "o", "occurrences");
  ASSERT_TRUE(occurrences) << occurrences.error().message;
  EXPECT_EQ(occurrences->rows(), entries().size());
  EXPECT_EQ(occurrences->columns().size(), 23u);
  const auto measured =
      ReferenceTable::parse(*zip_member(archive, "measurementorfact.csv", 1 << 20), "m", "measurements");
  ASSERT_TRUE(measured) << measured.error().message;
  EXPECT_EQ(measured->rows(), 12u * 4);
  const auto cell = [&](std::size_t row, const char* column) {
    return measured->text(row, *measured->column(column));
  };
  EXPECT_EQ(cell(5, "measurementValue"), "89.74");
  EXPECT_EQ(cell(5, "measurementAccuracy"), "U = 0.80, k = 2");
  EXPECT_EQ(cell(5, "measurementUnit"), "1");
  EXPECT_EQ(cell(5, "parentMeasurementID"), cell(4, "measurementID"));
  EXPECT_EQ(cell(5, "occurrenceID"), occurrences->text(0, 0));
}

// Another program's judgement of the container.
TEST(DarwinCore, ArchiveIsSoundToAnIndependentReader) {
  if (std::system("python3 -c 'import zipfile' >/dev/null 2>&1") != 0) GTEST_SKIP() << "no python3";
  const ScratchCatalogue scratch;
  const auto path = scratch.folder() / "archive.zip";
  std::ofstream(path, std::ios::binary) << *exported(entries(), CatalogueFormat::darwin_core);
  const std::string call = fmt::format(
      "python3 -c 'import zipfile,sys; z=zipfile.ZipFile(sys.argv[1]); sys.exit(z.testzip() is not None or "
      "len(z.namelist()) != 4)' '{}'",
      path.string());
  EXPECT_EQ(std::system(call.c_str()), 0);
}

TEST(Zip, RefusesWhatIsDamaged) {
  const std::string archive = *zip_archive({{"a.txt", std::string(5000, 'a')}, {"b.txt", "b"}});
  EXPECT_EQ(*zip_member(archive, "a.txt", 5000), std::string(5000, 'a'));
  EXPECT_FALSE(zip_member(archive, "a.txt", 4999));
  EXPECT_FALSE(zip_member(archive, "c.txt", 10));
  std::mt19937 random(4711);
  std::size_t refused = 0;
  for (int trial = 0; trial < 2000; ++trial) {
    std::string bad = archive;
    for (int k = 0; k < 3; ++k) bad[random() % bad.size()] = static_cast<char>(random());
    if (trial % 3 == 0) bad.resize(random() % bad.size());
    const auto member = zip_member(bad, "a.txt", 1 << 20);
    if (!member)
      ++refused;
    else
      EXPECT_EQ(*member, std::string(5000, 'a')) << "a changed member passed its checksum";
  }
  EXPECT_GT(refused, 1000u);
}

TEST(Import, RefusesInWords) {
  const auto said = [](const std::string& text) {
    const auto back = imported(text, "file");
    return back ? std::string("taken") : back.error().message;
  };
  EXPECT_THAT(said("number,edible\n1,2\n"), HasSubstr("'edible' is not known"));
  EXPECT_THAT(said("collector\nV\n"), HasSubstr("no column 'number'"));
  EXPECT_THAT(said("number,lab_l,lab_a,lab_b\n1,42,19,29\n"), HasSubstr("no uncertainty"));
  EXPECT_THAT(said("number,lab_l,lab_a,lab_b,u_l_k2,u_a_k2,u_b_k2\n1,42,x,29,1,1,1\n"),
              HasSubstr("'x' in column lab_a"));
  EXPECT_THAT(said("number,collector\n1,a\n1,b\n"), HasSubstr("something else of '1'"));
  // Found by import_fuzz: it was taken from a table, and what was exported of it then was not.
  EXPECT_THAT(said("uid,number\nid:00000000-0000-4000-8000-000000000003,1\n"), HasSubstr("is no urn:uuid"));
  EXPECT_THAT(said("{\"format\":\"other\"}"), HasSubstr("line 1"));
  EXPECT_THAT(said("{\"format\":\"tintfall-collection\",\"version\":2}"), HasSubstr("version must be 1"));
  EXPECT_THAT(said("CGATS.17\nnonsense"), HasSubstr("CGATS"));
  EXPECT_THAT(said("PK\x03\x04 cut"), HasSubstr("ZIP archive"));
  EXPECT_THAT(said("== Tintfall reading\nedible: yes\n"), HasSubstr("line 2"));
  EXPECT_THAT(said(*zip_archive({{"meta.xml", "<archive/>"}})), HasSubstr("not written here"));
  EXPECT_THAT(said("number,lab_l,lab_a,lab_b,u_l_k2,u_a_k2,u_b_k2\n1,42,19,29,1,1,1\n"), "taken");
}

TEST(Import, KeepsNoPlaceThatWasNotExported) {
  std::vector<CatalogueEntry> coarse;
  for (const CatalogueEntry& entry : scenario_entries())
    coarse.push_back({with_place(entry.collection, PlaceDetail::coarse), entry.records, {}});
  for (const auto format :
       {CatalogueFormat::csv, CatalogueFormat::cgats, CatalogueFormat::text, CatalogueFormat::json_lines}) {
    const std::string text = *exported(coarse, format);
    EXPECT_THAT(text, Not(HasSubstr("Cindermarsh")));
    EXPECT_THAT(text, Not(HasSubstr("51.3333")));
    EXPECT_THAT(text, HasSubstr("51.3"));
  }
  const std::string archive = *exported(coarse, CatalogueFormat::darwin_core);
  const auto names = zip_names(archive);
  ASSERT_TRUE(names);
  for (const std::string& name : *names) {
    EXPECT_THAT(*zip_member(archive, name, 1 << 24), Not(HasSubstr("Cindermarsh")));
  }
  EXPECT_THAT(*zip_member(archive, "occurrence.csv", 1 << 24), HasSubstr("rounded to 0.1 degree"));
}

TEST(Report, IsSeenBeforeItIsWritten) {
  const auto pages = report_pictures(entries(), {}, 2, 3);
  ASSERT_TRUE(pages) << pages.error().message;
  ASSERT_THAT(*pages, SizeIs(3));
  for (const Image8& page : *pages) {
    EXPECT_EQ(page.columns, 420);
    EXPECT_EQ(page.rows, 594);
    const auto inked =
        std::count_if(page.data.begin(), page.data.end(), [](std::uint8_t level) { return level < 200; });
    EXPECT_GT(inked, 1000);
    EXPECT_GT(page.at(2, 2)[0], 250) << "margins stay white";
  }
  EXPECT_NE((*pages)[0].data, (*pages)[1].data);
  EXPECT_FALSE(report_pictures(entries(), {}, 0, 3));
  EXPECT_FALSE(report_pictures(entries(), {}, 2, 0));
}

/// The words of a PDF, pages ended by form feeds; nothing where there is no program to take them out.
std::optional<std::string> words_of(const std::string& pdf) {
  const ScratchCatalogue scratch;
  const auto path = scratch.folder() / "report.pdf", text = scratch.folder() / "report.txt";
  std::ofstream(path, std::ios::binary) << pdf;
  if (std::system(fmt::format("pdftotext -layout '{}' '{}'", path.string(), text.string()).c_str()) != 0)
    return std::nullopt;
  std::ifstream stream(text);
  return std::string{std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

TEST(Report, IsAPdfOfOnePageACollection) {
  const auto pdf = exported(entries(), CatalogueFormat::pdf);
  ASSERT_TRUE(pdf) << pdf.error().message;
  EXPECT_THAT(*pdf, testing::StartsWith("%PDF"));
  EXPECT_EQ(*pdf, *exported(entries(), CatalogueFormat::pdf)) << "two calls differ";
  const auto words = words_of(*pdf);
  if (!words) GTEST_SKIP() << "no pdftotext";
  EXPECT_EQ(std::count(words->begin(), words->end(), '\f'), static_cast<long>(entries().size()));
  for (const char* said :
       {"QH-03", "strong brown", "42.4 ± 0.8", "Cindermarsh Heath", "The layer is too thin", "safe to eat"})
    EXPECT_THAT(*words, HasSubstr(said));
  EXPECT_THAT(*words, HasSubstr("in the trade's words: rust\n")) << "the deposit class is no trade term";
}

/// A collection whose record is a series of the invented course R2: pale to blue.
CatalogueEntry entry_of_series(const std::function<void(SeriesRecord&)>& change = {}) {
  SeriesRecord series = series_record(course_named("R2"), geometric_s);
  for (FrameRecord& frame : series.frames) frame.record.subject.item = "QH-09";
  series.spots[0].sentence = "Reagent KOH 5 %: pale to blue within a minute.";
  series.spots[0].warnings = {"water control missing: wetting alone darkens tissue"};
  if (change) change(series);
  auto record = catalogue_record_from(series_json(series), "series");
  if (!record) throw std::runtime_error(record.error().message);
  return entry_of(std::move(*record)).value();
}

/// Pixels of a page within 12 levels of a colour.
std::ptrdiff_t count_of(const Image8& page, std::array<int, 3> rgb) {
  std::ptrdiff_t count = 0;
  for (int r = 0; r < page.rows; ++r)
    for (int c = 0; c < page.columns; ++c)
      count += std::abs(page.at(r, c)[0] - rgb[0]) <= 12 && std::abs(page.at(r, c)[1] - rgb[1]) <= 12 &&
               std::abs(page.at(r, c)[2] - rgb[2]) <= 12;
  return count;
}

TEST(Report, ShowsTheCourseOfASeriesWithItsCautions) {
  const CatalogueEntry entry = entry_of_series();
  const auto pdf = report_pdf({entry}, {});
  ASSERT_TRUE(pdf) << pdf.error().message;
  const auto words = words_of(*pdf);
  if (!words) GTEST_SKIP() << "no pdftotext";
  for (const char* said :
       {"QH-09, spot A: KOH 5 %", "pale to blue within a minute", "change ΔE00 against the untreated colour",
        "onset", "half", "as seen", "square-root axis", "Mind: water control missing",
        "spot B: no course. It is seen once.", "Handling:", "H314", "Goggles and gloves",
        "No chemical drop and no bruise tests for poison"})
    EXPECT_THAT(*words, HasSubstr(said));
  // The strip of colours as seen: the course ends in Lab 48, -14, -9.
  const auto pages = report_pictures({entry}, {}, 4, 10);
  ASSERT_TRUE(pages) << pages.error().message;
  EXPECT_EQ(std::count(words->begin(), words->end(), '\f'), static_cast<long>(pages->size()));
  const ScreenColor blue = screen_color_from_lab({48, -14, -9});
  std::ptrdiff_t seen = 0;
  for (const Image8& page : *pages) seen += count_of(page, {blue.red, blue.green, blue.blue});
  EXPECT_GT(seen, 1000);
}

TEST(Report, SaysPlacesPhotosAndReagentsAsTheyAre) {
  CatalogueEntry entry = treated();
  entry.collection.latitude_deg = -51.25;
  entry.collection.longitude_deg = -2.5;
  const auto pdf = report_pdf({entry}, {});
  ASSERT_TRUE(pdf) << pdf.error().message;
  const auto words = words_of(*pdf);
  if (!words) GTEST_SKIP() << "no pdftotext";
  for (const char* said : {"51.25° S, 2.5° W", "QH-08-V.jpg, b.jpg, c.jpg", "reagent KOH 5 % (not on W, C)"})
    EXPECT_THAT(*words, HasSubstr(said));
}

TEST(Report, SaysWhyACourseIsNotDrawn) {
  CatalogueEntry entry = entry_of_series();
  std::string& json = entry.records[0].json;
  const auto zero = json.find("\"zero\":\"applied\"");
  ASSERT_NE(zero, std::string::npos);
  json.replace(zero, 16, "\"zero\":\"someday\"");
  const auto words = words_of(report_pdf({entry}, {}).value());
  if (!words) GTEST_SKIP() << "no pdftotext";
  EXPECT_THAT(*words, HasSubstr("The course of this series is not drawn."));
  EXPECT_THAT(*words, HasSubstr("zero is no zero of a series"));
}

}  // namespace
}  // namespace colorlib
