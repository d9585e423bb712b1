#pragma once
/// ICC profiles of photographs, read by LittleCMS. Only icc.cpp, icc_input_profile.cpp and
/// display_transform.cpp know that library (besides the reading of CGATS text).

#include <array>
#include <colorlib/base/result.hpp>
#include <colorlib/base/small_matrix.hpp>
#include <cstddef>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace colorlib {

/// What the pixels are that a profile is meant for.
enum class IccChannels { rgb, grey };

/// The most that is taken as an embedded profile. Lookup-table profiles of scanners reach a few MB.
inline constexpr std::size_t icc_limit_bytes = 16u << 20;

/// A profile of three curves and three primaries (or of one curve, for grey), or one of lookup tables.
struct IccProfile {
  std::string
      description;  ///< its own name, printable, at most 80 characters; "unnamed profile" if it has none
  /// True: only IccToWideRgb can use it; curve and matrix below say nothing.
  bool lookup_table = false;
  /// Linear native RGB -> linear sRGB, of the primaries alone: the profile's colorants (relative to D50) in
  /// those of sRGB. Exactly the identity where every entry is within 0.002 of it.
  Matrix3 native_to_srgb = Matrix3::identity();
  /// File value -> sRGB-encoded value of the same primaries, `icc_curve_nodes` values evenly spaced over [0,
  /// 1]. All three are empty when none differs from the identity by more than 0.0005, i.e. when the curve is
  /// sRGB's.
  std::array<std::vector<float>, 3> to_srgb_curve;
};

/// Nodes of to_srgb_curve: linear interpolation between them is within 3e-5 of the curve for powers of 1
/// to 3.
inline constexpr int icc_curve_nodes = 4096;

/// Reads a profile. Errors: unreadable_photo when the bytes are damaged or lack what a profile must have;
/// unsupported_photo when it is sound but of another colour space or kind (CMYK, named colours, a device
/// link). A grey photo may carry a grey or an RGB profile; an RGB photo only an RGB one. Source: ICC.1:2010,
/// 8 and 9.2.
Result<IccProfile> read_icc_profile(std::string_view bytes, IccChannels channels);

/// From a lookup-table RGB profile to wide RGB: primaries of ITU-R BT.2020 (which hold nearly every surface
/// colour, so that vivid ones are not cut off at the borders of sRGB), white D65, sRGB's curve.
/// Relative colorimetric, in floating point. One transform serves one thread.
class IccToWideRgb {
 public:
  /// Errors as read_icc_profile.
  static Result<IccToWideRgb> create(std::string_view profile_bytes);
  IccToWideRgb(IccToWideRgb&&) noexcept;
  IccToWideRgb& operator=(IccToWideRgb&&) noexcept;
  ~IccToWideRgb();

  /// `pixels` RGB triples, 0 to 1, to as many encoded wide RGB triples, clipped to [0, 1]. The arrays may be
  /// one.
  void convert(const float* in, float* out, std::size_t pixels) const;
  /// Linear wide RGB -> linear sRGB.
  static Matrix3 wide_to_srgb();

 private:
  struct Parts;
  explicit IccToWideRgb(std::unique_ptr<Parts> parts);
  std::unique_ptr<Parts> parts_;
};

}  // namespace colorlib
