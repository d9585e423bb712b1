#pragma once
/// Scores of a result x against an assigned value X, one coordinate at a time [ISO13528].

#include <string_view>

namespace colorlib {

/// E_n = (x - X) / sqrt(U_x^2 + U_X^2) with expanded uncertainties, k = 2; |E_n| <= 1 is satisfactory.
/// In the unit of nothing; infinite when both uncertainties are 0 and x != X, 0 when x == X.
double en_score(double x, double x_expanded, double assigned, double assigned_expanded);
/// zeta = (x - X) / sqrt(u_x^2 + u_X^2) with standard uncertainties.
double zeta_score(double x, double x_standard, double assigned, double assigned_standard);
/// z = (x - X) / sigma_pt with the standard deviation for proficiency assessment, > 0.
double z_score(double x, double assigned, double sigma_pt);
/// z' = (x - X) / sqrt(sigma_pt^2 + u^2(x_pt)).
double z_prime_score(double x, double assigned, double sigma_pt, double assigned_standard);

/// How z, z' and zeta are read: |score| <= 2 satisfactory, below 3 questionable, from 3 unsatisfactory.
enum class ScoreGrade { satisfactory, questionable, unsatisfactory };
ScoreGrade grade_from(double score);
std::string_view grade_word(ScoreGrade grade);

}  // namespace colorlib
