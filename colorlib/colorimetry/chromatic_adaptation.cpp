#include <colorlib/colorimetry/chromatic_adaptation.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>

namespace colorlib {
namespace {

// XYZ -> sharpened cone responses. [ICC1, annex E]
constexpr Matrix3 bradford{{0.8951, 0.2664, -0.1614,  //
                            -0.7502, 1.7135, 0.0367,  //
                            0.0389, -0.0685, 1.0296}};
// [Li2017]
constexpr Matrix3 cat16{{0.401288, 0.650173, -0.051461,  //
                         -0.250268, 1.204414, 0.045854,  //
                         -0.002079, 0.048952, 0.953127}};
constexpr Matrix3 bradford_inverse = inverse(bradford);
constexpr Matrix3 cat16_inverse = inverse(cat16);

}  // namespace

const Matrix3& cone_response_matrix(AdaptationMethod method) {
  return method == AdaptationMethod::bradford ? bradford : cat16;
}

Matrix3 adaptation_matrix(const White& from, const White& to, AdaptationMethod method) {
  if (from == to) return Matrix3::identity();
  const bool use_bradford = method == AdaptationMethod::bradford;
  const Matrix3& to_cones = cone_response_matrix(method);
  const Matrix3& from_cones = use_bradford ? bradford_inverse : cat16_inverse;
  const Vector3 source = to_cones * vector_from(from);
  const Vector3 target = to_cones * vector_from(to);
  return from_cones * Matrix3::diagonal(target[0] / source[0], target[1] / source[1], target[2] / source[2]) *
         to_cones;
}

Xyz adapted(const Xyz& xyz, const White& from, const White& to, AdaptationMethod method) {
  return xyz_from(adaptation_matrix(from, to, method) * vector_from(xyz));
}

Lab adapted_lab(const Lab& lab, const White& from, const White& to, AdaptationMethod method) {
  if (from == to) return lab;
  return lab_from_xyz(adapted(xyz_from_lab(lab, from), from, to, method), to);
}

}  // namespace colorlib
