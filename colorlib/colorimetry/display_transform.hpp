#pragma once
/// From measured colours to the pixels of one screen, through its ICC profile (LittleCMS).

#include <colorlib/base/result.hpp>
#include <colorlib/colorimetry/color_types.hpp>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <string>
#include <string_view>

namespace colorlib {

/// Relative colorimetric, in floating point: white of the Lab (D50) shows as the screen's white. A colour
/// that the screen does not have keeps its L* and hue and loses chroma until it fits (soft clipping; to
/// within 1/64 of its chroma). Safe to share between threads.
class DisplayTransform {
 public:
  /// A screen that is taken to be sRGB (IEC 61966-2-1).
  static Result<DisplayTransform> srgb();
  /// The profile's bytes. Errors: unreadable_table when they are no sound ICC profile, or not of an RGB
  /// screen.
  static Result<DisplayTransform> create(std::string_view profile_bytes);

  /// `lab` (D50) to 8-bit pixels of the screen, 3 values a colour. `clipped`, when not null, gets 1 where the
  /// screen shows a duller colour than was measured (beyond half an 8-bit step), else 0.
  void from_lab(const Lab* lab, std::uint8_t* rgb, std::uint8_t* clipped, std::size_t colors) const;
  /// sRGB-encoded values of a picture to 8-bit pixels of the screen, clipped channel by channel.
  void from_srgb(const float* srgb, std::uint8_t* rgb, std::size_t pixels) const;
  /// The profile's own name; "sRGB" for the assumed screen.
  const std::string& description() const;

 private:
  struct Parts;
  explicit DisplayTransform(std::shared_ptr<const Parts> parts) : parts_(std::move(parts)) {}
  static Result<DisplayTransform> from_profile(void* profile, std::string description, bool is_srgb);
  std::shared_ptr<const Parts> parts_;
};

}  // namespace colorlib
