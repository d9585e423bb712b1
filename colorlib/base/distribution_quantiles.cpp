#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/fisher_f.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <colorlib/base/distribution_quantiles.hpp>

namespace colorlib {

double normal_quantile(double probability) {
  return boost::math::quantile(boost::math::normal_distribution<double>(), probability);
}

double student_quantile(double probability, double degrees_of_freedom) {
  if (std::isinf(degrees_of_freedom)) return normal_quantile(probability);
  return boost::math::quantile(boost::math::students_t_distribution<double>(degrees_of_freedom), probability);
}

double chi_squared_quantile(double probability, double degrees_of_freedom) {
  return boost::math::quantile(boost::math::chi_squared_distribution<double>(degrees_of_freedom),
                               probability);
}

double fisher_quantile(double probability, double numerator_dof, double denominator_dof) {
  return boost::math::quantile(boost::math::fisher_f_distribution<double>(numerator_dof, denominator_dof),
                               probability);
}

double chi_squared_upper_tail(double x, double degrees_of_freedom) {
  if (std::isinf(x)) return 0;
  return boost::math::cdf(
      boost::math::complement(boost::math::chi_squared_distribution<double>(degrees_of_freedom), x));
}

}  // namespace colorlib
