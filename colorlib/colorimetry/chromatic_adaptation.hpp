#pragma once
/// Von Kries adaptation between two whites, complete adaptation (D = 1).

#include <colorlib/colorimetry/color_types.hpp>

namespace colorlib {

enum class AdaptationMethod { bradford, cat16 };

/// XYZ -> the method's sharpened cone responses. Sources as for adaptation_matrix.
const Matrix3& cone_response_matrix(AdaptationMethod method);

/// XYZ under `from` -> corresponding XYZ under `to`. Sources: [ICC1] annex E (linear Bradford);
/// [Li2017] (CAT16). Both whites must have positive cone responses, as every real light has.
Matrix3 adaptation_matrix(const White& from, const White& to, AdaptationMethod method);
/// One colour adapted.
Xyz adapted(const Xyz& xyz, const White& from, const White& to, AdaptationMethod method);
/// Lab under one white -> Lab under another by adaptation of its XYZ.
Lab adapted_lab(const Lab& lab, const White& from, const White& to, AdaptationMethod method);

}  // namespace colorlib
