#include <zlib.h>

#include <colorlib/image/png_chunks_internal.hpp>

namespace colorlib {
namespace {

std::uint32_t big_endian(std::string_view bytes, std::size_t at) {
  std::uint32_t value = 0;
  for (std::size_t i = 0; i < 4; ++i) value = (value << 8) | static_cast<unsigned char>(bytes[at + i]);
  return value;
}

}  // namespace

PngChunks read_png_chunks(std::string_view bytes) {
  constexpr std::size_t signature = 8, head = 8, checksum = 4;
  PngChunks found;
  std::size_t at = signature;
  while (at + head + checksum <= bytes.size()) {
    const std::size_t length = big_endian(bytes, at);
    if (length > bytes.size() - at - head - checksum) break;
    const std::string_view type = bytes.substr(at + 4, 4), content = bytes.substr(at + head, length);
    const auto sound = [&] {
      const auto* covered = reinterpret_cast<const Bytef*>(bytes.data() + at + 4);
      return crc32_z(0, covered, length + 4) == big_endian(bytes, at + head + length);
    };
    if (type == "IEND") break;
    if (type == "iCCP") found.has_profile = true;
    if (type == "eXIf" && found.exif.empty() && sound()) found.exif = content;
    if (type == "cICP" && length == 4 && !found.primaries && sound()) {
      found.primaries = static_cast<std::uint8_t>(content[0]);
      found.transfer = static_cast<std::uint8_t>(content[1]);
    }
    at += head + length + checksum;
  }
  return found;
}

}  // namespace colorlib
