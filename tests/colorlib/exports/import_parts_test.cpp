#include <fmt/format.h>
#include <gmock/gmock.h>

#include <colorlib/exports/catalogue_files.hpp>
#include <colorlib/exports/import_parts.hpp>
#include <tests/colorlib/records/catalogue_entries.hpp>

namespace colorlib {
namespace {

using testing::HasSubstr;

std::vector<CatalogueEntry> many() {
  auto entries = made_up_entries(0, 40, 3);
  for (std::size_t i = 0; i < entries.size(); ++i)
    entries[i].collection.uid = fmt::format("urn:uuid:00000000-0000-4000-8000-{:012}", i);
  return entries;
}

TEST(ImportParts, PartsTogetherAreTheWhole) {
  for (const auto format : {CatalogueFormat::csv, CatalogueFormat::json_lines, CatalogueFormat::cgats}) {
    const std::string bytes = *exported(many(), format);
    const auto whole = imported(bytes, "file");
    ASSERT_TRUE(whole) << whole.error().message;
    std::vector<CatalogueEntry> together;
    int parts = 0;
    const auto read = import_in_parts(
        bytes, "file",
        [&](std::vector<CatalogueEntry> entries) -> Result<std::monostate> {
          ++parts;
          for (auto& entry : entries) together.push_back(std::move(entry));
          return std::monostate{};
        },
        10);
    ASSERT_TRUE(read) << read.error().message;
    EXPECT_EQ(together, *whole) << "the rows of a collection stay together, whatever the size of a part";
    EXPECT_EQ(parts > 3, format != CatalogueFormat::cgats);
  }
}

TEST(ImportParts, AnErrorFarDownSaysWhere) {
  std::string bytes = *exported(many(), CatalogueFormat::csv);
  bytes += "too,few,cells\n";
  const auto read = import_in_parts(
      bytes, "file.csv",
      [](std::vector<CatalogueEntry>) -> Result<std::monostate> { return std::monostate{}; }, 10);
  ASSERT_FALSE(read);
  EXPECT_EQ(read.error().code, ErrorCode::unreadable_table);
  EXPECT_THAT(read.error().message, HasSubstr("file.csv, after line"));
}

}  // namespace
}  // namespace colorlib
