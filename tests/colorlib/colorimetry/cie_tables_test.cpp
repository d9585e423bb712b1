#include <gtest/gtest.h>
#include <unistd.h>

#include <algorithm>
#include <colorlib/base/data_folder.hpp>
#include <colorlib/base/file_access.hpp>
#include <colorlib/colorimetry/cie_tables.hpp>
#include <filesystem>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

namespace fs = std::filesystem;
using testing::AllOf;
using testing::HasSubstr;

TEST(CieTables, AreOnOneGrid) {
  const auto cie = read_cie_tables(data_folder() / "reference");
  ASSERT_TRUE(cie) << cie.error().message;
  for (const auto* spectrum :
       {&cie->observer_1931.x_bar, &cie->observer_1931.y_bar, &cie->observer_1931.z_bar, &cie->illuminant_a,
        &cie->illuminant_c, &cie->illuminant_d50, &cie->illuminant_d65}) {
    EXPECT_EQ(spectrum->start_nm, 380);
    EXPECT_EQ(spectrum->step_nm, 5);
    EXPECT_EQ(spectrum->end_nm(), 780);
    EXPECT_TRUE(
        std::all_of(spectrum->values.begin(), spectrum->values.end(), [](double v) { return v >= 0; }));
  }
}

TEST(CieTables, LuminousEfficiencyPeaksWithOneAt555) {
  const auto cie = read_cie_tables(data_folder() / "reference").value();
  const auto& y = cie.observer_1931.y_bar;
  const auto peak = std::max_element(y.values.begin(), y.values.end());
  EXPECT_EQ(*peak, 1.0);
  EXPECT_EQ(y.wavelength_nm(static_cast<std::size_t>(peak - y.values.begin())), 555);
}

TEST(CieTables, EachIlluminantGoesByItsName) {
  const auto cie = read_cie_tables(data_folder() / "reference").value();
  EXPECT_EQ(&cie.illuminant(Illuminant::a), &cie.illuminant_a);
  EXPECT_EQ(&cie.illuminant(Illuminant::c), &cie.illuminant_c);
  EXPECT_EQ(&cie.illuminant(Illuminant::d50), &cie.illuminant_d50);
  EXPECT_EQ(&cie.illuminant(Illuminant::d65), &cie.illuminant_d65);
}

/// A copy of the two tables that a test may spoil.
class SpoiltCieTables : public testing::Test {
 protected:
  void SetUp() override {
    std::string name = (fs::temp_directory_path() / "cie_tables_XXXXXX").string();
    ASSERT_NE(::mkdtemp(name.data()), nullptr);
    folder_ = name;
    for (const char* file : {"cie_1931_observer.csv", "cie_illuminants.csv"})
      fs::copy(data_folder() / "reference" / file, folder_ / file);
  }
  void TearDown() override { fs::remove_all(folder_); }

  void replace(const char* file, std::string_view old_text, std::string_view new_text) {
    auto text = read_file(folder_ / file, "a table", ErrorCode::unreadable_table, 1 << 20).value();
    const auto place = text.find(old_text);
    ASSERT_NE(place, std::string::npos) << old_text;
    text.replace(place, old_text.size(), new_text);
    ASSERT_TRUE(write_file_atomically(folder_ / file, text));
  }

  fs::path folder_;
};

TEST_F(SpoiltCieTables, AreReadWhenWhole) { EXPECT_TRUE(read_cie_tables(folder_)); }

TEST_F(SpoiltCieTables, AMissingFileIsNamed) {
  fs::remove(folder_ / "cie_illuminants.csv");
  EXPECT_THAT(read_cie_tables(folder_),
              FailsWith(ErrorCode::unreadable_table, HasSubstr("cie_illuminants.csv")));
}

TEST_F(SpoiltCieTables, AMissingColumnIsNamed) {
  replace("cie_illuminants.csv", ",d50,", ",d55,");
  EXPECT_THAT(read_cie_tables(folder_), FailsWith(ErrorCode::unreadable_table, HasSubstr("no column 'd50'")));
}

TEST_F(SpoiltCieTables, AMissingRowIsNoticed) {
  replace("cie_1931_observer.csv", "\n780,", "\n# 780,");
  EXPECT_THAT(read_cie_tables(folder_), FailsWith(ErrorCode::unreadable_table, HasSubstr("80 rows")));
}

TEST_F(SpoiltCieTables, AWrongWavelengthIsNamed) {
  replace("cie_1931_observer.csv", "\n400,", "\n401,");
  EXPECT_THAT(
      read_cie_tables(folder_),
      FailsWith(ErrorCode::unreadable_table, AllOf(HasSubstr("401 nm found"), HasSubstr("400 nm belongs"))));
}

TEST_F(SpoiltCieTables, ACellThatIsNoNumberIsNamed) {
  replace("cie_illuminants.csv", "\n560,1.0,", "\n560,one,");
  EXPECT_THAT(read_cie_tables(folder_),
              FailsWith(ErrorCode::unreadable_table, HasSubstr("column 'a': 'one'")));
}

}  // namespace
}  // namespace colorlib
