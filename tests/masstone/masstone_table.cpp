/// Prints the table of masstones: masstone_table CONDITION [tuning|held-out] [scenes] [first seed] [--list]

#include <fmt/format.h>

#include <cstdlib>
#include <cstring>

#include "tests/masstone/masstone_run.hpp"

int main(int count, char** words) {
  using namespace colorlib;
  auto condition = scenes::Condition::thin_two_backings;
  auto pool = scenes::Pool::tuning;
  int scenes_wanted = 40, position = 0;
  std::uint64_t first_seed = 1;
  bool list = false;
  for (int i = 1; i < count; ++i) {
    if (std::strcmp(words[i], "--list") == 0) {
      list = true;
    } else if (const auto named = scenes::condition_from(words[i])) {
      condition = *named;
    } else if (std::strcmp(words[i], "held-out") == 0 || std::strcmp(words[i], "tuning") == 0) {
      pool = words[i][0] == 'h' ? scenes::Pool::held_out : scenes::Pool::tuning;
    } else if (position++ == 0) {
      scenes_wanted = std::atoi(words[i]);
    } else {
      first_seed = std::strtoull(words[i], nullptr, 10);
    }
  }
  const auto run = accuracy::run_films(condition, pool, first_seed, scenes_wanted);
  if (list)
    for (const auto& o : run.outcomes)
      fmt::print(
          "{:>4} {:<7} {:<16} CR {:.4f} said {:.4f} ± {:.4f}  {} dE00 {:5.2f} U {:5.2f} {} seen {:5.2f}  err "
          "{:+.1f} {:+.1f} "
          "{:+.1f}  {}\n",
          o.seed, o.id, o.method, o.true_contrast, o.contrast, o.contrast_expanded,
          o.answered ? "answered"
          : o.opaque ? "opaque  "
                     : "refused ",
          o.de00, o.de00_expanded, o.answered && o.de00 > o.de00_expanded ? "*" : " ", o.seen_de00,
          o.error[0], o.error[1], o.error[2], o.refusal);
  fmt::print("{}: {} scenes, {} refused\n{}", run.condition, run.scenes, run.refused_scenes,
             accuracy::film_table_head());
  for (const auto& [name, least, most] : {std::tuple{"contrast ratio 50 % and more", 0.5, 1.0},
                                          {"50 to 70 %", 0.5, 0.7},
                                          {"70 to 90 %", 0.7, 0.9},
                                          {"90 % and more", 0.9, 1.0},
                                          {"45 to 50 %", 0.45, 0.5},
                                          {"below 45 %", 0.0, 0.45}})
    fmt::print("{}", accuracy::film_table_row(name, accuracy::figures_of(run, least, most)));
  return 0;
}
