#include <cmath>
#include <colorlib/comparison/scores.hpp>
#include <limits>

namespace colorlib {
namespace {

double ratio(double difference, double uncertainty) {
  if (difference == 0) return 0;
  if (uncertainty > 0) return difference / uncertainty;
  return std::copysign(std::numeric_limits<double>::infinity(), difference);
}

}  // namespace

double en_score(double x, double x_expanded, double assigned, double assigned_expanded) {
  return ratio(x - assigned, std::hypot(x_expanded, assigned_expanded));
}

double zeta_score(double x, double x_standard, double assigned, double assigned_standard) {
  return ratio(x - assigned, std::hypot(x_standard, assigned_standard));
}

double z_score(double x, double assigned, double sigma_pt) { return ratio(x - assigned, sigma_pt); }

double z_prime_score(double x, double assigned, double sigma_pt, double assigned_standard) {
  return ratio(x - assigned, std::hypot(sigma_pt, assigned_standard));
}

ScoreGrade grade_from(double score) {
  if (std::abs(score) <= 2) return ScoreGrade::satisfactory;
  return std::abs(score) < 3 ? ScoreGrade::questionable : ScoreGrade::unsatisfactory;
}

std::string_view grade_word(ScoreGrade grade) {
  switch (grade) {
    case ScoreGrade::satisfactory:
      return "satisfactory";
    case ScoreGrade::questionable:
      return "questionable";
    case ScoreGrade::unsatisfactory:
      break;
  }
  return "unsatisfactory";
}

}  // namespace colorlib
