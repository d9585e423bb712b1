/// `transfer_table [SHEETS [FIRST_SEED [BETWEEN]]]`: the transfer's figures on tuning scenes, for choosing
/// constants.
#include <cstdio>
#include <cstdlib>

#include "tests/transfer/transfer_run.hpp"

int main(int count, char** arguments) {
  using namespace colorlib;
  transfer::RunSettings settings;
  settings.sheets = count > 1 ? std::atoi(arguments[1]) : 4;
  settings.first_seed = count > 2 ? static_cast<std::uint64_t>(std::atoi(arguments[2])) : 1;
  if (count > 3) settings.options.between_sheets = std::atof(arguments[3]);
  if (count > 4) settings.options.field_order = std::atoi(arguments[4]);
  std::fputs(transfer::table_head().c_str(), stdout);
  for (const auto condition : {scenes::Condition::daylight_linear, scenes::Condition::daylight_phone,
                               scenes::Condition::lamp_phone, scenes::Condition::two_lights_phone}) {
    settings.condition = condition;
    for (const bool change : {true, false}) {
      settings.change_places = change;
      const auto row = transfer::run(settings);
      std::fputs(transfer::table_row(row).c_str(), stdout);
      for (const auto& sentence : row.refusals) std::printf("  refused: %s\n", sentence.c_str());
      std::printf("  bias of L*:");
      for (const double bias : row.sheet_l_bias) std::printf(" %.2f", bias);
      std::printf("\n");
      std::fflush(stdout);
    }
  }
}
