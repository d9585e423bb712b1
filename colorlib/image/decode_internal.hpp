#pragma once
/// What the format decoders share behind the facade decode.hpp: the file at hand, its bounds, and the words
/// of failure.

#include <colorlib/base/result.hpp>
#include <colorlib/image/decode.hpp>
#include <cstdint>
#include <string>
#include <string_view>
#include <variant>

namespace colorlib {

/// One file being decoded.
struct PhotoSource {
  std::string_view bytes;
  std::string name;  ///< as the caller named it, for messages
  DecodeLimits limits;
  int reduced = 1;  ///< the smallest size that will do: 1/1, 1/2, 1/4, 1/8

  /// Polled by decoders where rows end; they then fail, and the facade says why.
  bool stopped() const { return limits.progress != nullptr && limits.progress->cancelled(); }
  /// The name without folder.
  std::string short_name() const;
};

/// The file is damaged: "Reading 'a.jpg': {found}." `found` says what was found and what was needed.
tl::unexpected<Error> unreadable(const PhotoSource& source, std::string_view found,
                                 std::string_view advice = {});
/// The file is sound but cannot serve.
tl::unexpected<Error> unsupported(const PhotoSource& source, std::string_view found, std::string_view advice);

/// Fails when the size is none or beyond the limits, `bytes_per_pixel` being what the decoder and its result
/// will hold together.
Result<std::monostate> check_size(const PhotoSource& source, std::int64_t width, std::int64_t height,
                                  double bytes_per_pixel);

/// A library's sentence, fit for ours: printable, without a full stop, at most 120 characters.
std::string reason_of(std::string_view library_message);

// One decoder a format. Each is given bytes that begin as its format does.
/// At `source.reduced`; `reduction` then holds what became of it.
Result<Photo> decode_jpeg(const PhotoSource& source, PhotoReduction& reduction);
Result<Photo> decode_png(const PhotoSource& source);
Result<Photo> decode_tiff(const PhotoSource& source);
Result<Photo> decode_raw(const PhotoSource& source);
#ifdef TINTFALL_HEIF
Result<Photo> decode_heif(const PhotoSource& source);
#endif

/// True when a file that begins as TIFF holds camera raw data (DNG and many makers' own formats do).
bool tiff_holds_raw(const PhotoSource& source);

}  // namespace colorlib
