#pragma once
/// Three-vectors and 3x3 matrices as plain values, so that headers need no matrix library.

#include <array>
#include <cmath>
#include <cstddef>

namespace colorlib {

using Vector3 = std::array<double, 3>;

/// Row-major 3x3 matrix.
struct Matrix3 {
  std::array<double, 9> m{};

  constexpr double& operator()(int row, int column) { return m[static_cast<std::size_t>(row * 3 + column)]; }
  constexpr double operator()(int row, int column) const {
    return m[static_cast<std::size_t>(row * 3 + column)];
  }
  bool operator==(const Matrix3&) const = default;

  static constexpr Matrix3 identity() { return {{1, 0, 0, 0, 1, 0, 0, 0, 1}}; }
  static constexpr Matrix3 diagonal(double a, double b, double c) { return {{a, 0, 0, 0, b, 0, 0, 0, c}}; }
};

constexpr Matrix3 operator*(const Matrix3& a, const Matrix3& b) {
  Matrix3 product;
  for (int r = 0; r < 3; ++r)
    for (int c = 0; c < 3; ++c) product(r, c) = a(r, 0) * b(0, c) + a(r, 1) * b(1, c) + a(r, 2) * b(2, c);
  return product;
}
constexpr Vector3 operator*(const Matrix3& a, const Vector3& v) {
  return {a(0, 0) * v[0] + a(0, 1) * v[1] + a(0, 2) * v[2], a(1, 0) * v[0] + a(1, 1) * v[1] + a(1, 2) * v[2],
          a(2, 0) * v[0] + a(2, 1) * v[1] + a(2, 2) * v[2]};
}
constexpr Matrix3 operator*(double s, Matrix3 a) {
  for (double& v : a.m) v *= s;
  return a;
}
constexpr Matrix3 operator+(Matrix3 a, const Matrix3& b) {
  for (std::size_t i = 0; i < 9; ++i) a.m[i] += b.m[i];
  return a;
}
constexpr Matrix3 transpose(const Matrix3& a) {
  return {{a(0, 0), a(1, 0), a(2, 0), a(0, 1), a(1, 1), a(2, 1), a(0, 2), a(1, 2), a(2, 2)}};
}
constexpr double determinant(const Matrix3& a) {
  return a(0, 0) * (a(1, 1) * a(2, 2) - a(1, 2) * a(2, 1)) -
         a(0, 1) * (a(1, 0) * a(2, 2) - a(1, 2) * a(2, 0)) +
         a(0, 2) * (a(1, 0) * a(2, 1) - a(1, 1) * a(2, 0));
}
/// Inverse by cofactors; the caller makes sure that the determinant is not 0.
constexpr Matrix3 inverse(const Matrix3& a) {
  const double s = 1.0 / determinant(a);
  Matrix3 r;
  r(0, 0) = s * (a(1, 1) * a(2, 2) - a(1, 2) * a(2, 1));
  r(0, 1) = s * (a(0, 2) * a(2, 1) - a(0, 1) * a(2, 2));
  r(0, 2) = s * (a(0, 1) * a(1, 2) - a(0, 2) * a(1, 1));
  r(1, 0) = s * (a(1, 2) * a(2, 0) - a(1, 0) * a(2, 2));
  r(1, 1) = s * (a(0, 0) * a(2, 2) - a(0, 2) * a(2, 0));
  r(1, 2) = s * (a(0, 2) * a(1, 0) - a(0, 0) * a(1, 2));
  r(2, 0) = s * (a(1, 0) * a(2, 1) - a(1, 1) * a(2, 0));
  r(2, 1) = s * (a(0, 1) * a(2, 0) - a(0, 0) * a(2, 1));
  r(2, 2) = s * (a(0, 0) * a(1, 1) - a(0, 1) * a(1, 0));
  return r;
}
/// The same matrix as a type of another library, which these headers do not name: any that has (row, column).
template <class Other>
Other converted(const Matrix3& m) {
  Other other;
  for (int r = 0; r < 3; ++r)
    for (int c = 0; c < 3; ++c) other(r, c) = m(r, c);
  return other;
}
/// And back.
template <class Other>
Matrix3 matrix3_from(const Other& other) {
  Matrix3 m;
  for (int r = 0; r < 3; ++r)
    for (int c = 0; c < 3; ++c) m(r, c) = other(r, c);
  return m;
}

}  // namespace colorlib
