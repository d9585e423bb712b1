#pragma once
/// Rounds whose truth is known: collectors with biases of their own, items, repeats.

#include <colorlib/comparison/round_table.hpp>
#include <cstdint>
#include <string>
#include <tests/colorlib/comparison/normal_colors.hpp>
#include <vector>

namespace colorlib {

struct SimulatedSetup {
  std::size_t collectors = 8, items = 5, repeats = 3;
  double bias_sd = 0.7;  ///< between collectors, every coordinate; common to all items of one collector
  double interaction_sd = 0.3;  ///< of a collector's bias from item to item
  double repeat_sd = 0.3;
};

struct SimulatedRound {
  std::vector<Lab> truths;      ///< of the items
  std::vector<Vector3> biases;  ///< of the collectors
  RoundTable table;
  /// Of one reading: bias, interaction and repeat together; what an honest collector states.
  Matrix3 covariance{};
};

inline SimulatedRound simulated_round(const SimulatedSetup& setup, NormalColors& random) {
  SimulatedRound round;
  for (std::size_t i = 0; i < setup.items; ++i) round.truths.push_back(random.any_color());
  const double variance = setup.bias_sd * setup.bias_sd + setup.interaction_sd * setup.interaction_sd +
                          setup.repeat_sd * setup.repeat_sd;
  round.covariance = Matrix3::diagonal(variance, variance, variance);
  const auto scattered = [&](const Lab& center, double sd) {
    return Lab{center.l + sd * random.normal(), center.a + sd * random.normal(),
               center.b + sd * random.normal()};
  };
  std::vector<ComparedReading> readings;
  for (std::size_t j = 0; j < setup.collectors; ++j) {
    const Lab bias = scattered({}, setup.bias_sd);
    round.biases.push_back(vector_from(bias));
    for (std::size_t i = 0; i < setup.items; ++i) {
      const Lab& truth = round.truths[i];
      const Lab center =
          scattered({truth.l + bias.l, truth.a + bias.a, truth.b + bias.b}, setup.interaction_sd);
      for (std::size_t n = 0; n < setup.repeats; ++n) {
        ComparedReading reading;
        reading.item = "item " + std::to_string(i);
        reading.collector = "collector " + std::to_string(j);
        reading.label = reading.item + " " + reading.collector + " " + std::to_string(n);
        reading.kind = RegionKind::deposit;
        reading.color = {scattered(center, setup.repeat_sd), round.covariance};
        readings.push_back(std::move(reading));
      }
    }
  }
  round.table = round_table_from(std::move(readings));
  return round;
}

}  // namespace colorlib
