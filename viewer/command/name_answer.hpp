#pragma once
/// What is said about one colour, as JSON and as lines for a person.

#include <colorlib/naming/color_text.hpp>
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <ostream>
#include <string>
#include <vector>
#include <viewer/command/naming_options.hpp>

namespace tintfall {

/// One colour and what is asked about it.
struct NameQuestion {
  std::string typed;
  colorlib::TypedColor color;
  std::string white = "D50";         ///< the one that typed CIELAB refers to
  colorlib::Vector3 lab_expanded{};  ///< k = 2 of each coordinate; 0: exact
  std::vector<std::string> terms;    ///< of "is it TERM?", as typed
};

/// The answer to one of the terms; by a scale when one of its entries bears the name.
struct NamedAnswer {
  std::string asked;
  std::string scale;  ///< empty: a word of the program's own tables
  colorlib::TermAnswer answer;
};

struct NameAnswer {
  colorlib::ColorDescription words;
  std::vector<colorlib::NameShare> within;  ///< names within the tolerance
  std::vector<NamedAnswer> answers;
  std::vector<colorlib::ScaleAnswer> scales;
};

/// Errors: bad_call when a term is known neither to the tables nor to a scale.
colorlib::Result<NameAnswer> answer_to(const NameQuestion& question, const NamingTools& tools);

/// One object; figures are rounded to what they are worth, names are in the reader's wording.
nlohmann::ordered_json json_from(const NameQuestion& question, const NameAnswer& answer,
                                 const NamingTools& tools);
/// The answers of the user's scales alone: an array, for records of other commands.
nlohmann::ordered_json json_from(const std::vector<colorlib::ScaleAnswer>& scales);
/// A few lines of text; with a swatch when `color` is true.
void print(const NameQuestion& question, const NameAnswer& answer, const NamingTools& tools, bool color,
           std::ostream& out);

}  // namespace tintfall
