#include "tests/scenes/jpeg_codec.hpp"

#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <stdexcept>
#include <vector>

#include <jpeglib.h>

namespace colorlib::scenes {
namespace {

[[noreturn]] void fail_loudly(j_common_ptr info) {
  char text[JMSG_LENGTH_MAX];
  info->err->format_message(info, text);
  throw std::runtime_error(std::string("libjpeg: ") + text);
}

/// A TIFF directory under construction: 12 bytes an entry, longer values behind it.
class Directory {
 public:
  void ascii(int tag, const std::string& text) { entry(tag, 2, text.size() + 1, text + '\0'); }
  void short_value(int tag, int value) { entry(tag, 3, 1, little(static_cast<std::uint32_t>(value), 2)); }
  void long_value(int tag, std::uint32_t value) { entry(tag, 4, 1, little(value, 4)); }
  void rational(int tag, double value) {
    const bool small = value < 0.5;
    const std::uint32_t numerator = small ? 1 : static_cast<std::uint32_t>(std::lround(value * 100));
    const std::uint32_t denominator = small ? static_cast<std::uint32_t>(std::lround(1 / value)) : 100;
    entry(tag, 5, 1, little(numerator, 4) + little(denominator, 4));
  }
  void undefined(int tag, const std::string& bytes) { entry(tag, 7, bytes.size(), bytes); }
  std::size_t size() const { return 2 + 12 * entries_.size() + 4 + tail_size(); }
  /// The directory's bytes when it begins at `offset` of the TIFF structure.
  std::string bytes(std::size_t offset) const {
    std::string head = little(static_cast<std::uint32_t>(entries_.size()), 2), tail;
    const std::size_t tail_at = offset + 2 + 12 * entries_.size() + 4;
    for (const Entry& e : entries_) {
      head += little(static_cast<std::uint32_t>(e.tag), 2) + little(static_cast<std::uint32_t>(e.type), 2) +
              little(static_cast<std::uint32_t>(e.count), 4);
      if (e.value.size() <= 4) {
        head += e.value + std::string(4 - e.value.size(), '\0');
      } else {
        head += little(static_cast<std::uint32_t>(tail_at + tail.size()), 4);
        tail += e.value;
        if (tail.size() % 2) tail += '\0';
      }
    }
    return head + little(0, 4) + tail;
  }
  static std::string little(std::uint32_t value, int count) {
    std::string s;
    for (int i = 0; i < count; ++i) s += static_cast<char>(value >> (8 * i) & 0xff);
    return s;
  }

 private:
  struct Entry {
    int tag, type;
    std::size_t count;
    std::string value;
  };
  void entry(int tag, int type, std::size_t count, std::string value) {
    entries_.push_back({tag, type, count, std::move(value)});
  }
  std::size_t tail_size() const {
    std::size_t sum = 0;
    for (const Entry& e : entries_)
      if (e.value.size() > 4) sum += e.value.size() + e.value.size() % 2;
    return sum;
  }
  std::vector<Entry> entries_;
};

}  // namespace

std::string exif_block(const ExifNote& note) {
  // Tags of EXIF 2.32, in ascending order as TIFF asks.
  Directory exif;
  exif.rational(0x829a, note.exposure_s);
  exif.rational(0x829d, note.f_number);
  exif.short_value(0x8827, note.iso_speed);
  exif.undefined(0x9000, "0232");
  exif.ascii(0x9003, note.date_time);
  exif.ascii(0x9004, note.date_time);
  if (!note.offset.empty()) exif.ascii(0x9011, note.offset);
  exif.rational(0x920a, note.focal_length_mm);
  if (!note.subsecond.empty()) exif.ascii(0x9291, note.subsecond);
  exif.short_value(0xa001, 1);  // sRGB
  const auto first = [&](std::uint32_t exif_at) {
    Directory d;
    d.ascii(0x010f, note.make);
    d.ascii(0x0110, note.model);
    d.short_value(0x0112, note.orientation);
    d.ascii(0x0131, note.software);
    d.ascii(0x0132, note.date_time);
    d.long_value(0x8769, exif_at);
    return d;
  };
  const std::size_t exif_at = 8 + first(0).size();
  return std::string("Exif\0\0", 6) + std::string("II*\0\x08\0\0\0", 8) +
         first(static_cast<std::uint32_t>(exif_at)).bytes(8) + exif.bytes(exif_at);
}

std::string encode_jpeg(const Image8& rgb, int quality, bool subsampled,
                        const std::optional<ExifNote>& exif) {
  jpeg_compress_struct info{};
  jpeg_error_mgr errors{};
  info.err = jpeg_std_error(&errors);
  errors.error_exit = fail_loudly;
  jpeg_create_compress(&info);
  unsigned char* bytes = nullptr;
  unsigned long size = 0;
  jpeg_mem_dest(&info, &bytes, &size);
  info.image_width = static_cast<JDIMENSION>(rgb.columns);
  info.image_height = static_cast<JDIMENSION>(rgb.rows);
  info.input_components = 3;
  info.in_color_space = JCS_RGB;
  jpeg_set_defaults(&info);
  jpeg_set_quality(&info, quality, TRUE);
  const int factor = subsampled ? 2 : 1;
  info.comp_info[0].h_samp_factor = info.comp_info[0].v_samp_factor = factor;
  jpeg_start_compress(&info, TRUE);
  if (exif) {
    const std::string block = exif_block(*exif);
    jpeg_write_marker(&info, JPEG_APP0 + 1, reinterpret_cast<const JOCTET*>(block.data()),
                      static_cast<unsigned>(block.size()));
  }
  while (info.next_scanline < info.image_height) {
    JSAMPROW row = const_cast<JSAMPROW>(rgb.at(static_cast<int>(info.next_scanline), 0));
    jpeg_write_scanlines(&info, &row, 1);
  }
  jpeg_finish_compress(&info);
  jpeg_destroy_compress(&info);
  std::string result(reinterpret_cast<const char*>(bytes), size);
  std::free(bytes);
  return result;
}

}  // namespace colorlib::scenes
