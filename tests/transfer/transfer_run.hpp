#pragma once
/// Carries reference values over in simulated photographs and holds them, and readings made with them,
/// against the truth.

#include <colorlib/specimen/sheet_transfer.hpp>
#include <string>
#include <vector>

#include "tests/scenes/scene.hpp"
#include "tests/support/quantile.hpp"

namespace colorlib::transfer {

struct RunSettings {
  scenes::Condition condition = scenes::Condition::daylight_phone;
  scenes::Pool pool = scenes::Pool::tuning;
  std::uint64_t first_seed = 1;
  int sheets = 4;             ///< printed sheets, each with its own press, paper, light and camera
  int photos = 4;             ///< of each beside the known sheet
  bool change_places = true;  ///< the printed sheet below, above, ... the known one
  int reading_photos = 2;  ///< of specimens on each printed sheet, read with its new values, in other light
  double print_random_sd = 4.2;  ///< of each Lab coordinate of a patch: about 5 dE00 in the median
  TransferOptions options;
};

struct Row {
  std::string name;
  int sheets = 0, refused = 0, readings = 0;
  std::vector<double> print_de00;  ///< of each patch: true colour against nominal
  std::vector<double> patch_de00, patch_expanded;
  std::vector<std::array<double, 3>>
      patch_over_u;                  ///< error of each coordinate over its standard uncertainty
  std::vector<double> sheet_l_bias;  ///< mean error of L* of each sheet
  std::vector<double> reading_de00, reading_expanded;
  std::vector<std::string> refusals;
};

Row run(const RunSettings& settings);

std::string table_head();
std::string table_row(const Row& row);
double covered(const std::vector<double>& error, const std::vector<double>& expanded);

}  // namespace colorlib::transfer
