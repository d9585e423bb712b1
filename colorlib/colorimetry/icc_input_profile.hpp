#pragma once
/// An ICC input profile made from any map of RGB to Lab, and colours read through one. By LittleCMS.

#include <colorlib/base/result.hpp>
#include <colorlib/base/small_matrix.hpp>
#include <colorlib/colorimetry/color_types.hpp>
#include <functional>
#include <memory>
#include <string>
#include <string_view>

namespace colorlib {

struct InputProfileText {
  std::string description, copyright;
};

/// Profile bytes (version 4, class input, RGB -> PCS Lab, one lookup table of 33 nodes an axis). `lab_of`
/// takes RGB in [0, 1] and gives Lab relative to D50 and the perfect diffuser, clipped to L* 0 to 100, a* and
/// b* -128 to 127. `gamma` spaces the nodes: they lie at equal steps of value^(1/gamma); 1 for values encoded
/// for viewing, 2.4 for linear ones. Between nodes the table is linear. Errors: untrustworthy, when LittleCMS
/// refuses. Source: ICC.1:2010, 8.3.2 and 10.10.
Result<std::string> icc_input_profile(const std::function<Lab(const Vector3&)>& lab_of, double gamma,
                                      const InputProfileText& text);

/// Lab of RGB values as any program gets it from a profile: relative colorimetric, in floating point. One
/// object serves one thread.
class IccToLab {
 public:
  /// Errors: unreadable_photo, for bytes that are no RGB profile.
  static Result<IccToLab> create(std::string_view profile_bytes);
  IccToLab(IccToLab&&) noexcept;
  IccToLab& operator=(IccToLab&&) noexcept;
  ~IccToLab();
  Lab lab(const Vector3& rgb) const;

 private:
  struct Parts;
  explicit IccToLab(std::unique_ptr<Parts> parts);
  std::unique_ptr<Parts> parts_;
};

}  // namespace colorlib
