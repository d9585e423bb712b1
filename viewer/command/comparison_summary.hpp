#pragma once
/// A comparison as lines for a person.

#include <colorlib/comparison/comparison.hpp>
#include <colorlib/comparison/comparison_json.hpp>
#include <map>
#include <ostream>
#include <string>

namespace tintfall {

struct ComparisonWords {
  colorlib::ComparisonTitle title;
  std::map<std::string, std::string> item_titles;      ///< by item id; may be empty
  std::map<std::string, std::string> collector_names;  ///< by collector id; may be empty
  bool verbose = false;                                ///< every pair, and the figures behind each statement
};

void print_comparison(const colorlib::Comparison& comparison, const ComparisonWords& words,
                      std::ostream& out);

}  // namespace tintfall
