#include <gmock/gmock.h>

#include <colorlib/exports/round_page.hpp>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

using testing::EndsWith;
using testing::Gt;
using testing::StartsWith;

RoundPage page_of(std::size_t collectors, std::size_t items) {
  RoundPage page;
  page.title = std::string("A round");
  page.bias_from = std::string("the references");
  for (std::size_t i = 0; i < collectors; ++i) {
    const double size = 0.1 * static_cast<double>(i);
    page.biases.push_back(
        {fmt::format("C{}", i), "lighter", "", {size, -size, 2 * size}, {0.3, 0.3, i % 2 == 0 ? 0.3 : 0}});
  }
  for (std::size_t i = 0; i < items; ++i) {
    RoundPageItem item{fmt::format("item {}", i), "reference", {50, 10, 20}, {}};
    for (std::size_t k = 0; k < collectors; ++k)
      item.means.push_back({fmt::format("C{}", k), "same", {51, 10, 20}, 1});
    page.items.push_back(std::move(item));
  }
  return page;
}

std::size_t pages_in(const std::string& pdf) {
  std::size_t count = 0;
  for (std::size_t at = pdf.find("/Type /Page "); at != std::string::npos;
       at = pdf.find("/Type /Page ", at + 1))
    ++count;
  return count;
}

TEST(RoundPage, IsOnePdfPageForASmallRoundAndMoreForALargeOne) {
  const auto small = round_page_pdf(page_of(4, 3)), large = round_page_pdf(page_of(12, 30));
  ASSERT_TRUE(small && large);
  EXPECT_THAT(*small, StartsWith("%PDF-"));
  EXPECT_THAT(*small, EndsWith("%%EOF\n"));
  EXPECT_EQ(pages_in(*small), 1u);
  EXPECT_THAT(pages_in(*large), Gt(2u));
}

TEST(RoundPage, IsTheSameForTheSameRound) {
  EXPECT_EQ(*round_page_pdf(page_of(5, 2)), *round_page_pdf(page_of(5, 2)));
}

TEST(RoundPage, StandsOddRounds) {
  EXPECT_TRUE(round_page_pdf({}));
  EXPECT_TRUE(round_page_pdf(page_of(0, 2)));
  EXPECT_TRUE(round_page_pdf(page_of(40, 0)));
  RoundPage wide = page_of(2, 1);
  wide.biases[0].bias = {400, -300, 1e6};
  wide.biases[0].name = std::string(500, 'W');
  wide.items[0].name = std::string("\xff\xfe not UTF-8 ") + std::string(3000, 'n');
  EXPECT_TRUE(round_page_pdf(wide));
}

}  // namespace
}  // namespace colorlib
