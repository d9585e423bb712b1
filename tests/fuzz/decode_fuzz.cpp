/// libFuzzer: any bytes through the photo decoders. Small limits keep each run short; what is looked for are
/// crashes, sanitizer reports, and results that break the Photo's promises.

#include <colorlib/image/decode.hpp>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  colorlib::DecodeLimits limits;
  limits.pixels = 1 << 18;
  limits.memory_bytes = 24u << 20;
  limits.file_bytes = 1u << 20;
  const auto photo = colorlib::decode_photo({reinterpret_cast<const char*>(data), size}, "fuzz", limits);
  if (!photo) {
    if (photo.error().message.empty() || photo.error().advice.empty()) std::abort();
    return 0;
  }
  const int width = photo->width_px(), height = photo->height_px();
  if (width <= 0 || height <= 0 || static_cast<std::int64_t>(width) * height > limits.pixels) std::abort();
  for (const float v : photo->linear({width / 2, height / 2, 16, 16}).data)
    if (!(v >= 0)) std::abort();
  (void)photo->encoded({0, 0, 16, 16});
  (void)photo->linear_grey({0, 0, width, height}, 4);
  return 0;
}
