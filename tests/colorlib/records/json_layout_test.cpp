#include <gmock/gmock.h>

#include <clocale>
#include <colorlib/records/json_layout.hpp>
#include <cstdlib>
#include <filesystem>
#include <limits>
#include <nlohmann/json.hpp>

namespace colorlib {
namespace {

using testing::Eq;

/// The C library's numbers with a decimal comma while this lives, as in a window on many desktops.
class DecimalComma {
 public:
  DecimalComma() {
    const auto folder = std::filesystem::path(testing::TempDir()) / "tintfall_locales";
    std::filesystem::create_directories(folder);
    const std::string call =
        "localedef -i de_DE -f UTF-8 '" + (folder / "de_DE.UTF-8").string() + "' >/dev/null 2>&1";
    if (std::system(call.c_str()) == -1) return;
    ::setenv("LOCPATH", folder.c_str(), 1);
    reached_ = std::setlocale(LC_NUMERIC, "de_DE.UTF-8") != nullptr;
  }
  ~DecimalComma() {
    std::setlocale(LC_NUMERIC, "C");
    ::unsetenv("LOCPATH");
  }
  DecimalComma(const DecimalComma&) = delete;
  DecimalComma& operator=(const DecimalComma&) = delete;

  bool reached() const { return reached_; }

 private:
  bool reached_ = false;
};

TEST(JsonLayout, RoundsToTheShortestNumberThatPrintsSo) {
  EXPECT_THAT(rounded(42.18499, 3).dump(), Eq("42.185"));
  EXPECT_THAT(rounded(-0.0001, 3).dump(), Eq("0.0"));
  EXPECT_THAT(rounded_significant(0.000123456, 3).dump(), Eq("0.000123"));
  EXPECT_TRUE(rounded(std::numeric_limits<double>::infinity(), 3).is_null());
}

TEST(JsonLayout, NumbersKeepTheirFractionOnADesktopWithDecimalCommas) {
  const DecimalComma desktop;
  if (!desktop.reached()) GTEST_SKIP() << "no locale with a decimal comma can be made here";
  ASSERT_THAT(std::localeconv()->decimal_point, testing::StrEq(","));
  EXPECT_THAT(rounded(42.185, 3).dump(), Eq("42.185"));
  EXPECT_THAT(rounded_significant(0.0123456, 3).dump(), Eq("0.0123"));
  EXPECT_THAT(json_text({{"l", rounded(0.5, 1)}}, 2), Eq("{\"l\": 0.5}"));
}

}  // namespace
}  // namespace colorlib
