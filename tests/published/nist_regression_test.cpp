/// Certified nonlinear regression: the ten sets of [StRD2003] that the kinetics' least squares must meet.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <colorlib/base/least_squares.hpp>
#include <colorlib/base/reference_table.hpp>
#include <cstdio>
#include <functional>
#include <map>

namespace colorlib {
namespace {

using Values = std::vector<double>;
using Formula = std::function<double(const Values& b, double x)>;

/// The models as they stand in the parameter table's column `model`.
const std::map<std::string, Formula> formulas = {
    {"Misra1a", [](const Values& b, double x) { return b[0] * (1 - std::exp(-b[1] * x)); }},
    {"Misra1b", [](const Values& b, double x) { return b[0] * (1 - std::pow(1 + b[1] * x / 2, -2)); }},
    {"BoxBOD", [](const Values& b, double x) { return b[0] * (1 - std::exp(-b[1] * x)); }},
    {"Chwirut2", [](const Values& b, double x) { return std::exp(-b[0] * x) / (b[1] + b[2] * x); }},
    {"Lanczos3",
     [](const Values& b, double x) {
       return b[0] * std::exp(-b[1] * x) + b[2] * std::exp(-b[3] * x) + b[4] * std::exp(-b[5] * x);
     }},
    {"MGH17", [](const Values& b,
                 double x) { return b[0] + b[1] * std::exp(-x * b[3]) + b[2] * std::exp(-x * b[4]); }},
    {"MGH09",
     [](const Values& b, double x) { return b[0] * (x * x + x * b[1]) / (x * x + x * b[2] + b[3]); }},
    {"Rat42", [](const Values& b, double x) { return b[0] / (1 + std::exp(b[1] - b[2] * x)); }},
    {"Rat43",
     [](const Values& b, double x) { return b[0] / std::pow(1 + std::exp(b[1] - b[2] * x), 1 / b[3]); }},
    {"Eckerle4",
     [](const Values& b, double x) { return b[0] / b[1] * std::exp(-0.5 * std::pow((x - b[2]) / b[1], 2)); }},
};

struct CertifiedSet {
  Values start[2], certified, deviation, x, y;
  double residual_sum_of_squares = 0, residual_sd = 0;
};

Result<ReferenceTable> table(const char* name) {
  return ReferenceTable::read(std::string(TINTFALL_SOURCE_FOLDER) + "/tests/published/" + name,
                              "certified data");
}

std::map<std::string, CertifiedSet> certified_sets() {
  std::map<std::string, CertifiedSet> sets;
  const auto parameters = table("nist_strd_parameters.csv"), data = table("nist_strd_data.csv");
  EXPECT_TRUE(parameters && data);
  if (!parameters || !data) return sets;
  for (std::size_t r = 0; r < parameters->rows(); ++r) {
    CertifiedSet& set = sets[parameters->text(r, *parameters->column("dataset"))];
    const auto number = [&](const char* column) {
      return *parameters->number(r, *parameters->column(column));
    };
    set.start[0].push_back(number("start1"));
    set.start[1].push_back(number("start2"));
    set.certified.push_back(number("certified"));
    set.deviation.push_back(number("standard_deviation"));
    set.residual_sum_of_squares = number("residual_sum_of_squares");
    set.residual_sd = number("residual_standard_deviation");
  }
  for (std::size_t r = 0; r < data->rows(); ++r) {
    CertifiedSet& set = sets[data->text(r, *data->column("dataset"))];
    set.x.push_back(*data->number(r, *data->column("x")));
    set.y.push_back(*data->number(r, *data->column("y")));
  }
  return sets;
}

/// -log10 of the relative error; 11 is as many as were certified.
double digits(double found, double certified) {
  const double error = std::abs(found - certified) / std::abs(certified);
  return error == 0 ? 11 : std::min(11.0, -std::log10(error));
}

TEST(CertifiedRegression, ParametersAndStandardErrorsToSixDigitsFromBothStarts) {
  const auto sets = certified_sets();
  ASSERT_EQ(sets.size(), 10u);
  double worst_parameter = 11, worst_error = 11;
  for (const auto& [name, set] : sets) {
    for (int which = 0; which < 2; ++which) {
      const Formula& formula = formulas.at(name);
      LeastSquaresProblem problem;
      problem.residual_count = set.x.size();
      problem.start = set.start[which];
      problem.residuals = [&](const Values& b, Values& r) {
        for (std::size_t i = 0; i < r.size(); ++i) r[i] = formula(b, set.x[i]) - set.y[i];
      };
      const auto fit = least_squares(problem);
      ASSERT_TRUE(fit);
      double parameter = 11, error = 11;
      for (std::size_t j = 0; j < set.certified.size(); ++j) {
        parameter = std::min(parameter, digits(fit->parameters[j], set.certified[j]));
        error = std::min(error, digits(fit->standard_errors[j], set.deviation[j]));
      }
      const double sum = digits(fit->residual_sum_of_squares, set.residual_sum_of_squares);
      const double sd = digits(fit->residual_sd, set.residual_sd);
      std::printf(
          "%-9s start %d: %3d steps, %4.1f digits in the parameters, %4.1f in the standard errors, %4.1f in "
          "the residual sd; %s\n",
          name.c_str(), which + 1, fit->iterations, parameter, error, sd,
          std::string(stop_sentence(fit->stop)).c_str());
      EXPECT_TRUE(fit->converged());
      EXPECT_GE(parameter, 6) << name;
      EXPECT_GE(error, 6) << name;
      EXPECT_GE(std::min(sum, sd), 6) << name;
      worst_parameter = std::min(worst_parameter, parameter);
      worst_error = std::min(worst_error, error);
    }
  }
  std::printf("worst: %.1f digits in the parameters, %.1f in the standard errors\n", worst_parameter,
              worst_error);
}

}  // namespace
}  // namespace colorlib
