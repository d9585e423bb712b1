#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/chromatic_adaptation.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/specimen/narrow_responses.hpp>

namespace colorlib {

Vector3 narrow_responses(const Xyz& xyz) {
  const Matrix3& cones = cone_response_matrix(AdaptationMethod::bradford);
  const Vector3 white = cones * vector_from(white_d50), own = cones * vector_from(xyz);
  return {own[0] / white[0], own[1] / white[1], own[2] / white[2]};
}

Vector3 narrow_roots(const Xyz& xyz) {
  Vector3 roots = narrow_responses(xyz);
  for (double& value : roots) value = std::cbrt(std::max(value, 1e-4));
  return roots;
}

Xyz xyz_from_narrow(const Vector3& responses) {
  const Matrix3& cones = cone_response_matrix(AdaptationMethod::bradford);
  const Vector3 white = cones * vector_from(white_d50);
  return xyz_from(inverse(cones) *
                  Vector3{responses[0] * white[0], responses[1] * white[1], responses[2] * white[2]});
}

}  // namespace colorlib
