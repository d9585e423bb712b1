#include <map>

#include "photo_files.hpp"

namespace colorlib::photo_files {
namespace {

/// Builds the two directories of an EXIF block by hand: libexif reads them in the library, so it must not
/// write them here.
class Directory {
 public:
  explicit Directory(bool big_endian) : big_(big_endian) {}

  std::string number(std::uint32_t value, int bytes) const {
    std::string text;
    for (int i = 0; i < bytes; ++i) text += static_cast<char>(value >> (8 * (big_ ? bytes - 1 - i : i)));
    return text;
  }
  void add(int tag, int type, std::uint32_t count, std::string content) {
    entries_[tag] = {type, count, std::move(content)};
  }
  void text(int tag, const std::string& value) {
    if (!value.empty()) add(tag, 2, static_cast<std::uint32_t>(value.size() + 1), value + '\0');
  }
  void short_value(int tag, int value) { add(tag, 3, 1, number(static_cast<std::uint32_t>(value), 2)); }
  void long_value(int tag, std::uint32_t value) { add(tag, 4, 1, number(value, 4)); }
  void rational(int tag, const std::optional<std::pair<std::uint32_t, std::uint32_t>>& value) {
    if (value) add(tag, 5, 1, number(value->first, 4) + number(value->second, 4));
  }
  bool empty() const { return entries_.empty(); }
  std::size_t table_size() const { return 2 + 12 * entries_.size() + 4; }
  /// The directory as it lies at `place` of the block, its longer contents behind it.
  std::string written_at(std::size_t place) const {
    std::string table = number(static_cast<std::uint32_t>(entries_.size()), 2), contents;
    for (const auto& [tag, e] : entries_) {
      table += number(static_cast<std::uint32_t>(tag), 2) + number(static_cast<std::uint32_t>(e.type), 2) +
               number(e.count, 4);
      if (e.content.size() <= 4) {
        table += e.content + std::string(4 - e.content.size(), '\0');
      } else {
        table += number(static_cast<std::uint32_t>(place + table_size() + contents.size()), 4);
        contents += e.content + std::string(e.content.size() % 2, '\0');
      }
    }
    return table + number(0, 4) + contents;
  }

 private:
  struct Entry {
    int type;
    std::uint32_t count;
    std::string content;
  };
  bool big_;
  std::map<int, Entry> entries_;
};

}  // namespace

std::string exif_block(const Exif& exif) {
  Directory first(exif.big_endian), detail(exif.big_endian);
  if (exif.orientation != 0) first.short_value(0x0112, exif.orientation);
  first.text(0x010f, exif.make);
  first.text(0x0110, exif.model);
  detail.text(0x9003, exif.time_original);
  detail.text(0x9291, exif.subseconds_original);
  detail.text(0x9011, exif.zone_original);
  detail.text(0x9004, exif.time_digitized);
  detail.rational(0x829a, exif.exposure_s);
  detail.rational(0x829d, exif.f_number);
  detail.rational(0x920a, exif.focal_length_mm);
  if (exif.iso_speed != 0) detail.short_value(0x8827, exif.iso_speed);

  const std::size_t first_place = 8;
  if (!detail.empty()) first.long_value(0x8769, 0);
  const std::size_t detail_place = first_place + first.written_at(first_place).size();
  if (!detail.empty()) first.long_value(0x8769, static_cast<std::uint32_t>(detail_place));
  std::string block = exif.big_endian ? std::string("MM\0*", 4) : std::string("II*\0", 4);
  block += first.number(first_place, 4) + first.written_at(first_place);
  if (!detail.empty()) block += detail.written_at(detail_place);
  return block;
}

}  // namespace colorlib::photo_files
