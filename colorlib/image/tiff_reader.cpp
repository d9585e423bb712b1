#include <algorithm>
#include <cmath>
#include <colorlib/image/tiff_reader_internal.hpp>
#include <cstdio>
#include <cstring>

namespace colorlib {

TiffReader::TiffReader(const PhotoSource& source) : bytes_(source.bytes) {
  TIFFOpenOptions* options = TIFFOpenOptionsAlloc();
  TIFFOpenOptionsSetMaxSingleMemAlloc(options, static_cast<tmsize_t>(source.limits.memory_bytes / 2));
  TIFFOpenOptionsSetErrorHandlerExtR(options, &TiffReader::hear_error, this);
  TIFFOpenOptionsSetWarningHandlerExtR(
      options, [](TIFF*, void*, const char*, const char*, va_list) { return 1; }, nullptr);
  handle_ = TIFFClientOpenExt(source.name.c_str(), "r", this, &TiffReader::read, &TiffReader::write,
                              &TiffReader::seek, &TiffReader::close, &TiffReader::size, &TiffReader::map,
                              &TiffReader::unmap, options);
  TIFFOpenOptionsFree(options);
}

TiffReader::~TiffReader() {
  if (handle_) TIFFClose(handle_);
}

bool TiffReader::has(std::uint32_t tag) const {
  // TIFFGetField wants room for what it hands over: two pointers are the most for the tags asked for here.
  void *first = nullptr, *second = nullptr;
  return TIFFGetField(handle_, tag, &first, &second) == 1;
}

std::string TiffReader::text(std::uint32_t tag) const {
  const TIFFField* field = TIFFFindField(handle_, tag, TIFF_ASCII);
  const char* found = nullptr;
  if (!field || TIFFFieldPassCount(field) || TIFFGetField(handle_, tag, &found) != 1 || !found) return {};
  return std::string(found, strnlen(found, 64));
}

std::optional<double> TiffReader::number(std::uint32_t tag) const {
  const TIFFField* field = TIFFFindField(handle_, tag, TIFF_ANY);
  if (!field || TIFFFieldPassCount(field) || TIFFFieldReadCount(field) != 1) return {};
  double value = 0;
  if (TIFFFieldSetGetSize(field) == 8) {
    if (TIFFGetField(handle_, tag, &value) != 1) return {};
  } else {
    float narrow = 0;
    if (TIFFFieldSetGetSize(field) != 4 || TIFFGetField(handle_, tag, &narrow) != 1) return {};
    value = narrow;
  }
  if (!std::isfinite(value) || value <= 0) return {};
  return value;
}

tmsize_t TiffReader::read(thandle_t self, void* to, tmsize_t count) {
  auto& reader = *static_cast<TiffReader*>(self);
  if (count <= 0 || reader.at_ >= reader.bytes_.size()) return 0;
  const std::size_t now = std::min(static_cast<std::size_t>(count), reader.bytes_.size() - reader.at_);
  std::memcpy(to, reader.bytes_.data() + reader.at_, now);
  reader.at_ += now;
  return static_cast<tmsize_t>(now);
}

toff_t TiffReader::seek(thandle_t self, toff_t offset, int whence) {
  auto& reader = *static_cast<TiffReader*>(self);
  if (whence == SEEK_CUR) offset += reader.at_;
  if (whence == SEEK_END) offset += reader.bytes_.size();
  reader.at_ = static_cast<std::size_t>(offset);
  return offset;
}

toff_t TiffReader::size(thandle_t self) { return static_cast<TiffReader*>(self)->bytes_.size(); }

int TiffReader::map(thandle_t self, void** base, toff_t* size) {
  auto& reader = *static_cast<TiffReader*>(self);
  *base = const_cast<char*>(reader.bytes_.data());  // opened for reading: libtiff does not write to it
  *size = reader.bytes_.size();
  return 1;
}

int TiffReader::hear_error(TIFF*, void* self, const char*, const char* format, va_list arguments) {
  auto& reader = *static_cast<TiffReader*>(self);
  if (!reader.reason_.empty()) return 1;
  char text[256] = {};
  std::vsnprintf(text, sizeof text, format, arguments);
  reader.reason_ = text;
  return 1;
}

}  // namespace colorlib
