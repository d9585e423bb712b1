#pragma once
/// libtiff over a file in memory, its words of failure kept with the handle.

#include <tiffio.h>

#include <colorlib/image/decode_internal.hpp>
#include <optional>
#include <string>

namespace colorlib {

class TiffReader {
 public:
  explicit TiffReader(const PhotoSource& source);
  TiffReader(const TiffReader&) = delete;
  TiffReader& operator=(const TiffReader&) = delete;
  ~TiffReader();

  /// Null when the file could not be opened at all.
  TIFF* handle() const { return handle_; }
  /// The first error that libtiff told; empty when it told none.
  const std::string& reason() const { return reason_; }

  /// A tag with one 16- or 32-bit value; its default, or 0, when it is absent.
  template <class T>
  T value(std::uint32_t tag) const {
    T found{};
    TIFFGetFieldDefaulted(handle_, tag, &found);
    return found;
  }
  bool has(std::uint32_t tag) const;
  /// A text tag, up to 64 characters.
  std::string text(std::uint32_t tag) const;
  /// A floating-point tag, whether libtiff hands it over as float or double; nothing when absent or not
  /// positive.
  std::optional<double> number(std::uint32_t tag) const;

 private:
  static tmsize_t read(thandle_t self, void* to, tmsize_t count);
  static tmsize_t write(thandle_t, void*, tmsize_t) { return -1; }
  static toff_t seek(thandle_t self, toff_t offset, int whence);
  static int close(thandle_t) { return 0; }
  static toff_t size(thandle_t self);
  static int map(thandle_t self, void** base, toff_t* size);
  static void unmap(thandle_t, void*, toff_t) {}
  static int hear_error(TIFF*, void* self, const char* module, const char* format, va_list arguments);

  std::string_view bytes_;
  std::size_t at_ = 0;
  std::string reason_;
  TIFF* handle_ = nullptr;
};

}  // namespace colorlib
