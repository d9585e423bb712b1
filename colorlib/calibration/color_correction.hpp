#pragma once
/// Camera RGB to XYZ: root polynomial of degree 2, so that a brighter light only scales the answer
/// [Finlayson2015].

#include <array>

namespace colorlib {

inline constexpr int root_term_count = 6;
using RootTerms = std::array<double, root_term_count>;

/// (r, g, b, sqrt(rg), sqrt(gb), sqrt(rb)); r, g, b >= 0.
RootTerms root_terms(const std::array<double, 3>& rgb);
/// d(root terms)/d(ln r, ln g, ln b): [term][channel].
std::array<std::array<double, 3>, root_term_count> root_term_log_slopes(const RootTerms& terms);

}  // namespace colorlib
