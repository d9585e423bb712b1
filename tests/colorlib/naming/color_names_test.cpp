#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <fstream>
#include <set>
#include <tests/colorlib/naming/reference_tables.hpp>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

using testing::HasSubstr;

const ColorNames& names() { return namer().names(); }

std::string full_name(std::string_view notation) {
  const auto munsell = munsell_from_notation(notation);
  if (!munsell) return munsell.error().message;
  return names().name(names().block_of(*munsell), NameLevel::full);
}

/// The publication's way: every box that holds the point, lower ends in, upper ends out.
int boxes_holding(const Munsell& munsell, int* number) {
  int found = 0;
  for (const auto& cell : names().cells()) {
    const double into = wrapped_hue_step(munsell.hue_step - cell.hue_begin);
    if (into < cell.hue_width && munsell.value >= cell.value_begin && munsell.value < cell.value_end &&
        munsell.chroma >= cell.chroma_begin && munsell.chroma < cell.chroma_end) {
      ++found;
      *number = cell.number;
    }
  }
  return found;
}

TEST(ColorNames, HasThePublishedLevels) {
  EXPECT_EQ(names().names_at(NameLevel::broad).size(), 13u);
  EXPECT_EQ(names().names_at(NameLevel::middle).size(), 29u);
  EXPECT_EQ(names().names_at(NameLevel::full).size(), 267u);
}

TEST(ColorNames, GivesEveryMunsellColorOneBlock) {
  // Steps that meet every boundary of the publication (whole hues, half values, tenths of chroma) and lie
  // between.
  std::size_t points = 0, wrong = 0;
  for (int hue = 0; hue < 200; ++hue)
    for (int value = 0; value <= 40; ++value)
      for (int chroma = 0; chroma <= 170; ++chroma) {
        const Munsell munsell{hue / 2.0, value / 4.0, chroma / 10.0};
        int number = 0;
        ++points;
        if (boxes_holding(munsell, &number) != 1 || names().block_of(munsell) != number) ++wrong;
      }
  std::printf("%zu points of Munsell space, %zu without exactly one block\n", points, wrong);
  EXPECT_EQ(wrong, 0u);
}

// Look-ups in the charts of [SP440], worked by hand.
TEST(ColorNames, MeetsTheWorkedLookups) {
  const std::pair<const char*, const char*> worked[] = {{"5Y 9/2", "pale yellow"},
                                                        {"2.5Y 8/4", "pale yellow"},
                                                        {"10YR 8/2", "pale orange yellow"},
                                                        {"10YR 7/4", "light yellowish brown"},
                                                        {"10YR 6/6", "dark orange yellow"},
                                                        {"7.5YR 5/6", "strong yellowish brown"},
                                                        {"7.5YR 4/4", "moderate brown"},
                                                        {"5YR 4/6", "strong brown"},
                                                        {"5YR 3/2", "grayish brown"},
                                                        {"10R 3/2", "grayish reddish brown"},
                                                        {"5YR 7/4", "moderate yellowish pink"},
                                                        {"10R 7/4", "moderate yellowish pink"},
                                                        {"5P 3/2", "dark grayish purple"},
                                                        {"5Y 5/4", "light olive"},
                                                        {"5GY 6/2", "grayish yellow green"},
                                                        {"10YR 2/1", "dark grayish yellowish brown"},
                                                        {"5R 4/14", "vivid red"},
                                                        {"5PB 3/10", "strong blue"},
                                                        {"N 1", "black"},
                                                        {"N 2.5", "dark gray"},
                                                        {"N 4.5", "medium gray"},
                                                        {"N 6.5", "light gray"},
                                                        {"N 8.5", "white"},
                                                        {"N 10", "white"}};
  for (const auto& [notation, name] : worked) EXPECT_EQ(full_name(notation), name) << notation;
}

/// A point well inside the largest part of a cell that the data reach; false when they reach none.
bool interior_point(const NameCell& cell, Munsell* point, double* size) {
  *size = 0;
  const double top = std::min(cell.value_end, 10.0);
  for (int h = 1; h < 8; ++h)
    for (int v = 1; v < 16; ++v) {
      const double hue = wrapped_hue_step(cell.hue_begin + cell.hue_width * h / 8);
      const double value = cell.value_begin + (top - cell.value_begin) * v / 16;
      const double reach = std::min(cell.chroma_end, namer().renotation().greatest_chroma(hue, value));
      if (reach - cell.chroma_begin <= *size) continue;
      *size = reach - cell.chroma_begin;
      *point = {hue, value, (cell.chroma_begin + reach) / 2};
    }
  return *size > 0.02;
}

TEST(ColorNames, NamesAnInteriorPointOfEachNamesLargestCell) {
  int reached = 0;
  for (int block = 1; block <= ColorNames::blocks; ++block) {
    const NameCell* largest = nullptr;
    double largest_volume = 0;
    Munsell point;
    for (const auto& cell : names().cells()) {
      if (cell.number != block) continue;
      Munsell here;
      double chroma_size = 0;
      if (!interior_point(cell, &here, &chroma_size)) continue;
      const double volume = chroma_size * (here.chroma + 0.1) * cell.hue_width *
                            (std::min(cell.value_end, 10.0) - cell.value_begin);
      if (volume > largest_volume) {
        largest_volume = volume;
        largest = &cell;
        point = here;
      }
    }
    ASSERT_NE(largest, nullptr) << names().name(block, NameLevel::full) << " is nowhere within the data";
    ++reached;
    const auto match = namer().renotation().munsell_from_lab(namer().renotation().lab_from_munsell(point));
    EXPECT_FALSE(match.outside) << notation_from(point);
    EXPECT_EQ(names().block_of(match.munsell), block)
        << notation_from(point) << " of " << names().name(block, NameLevel::full);
    const auto words = namer().describe(namer().renotation().lab_from_munsell(point), {});
    EXPECT_EQ(words.name.name, names().name(block, NameLevel::full));
    EXPECT_EQ(words.name.probability, 1);
  }
  std::printf("%d of 267 names met through CIELAB\n", reached);
}

TEST(ColorNames, CoarserLevelsFollowFromTheFinest) {
  std::ifstream file(source_folder() / "reference/block_names.csv");
  std::string line;
  int rows = 0;
  while (std::getline(file, line)) {
    if (line.empty() || line[0] == '#' || line.rfind("number", 0) == 0) continue;
    ++rows;
    std::istringstream cells(line);
    std::string number, full, middle, broad, abbreviation;
    std::getline(cells, number, ',');
    std::getline(cells, full, ',');
    std::getline(cells, middle, ',');
    std::getline(cells, broad, ',');
    std::getline(cells, abbreviation, ',');
    const int block = std::stoi(number);
    EXPECT_EQ(names().name(block, NameLevel::full), full);
    EXPECT_EQ(names().name(block, NameLevel::middle), middle);
    EXPECT_EQ(names().name(block, NameLevel::broad), broad);
    EXPECT_EQ(names().abbreviation(block), abbreviation);
    EXPECT_EQ(names().find(full, NameLevel::full), static_cast<std::size_t>(block - 1));
  }
  EXPECT_EQ(rows, 267);
  EXPECT_FALSE(names().find("chartreuse", NameLevel::full));
}

TEST(ColorNames, RefusesTablesWithGapsOrOverlaps) {
  const auto folder = std::filesystem::temp_directory_path() / "tintfall_names_test";
  std::filesystem::create_directories(folder);
  std::ifstream original(source_folder() / "reference/blocks.csv");
  std::vector<std::string> lines;
  for (std::string line; std::getline(original, line);) lines.push_back(line);
  const auto load = [&](const std::vector<std::string>& changed) {
    std::ofstream out(folder / "blocks.csv");
    for (const auto& line : changed) out << line << '\n';
    out.close();
    return ColorNames::load(source_folder() / "reference/block_names.csv", folder / "blocks.csv");
  };
  EXPECT_TRUE(load(lines));
  auto gap = lines;
  gap.erase(gap.begin() + 40);
  EXPECT_THAT(load(gap), FailsWith(ErrorCode::unreadable_table, HasSubstr("no name")));
  auto overlap = lines;
  overlap.push_back(lines[40]);
  EXPECT_THAT(load(overlap), FailsWith(ErrorCode::unreadable_table, HasSubstr("overlap")));
  auto text = lines;
  text[5] = "1R,4R,5,three,7,6.5,8";
  EXPECT_THAT(load(text), FailsWith(ErrorCode::unreadable_table, HasSubstr("line 6")));
  auto number = lines;
  number[5] = "1R,4R,999,3,7,6.5,8";
  EXPECT_THAT(load(number), FailsWith(ErrorCode::unreadable_table, HasSubstr("line 6")));
  EXPECT_THAT(load({lines[0], lines[1]}), FailsWith(ErrorCode::unreadable_table, HasSubstr("no rows")));
  std::filesystem::remove_all(folder);
}

}  // namespace
}  // namespace colorlib
