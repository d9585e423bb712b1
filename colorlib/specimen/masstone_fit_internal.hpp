#pragma once
/// The layer model fitted to the shares of one film over one or two grounds.

#include <Eigen/Dense>
#include <colorlib/specimen/masstone.hpp>

namespace colorlib {

/// Reflectances of films and grounds in three narrow channels.
struct FilmData {
  std::vector<std::vector<Vector3>> shares;  ///< [film][share]
  std::vector<Vector3> ground;
  std::vector<Vector3> noise;  ///< of the cube root, a film
};

struct FilmFit {
  Eigen::VectorXd parameters;
  Eigen::MatrixXd covariance;
  double misfit = 0;  ///< rms of the weighted residuals of the shares: near 1 or below when the model holds
  bool converged = false;
};

/// Lab of the masstone, contrast ratio, ln S X at 550 nm.
using FilmAnswer = Eigen::Matrix<double, 5, 1>;

FilmFit fit_films(const FilmData& data, const MasstoneConstants& constants,
                  const Eigen::VectorXd* start = nullptr);
FilmAnswer answer_of(const Eigen::VectorXd& parameters, std::size_t films);
/// d(answer)/d(parameters), by central differences.
Eigen::MatrixXd answer_slopes(const Eigen::VectorXd& parameters, std::size_t films);

}  // namespace colorlib
