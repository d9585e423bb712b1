#include <algorithm>
#include <array>
#include <cctype>
#include <colorlib/image/file_kind_internal.hpp>
#include <colorlib/image/photo_kind.hpp>
#include <string>

namespace colorlib {
namespace {

using namespace std::string_view_literals;

struct Signature {
  std::size_t at;
  std::string_view bytes;
  FileKind kind;
  std::string_view what;
};

// Longer or more special signatures stand before those that they begin with.
constexpr std::array signatures = {
    Signature{0, "\xff\xd8\xff"sv, FileKind::jpeg, ""},
    Signature{0, "\x89PNG\r\n\x1a\n"sv, FileKind::png, ""},
    // Camera raw formats with a beginning of their own; some are TIFF but for the first bytes.
    Signature{8, "CR\x02"sv, FileKind::raw, ""},
    Signature{8, "IIII"sv, FileKind::raw, ""},
    Signature{0, "IIRO"sv, FileKind::raw, ""},
    Signature{0, "IIRS"sv, FileKind::raw, ""},
    Signature{0, "MMOR"sv, FileKind::raw, ""},
    Signature{0, "IIU\0"sv, FileKind::raw, ""},
    Signature{0, "FUJIFILMCCD-RAW"sv, FileKind::raw, ""},
    Signature{6, "HEAPCCDR"sv, FileKind::raw, ""},
    Signature{0, "\0MRM"sv, FileKind::raw, ""},
    Signature{0, "FOVb"sv, FileKind::raw, ""},
    Signature{0, "II*\0"sv, FileKind::tiff, ""},
    Signature{0, "MM\0*"sv, FileKind::tiff, ""},
    Signature{0, "II+\0"sv, FileKind::tiff, ""},
    Signature{0, "MM\0+"sv, FileKind::tiff, ""},
    // Kinds that people hand over by mistake.
    Signature{0, "GIF8"sv, FileKind::known_other, "a GIF picture"},
    Signature{8, "WEBP"sv, FileKind::known_other, "a WebP picture"},
    Signature{8, "AVI "sv, FileKind::known_other, "a video"},
    Signature{8, "WAVE"sv, FileKind::known_other, "a sound recording"},
    Signature{0, "BM"sv, FileKind::known_other, "a BMP picture"},
    Signature{0, "8BPS"sv, FileKind::known_other, "a layered picture of an image editor"},
    Signature{0, "gimp xcf"sv, FileKind::known_other, "a layered picture of an image editor"},
    Signature{0, "v/1\x01"sv, FileKind::known_other, "an OpenEXR picture"},
    Signature{0, "#?RADIANCE"sv, FileKind::known_other, "a Radiance HDR picture"},
    Signature{0, "\xff\x0a"sv, FileKind::known_other, "a JPEG XL picture"},
    Signature{4, "JXL \r\n"sv, FileKind::known_other, "a JPEG XL picture"},
    Signature{4, "jP  \r\n"sv, FileKind::known_other, "a JPEG 2000 picture"},
    Signature{0, "\xff\x4f\xff\x51"sv, FileKind::known_other, "a JPEG 2000 picture"},
    Signature{0, "II\xbc\x01"sv, FileKind::known_other, "a JPEG XR picture"},
    Signature{0, "\x1a\x45\xdf\xa3"sv, FileKind::known_other, "a video"},
    Signature{0, "\0\0\x01\xba"sv, FileKind::known_other, "a video"},
    Signature{0, "\0\0\x01\xb3"sv, FileKind::known_other, "a video"},
    Signature{4, "moov"sv, FileKind::known_other, "a video"},
    Signature{4, "mdat"sv, FileKind::known_other, "a video"},
    Signature{0, "%PDF"sv, FileKind::known_other, "a PDF document"},
    Signature{0, "%!PS"sv, FileKind::known_other, "a PostScript document"},
    Signature{0, "PK\x03\x04"sv, FileKind::known_other, "a ZIP archive or office document"},
    Signature{0, "\x1f\x8b"sv, FileKind::known_other, "a compressed archive"},
    Signature{0, "Rar!"sv, FileKind::known_other, "a compressed archive"},
    Signature{0, "7z\xbc\xaf"sv, FileKind::known_other, "a compressed archive"},
    Signature{0,
              "\x7f"
              "ELF"sv,
              FileKind::known_other, "a program"},
    Signature{0, "SQLite format 3"sv, FileKind::known_other, "a database"},
};

/// ISO base media files name their kind as brands in the first box [ISO/IEC 14496-12, 4.3].
FileFinding by_brand(std::string_view bytes) {
  const auto size_byte = [&](std::size_t i) {
    return static_cast<std::size_t>(static_cast<unsigned char>(bytes[i]));
  };
  const std::size_t box = (size_byte(0) << 24) | (size_byte(1) << 16) | (size_byte(2) << 8) | size_byte(3);
  const std::size_t end = std::min({box, bytes.size(), std::size_t{256}});
  if (bytes.substr(8, 4) == "crx "sv) return {FileKind::raw, ""};
  if (bytes.substr(8, 4) == "avif"sv || bytes.substr(8, 4) == "avis"sv)
    return {FileKind::known_other, "an AVIF picture"};
  constexpr std::array picture_brands = {"heic"sv, "heix"sv, "heim"sv, "heis"sv, "mif1"sv,
                                         "mif2"sv, "hevc"sv, "hevx"sv, "msf1"sv};
  for (std::size_t at = 8; at + 4 <= end; at += at == 8 ? 8 : 4)
    if (std::find(picture_brands.begin(), picture_brands.end(), bytes.substr(at, 4)) != picture_brands.end())
      return {FileKind::heif, ""};
  return {FileKind::known_other, "a video"};
}

/// UTF-8 without control characters but tabs and line ends [RFC 3629, 4; overlong forms are not looked for].
bool looks_like_text(std::string_view bytes) {
  const auto head = bytes.substr(0, 4096);
  int expected = 0;  // continuation bytes
  for (const char c : head) {
    const auto u = static_cast<unsigned char>(c);
    if (expected > 0) {
      if ((u & 0xc0) != 0x80) return false;
      --expected;
    } else if (u >= 0x80) {
      expected = (u & 0xe0) == 0xc0 ? 1 : (u & 0xf0) == 0xe0 ? 2 : (u & 0xf8) == 0xf0 ? 3 : -1;
      if (expected < 0) return false;
    } else if ((u < 0x20 && u != '\t' && u != '\n' && u != '\r' && u != '\f') || u == 0x7f) {
      return false;
    }
  }
  return expected == 0 || head.size() == 4096;
}

FileFinding by_text(std::string_view bytes) {
  std::string head(bytes.substr(0, 512));
  std::transform(head.begin(), head.end(), head.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  if (head.find("<!doctype html") != std::string::npos || head.find("<html") != std::string::npos)
    return {FileKind::known_other, "a web page"};
  if (head.find("<svg") != std::string::npos) return {FileKind::known_other, "an SVG drawing"};
  return {FileKind::known_other, "a text file"};
}

}  // namespace

FileFinding find_file_kind(std::string_view bytes) {
  for (const Signature& s : signatures)
    if (bytes.size() >= s.at + s.bytes.size() && bytes.substr(s.at, s.bytes.size()) == s.bytes) {
      const bool riff_kind = s.at == 8 && s.kind == FileKind::known_other;
      const bool tiff_kind = s.at == 8 && s.kind == FileKind::raw;
      if (riff_kind && !bytes.starts_with("RIFF")) continue;
      if (tiff_kind && !bytes.starts_with("II*") && !bytes.starts_with("MM")) continue;
      if (s.bytes == "BM"sv && (bytes.size() < 18 || looks_like_text(bytes))) continue;
      return {s.kind, s.what};
    }
  if (bytes.size() >= 12 && bytes.substr(4, 4) == "ftyp"sv) return by_brand(bytes);
  if (!bytes.empty() && looks_like_text(bytes)) return by_text(bytes);
  return {};
}

bool begins_like_a_photo(std::string_view bytes) {
  const FileKind kind = find_file_kind(bytes).kind;
  return kind != FileKind::known_other && kind != FileKind::unknown;
}

}  // namespace colorlib
