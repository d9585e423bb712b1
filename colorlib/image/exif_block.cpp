#include <libexif/exif-data.h>

#include <cmath>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/image/exif_block_internal.hpp>
#include <memory>
#include <string>

namespace colorlib {
namespace {

struct Release {
  void operator()(ExifData* data) const { exif_data_unref(data); }
};
using Block = std::unique_ptr<ExifData, Release>;

const ExifEntry* entry(const Block& block, ExifIfd directory, ExifTag tag) {
  const ExifEntry* found = exif_content_get_entry(block->ifd[directory], tag);
  return found && found->data && found->size > 0 ? found : nullptr;
}

std::string text(const Block& block, ExifIfd directory, ExifTag tag) {
  const ExifEntry* found = entry(block, directory, tag);
  if (!found || found->format != EXIF_FORMAT_ASCII) return {};
  std::string value(reinterpret_cast<const char*>(found->data), std::min(found->size, 64u));
  if (const auto end = value.find('\0'); end != std::string::npos) value.resize(end);
  return std::string(trimmed(value));
}

std::optional<double> number(const Block& block, ExifTag tag) {
  const ExifEntry* found = entry(block, EXIF_IFD_EXIF, tag);
  if (!found) return {};
  const ExifByteOrder order = exif_data_get_byte_order(block.get());
  double value = 0;
  if (found->format == EXIF_FORMAT_RATIONAL && found->size >= 8) {
    const ExifRational r = exif_get_rational(found->data, order);
    if (r.denominator == 0) return {};
    value = static_cast<double>(r.numerator) / r.denominator;
  } else if (found->format == EXIF_FORMAT_SHORT && found->size >= 2) {
    value = exif_get_short(found->data, order);
  } else if (found->format == EXIF_FORMAT_LONG && found->size >= 4) {
    value = exif_get_long(found->data, order);
  }
  if (value > 0) return value;  // 0 is how cameras write "unknown"
  return {};
}

}  // namespace

CaptureMetadata capture_from_exif(std::string_view block_bytes) {
  using namespace std::string_view_literals;
  constexpr auto prefix = "Exif\0\0"sv;
  CaptureMetadata capture;
  if (block_bytes.size() < 14) return capture;
  std::string bytes;
  if (!block_bytes.starts_with(prefix)) bytes = prefix;
  bytes += block_bytes.substr(0, 0xffff);

  const Block block(exif_data_new());
  if (!block) return capture;
  exif_data_unset_option(block.get(), EXIF_DATA_OPTION_FOLLOW_SPECIFICATION);  // add nothing of its own
  exif_data_load_data(block.get(), reinterpret_cast<const unsigned char*>(bytes.data()),
                      static_cast<unsigned int>(bytes.size()));

  if (const ExifEntry* e = entry(block, EXIF_IFD_0, EXIF_TAG_ORIENTATION);
      e && e->format == EXIF_FORMAT_SHORT && e->size >= 2) {
    const int orientation = exif_get_short(e->data, exif_data_get_byte_order(block.get()));
    if (orientation >= 1 && orientation <= 8) capture.orientation = orientation;
  }
  capture.camera_make = text(block, EXIF_IFD_0, EXIF_TAG_MAKE);
  capture.camera_model = text(block, EXIF_IFD_0, EXIF_TAG_MODEL);
  const auto in_exif = [&](ExifTag tag) { return text(block, EXIF_IFD_EXIF, tag); };
  capture.captured =
      capture_time_from_exif(in_exif(EXIF_TAG_DATE_TIME_ORIGINAL), in_exif(EXIF_TAG_SUB_SEC_TIME_ORIGINAL),
                             in_exif(EXIF_TAG_OFFSET_TIME_ORIGINAL));
  if (!capture.captured)
    capture.captured = capture_time_from_exif(in_exif(EXIF_TAG_DATE_TIME_DIGITIZED),
                                              in_exif(EXIF_TAG_SUB_SEC_TIME_DIGITIZED),
                                              in_exif(EXIF_TAG_OFFSET_TIME_DIGITIZED));
  capture.exposure_s = number(block, EXIF_TAG_EXPOSURE_TIME);
  capture.f_number = number(block, EXIF_TAG_FNUMBER);
  capture.iso_speed = number(block, EXIF_TAG_ISO_SPEED_RATINGS);
  capture.focal_length_mm = number(block, EXIF_TAG_FOCAL_LENGTH);
  return capture;
}

}  // namespace colorlib
