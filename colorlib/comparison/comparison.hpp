#pragma once
/// All that a set of readings says about itself, as one value.

#include <array>
#include <colorlib/base/progress.hpp>
#include <colorlib/base/result.hpp>
#include <colorlib/comparison/agreement.hpp>
#include <colorlib/comparison/bias.hpp>
#include <colorlib/comparison/compared_reading.hpp>
#include <colorlib/comparison/consensus.hpp>
#include <colorlib/comparison/ellipsoids.hpp>
#include <colorlib/comparison/groups.hpp>
#include <colorlib/comparison/precision.hpp>
#include <colorlib/comparison/round_table.hpp>
#include <optional>
#include <string>
#include <vector>

namespace colorlib {

/// What is compared in pairs, and grouped.
enum class ComparedUnit { reading, collector_mean };

struct ComparisonOptions {
  AgreementRule rule;
  ComparedUnit unit = ComparedUnit::reading;
  bool all_pairs = false;  ///< across items too; always so where no item was read twice
  double group_risk = default_group_risk;
};

/// The largest tolerance that can be meant, dE00.
inline constexpr double most_tolerance_de00 = 50;
/// At most this many pairs are compared.
inline constexpr std::size_t most_pairs = 200'000;

/// A reading, or a collector's mean of one item.
struct ComparedThing {
  std::string label;
  std::size_t item = 0;
  UncertainColor color;
};

struct ThingPair {
  std::size_t a = 0, b = 0;  ///< places in Comparison::things
  Agreement agreement;
};

/// Repeatability and reproducibility of one item.
struct ItemPrecision {
  std::size_t item = 0;
  std::vector<std::size_t> participants;  ///< whose cells they are
  std::array<Precision, 3> of_lab;
};

struct ItemEllipsoid {
  std::size_t item = 0;
  bool of_collectors = false;  ///< of collectors' means; else of single readings
  LabEllipsoid ellipsoid;
};

struct Comparison {
  ComparisonOptions options;
  RoundTable table;
  std::vector<ComparedThing> things;
  std::vector<ThingPair> pairs;
  std::vector<ItemConsensus> consensus;  ///< one an item
  std::vector<ItemPrecision> precision;  ///< items with two named collectors and a repeat
  std::vector<CollectorBias> biases;
  std::vector<std::vector<std::string>> differences;  ///< beside each of `biases`
  std::vector<ItemEllipsoid> ellipsoids;              ///< items with four values or more
  std::vector<ColorGroup> groups;                     ///< of `things`
  std::vector<std::string> remarks;                   ///< one sentence each, for every reader
  std::vector<LeftOut> left_out;

  /// The item's name, "(item not said)" when empty.
  std::string item_name(std::size_t item) const;
};

/// Errors: untrustworthy with fewer than two readings; bad_call for a tolerance outside (0, 50], a reference
/// of an item that nobody read, two references of one item, too many pairs; cancelled.
Result<Comparison> compare(ChosenReadings chosen, const std::vector<ReferenceColor>& references,
                           const ComparisonOptions& options, Progress& progress);

}  // namespace colorlib
