/// libFuzzer: any bytes as an embedded colour profile.

#include <cmath>
#include <colorlib/colorimetry/icc.hpp>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  for (const auto channels : {colorlib::IccChannels::rgb, colorlib::IccChannels::grey}) {
    const auto profile = colorlib::read_icc_profile(bytes, channels);
    if (!profile) continue;
    for (const double v : profile->native_to_srgb.m)
      if (!std::isfinite(v)) std::abort();
    for (const auto& curve : profile->to_srgb_curve)
      for (const float v : curve)
        if (!(v >= 0 && v <= 1)) std::abort();
    if (!profile->lookup_table) continue;
    const auto transform = colorlib::IccToWideRgb::create(bytes);
    if (!transform) std::abort();
    float pixel[3] = {0.25f, 0.5f, 0.75f};
    transform->convert(pixel, pixel, 1);
    for (const float v : pixel)
      if (!(v >= 0 && v <= 1)) std::abort();
  }
  return 0;
}
