#include <gtest/gtest.h>
#include <sqlite3.h>

#include <algorithm>
#include <colorlib/records/color_cells_internal.hpp>
#include <cstdio>
#include <limits>
#include <random>
#include <string>

namespace colorlib {
namespace {

/// The cell of a colour as the database works it out.
class Database {
 public:
  Database() {
    sqlite3_open(":memory:", &database_);
    const std::string query = "SELECT " + color_cell_sql() + " FROM (SELECT ? AS l, ? AS a, ? AS b)";
    EXPECT_EQ(sqlite3_prepare_v2(database_, query.c_str(), -1, &statement_, nullptr), SQLITE_OK)
        << sqlite3_errmsg(database_);
  }
  ~Database() {
    sqlite3_finalize(statement_);
    sqlite3_close(database_);
  }
  long long cell_of(const Vector3& lab) {
    sqlite3_reset(statement_);
    for (int i = 0; i < 3; ++i) sqlite3_bind_double(statement_, i + 1, lab[static_cast<std::size_t>(i)]);
    EXPECT_EQ(sqlite3_step(statement_), SQLITE_ROW);
    return sqlite3_column_int64(statement_, 0);
  }

 private:
  sqlite3* database_ = nullptr;
  sqlite3_stmt* statement_ = nullptr;
};

bool holds(const ColorCells& cells, long long cell) {
  return std::any_of(cells.first.begin(), cells.first.end(),
                     [&](long long first) { return first <= cell && cell <= first + cells.more; });
}

// Colours in boxes of every size, in and out of range and on the edges of cells.
TEST(ColorCells, ABoxHoldsTheCellOfEveryColorInIt) {
  Database database;
  constexpr unsigned seed = 20261126, trials = 20'000;
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> around(-150, 150), size(0, 12), share(0, 1);
  std::bernoulli_distribution on_edge(0.2);
  for (unsigned trial = 0; trial < trials; ++trial) {
    Vector3 low, high, lab;
    for (std::size_t i = 0; i < 3; ++i) {
      low[i] = on_edge(random) ? std::floor(around(random)) : around(random);
      high[i] = low[i] + (on_edge(random) ? 0 : size(random));
      lab[i] = std::min(high[i], low[i] + share(random) * (high[i] - low[i]));
    }
    for (const Vector3& inside : {low, high, lab})
      ASSERT_TRUE(holds(color_cells(low, high), database.cell_of(inside)))
          << "trial " << trial << ", seed " << seed;
  }
  std::printf("%u boxes, seed %u\n", trials, seed);
}

TEST(ColorCells, AreFewForASmallBox) {
  const ColorCells cells = color_cells({41.5, 19, 29}, {42.5, 19.5, 30.5});
  EXPECT_EQ(cells.first.size(), 2u);  // L* 41 to 42 and 42 to 43
  EXPECT_EQ(cells.more, 1);
  Database database;
  EXPECT_FALSE(holds(cells, database.cell_of({43.5, 19, 29})));
  EXPECT_FALSE(holds(cells, database.cell_of({42, 19, 28.9})));
}

TEST(ColorCells, TakeColorsFarOutsideToTheEdge) {
  Database database;
  const double far = std::numeric_limits<double>::max();
  EXPECT_EQ(database.cell_of({-far, -far, -far}), 0);
  EXPECT_EQ(database.cell_of({far, far, far}), 128 * 256 * 256 - 1);
  EXPECT_TRUE(holds(color_cells({500, 0, 0}, {600, 1, 1}), database.cell_of({far, 0.5, 0.5})));
}

}  // namespace
}  // namespace colorlib
