/// Prints ours beside the general methods: baselines [tuning|held-out] [scenes] [first seed] [condition ...]

#include <fmt/format.h>

#include <cstdlib>
#include <cstring>

#include "tests/accuracy/baseline_table.hpp"

int main(int count, char** words) {
  using namespace colorlib;
  accuracy::RunSettings settings;
  if (count > 1 && std::strcmp(words[1], "held-out") == 0) settings.pool = scenes::Pool::held_out;
  if (count > 2) settings.scenes = std::atoi(words[2]);
  if (count > 3) settings.first_seed = std::strtoull(words[3], nullptr, 10);
  fmt::print("{}", accuracy::comparison_head());
  for (int i = 4; i < count; ++i)
    if (const auto condition = scenes::condition_from(words[i])) {
      fmt::print("{}", accuracy::comparison_row(accuracy::compare_with_baselines(*condition, settings)));
      std::fflush(stdout);
    }
  return 0;
}
