#include <fmt/format.h>
#include <png.h>

#include <algorithm>
#include <bit>
#include <colorlib/image/decode_internal.hpp>
#include <colorlib/image/exif_block_internal.hpp>
#include <colorlib/image/pixel_encoding_internal.hpp>
#include <colorlib/image/png_chunks_internal.hpp>
#include <colorlib/image/upright_rows_internal.hpp>
#include <csetjmp>
#include <cstring>

namespace colorlib {
namespace {

/// libpng's decoder. It leaves through longjmp, so every call that may do so sits in a function whose frame
/// holds nothing but pointers and numbers.
class PngReader {
 public:
  explicit PngReader(const PhotoSource& source) : source_(source), bytes_(source.bytes) {
    png_ = png_create_read_struct(PNG_LIBPNG_VER_STRING, this, &PngReader::leave,
                                  [](png_structp, png_const_charp) {});
    if (png_) info_ = png_create_info_struct(png_);
  }
  PngReader(const PngReader&) = delete;
  PngReader& operator=(const PngReader&) = delete;
  ~PngReader() { png_destroy_read_struct(&png_, &info_, nullptr); }

  bool read_header() {
    if (!png_ || !info_) return false;
    if (setjmp(jump_) != 0) return false;
    png_set_read_fn(png_, this, &PngReader::read);
    png_set_user_limits(png_, 1'000'000, 1'000'000);  // the decoder checks the area
    png_set_chunk_malloc_max(png_, icc_limit_bytes);
    png_set_chunk_cache_max(png_, 64);
    // Texts and suggestions are of no use here, and compressed ones could be bombs.
    static constexpr png_byte unused[] = "tEXt\0zTXt\0iTXt\0sPLT\0hIST\0pCAL\0sCAL\0tIME\0oFFs\0pHYs\0bKGD";
    png_set_keep_unknown_chunks(png_, PNG_HANDLE_CHUNK_NEVER, unused, static_cast<int>(sizeof unused / 5));
    png_read_info(png_, info_);
    png_get_IHDR(png_, info_, &width, &height, &bits, &kind, &interlace, nullptr, nullptr);
    has_transparency = (kind & PNG_COLOR_MASK_ALPHA) != 0 || png_get_valid(png_, info_, PNG_INFO_tRNS) != 0;
    grey = (kind & PNG_COLOR_MASK_COLOR) == 0;
    return true;
  }

  /// All pixels as RGB of 8 or 16 bit in this machine's byte order.
  template <class T>
  bool read_pixels(UprightRows<T>* rows) {
    if (setjmp(jump_) != 0) return false;
    ask_for_rgb();
    for (int y = 0; y < static_cast<int>(height); ++y) {
      png_read_row(png_, reinterpret_cast<png_bytep>(rows->row(y)), nullptr);
      rows->row_done(y);
    }
    png_read_end(png_, nullptr);
    return true;
  }
  /// The same for interlaced pictures, which come in seven passes over the whole.
  template <class T>
  bool read_passes(Image<T>* raster) {
    if (setjmp(jump_) != 0) return false;
    const int passes = png_set_interlace_handling(png_);
    ask_for_rgb();
    for (int pass = 0; pass < passes; ++pass)
      for (int y = 0; y < raster->rows; ++y)
        png_read_row(png_, reinterpret_cast<png_bytep>(raster->at(y, 0)), nullptr);
    png_read_end(png_, nullptr);
    return true;
  }

  std::string icc_profile() const {
    png_charp name = nullptr;
    png_bytep profile = nullptr;
    int compression = 0;
    png_uint_32 size = 0;
    if (png_get_iCCP(png_, info_, &name, &compression, &profile, &size) == 0) return {};
    return {reinterpret_cast<const char*>(profile), size};
  }
  bool says_srgb() const { return png_get_valid(png_, info_, PNG_INFO_sRGB) != 0; }
  std::optional<double> encoding_gamma() const {
    double gamma = 0;
    if (png_get_gAMA(png_, info_, &gamma) == 0) return {};
    return gamma;
  }
  std::optional<Primaries> primaries() const {
    Primaries p{};
    if (png_get_cHRM(png_, info_, &p.white[0], &p.white[1], &p.red[0], &p.red[1], &p.green[0], &p.green[1],
                     &p.blue[0], &p.blue[1]) == 0)
      return {};
    return p;
  }

  std::string reason;
  bool ended_early = false;
  png_uint_32 width = 0, height = 0;
  int bits = 0, kind = 0, interlace = 0;
  bool has_transparency = false, grey = false;

 private:
  void ask_for_rgb() {
    png_set_expand(png_);
    if (has_transparency) png_set_strip_alpha(png_);
    if (grey) png_set_gray_to_rgb(png_);
    if (bits == 16 && std::endian::native == std::endian::little) png_set_swap(png_);
    png_read_update_info(png_, info_);
    if (png_get_rowbytes(png_, info_) != static_cast<std::size_t>(width) * (bits == 16 ? 6 : 3))
      png_error(png_, "rows have an unexpected length");
  }

  [[noreturn]] static void leave(png_structp png, png_const_charp message) {
    auto* self = static_cast<PngReader*>(png_get_error_ptr(png));
    self->reason = message;
    std::longjmp(self->jump_, 1);
  }
  static void read(png_structp png, png_bytep to, std::size_t count) {
    auto* self = static_cast<PngReader*>(png_get_io_ptr(png));
    if (self->source_.stopped()) png_error(png, "stopped");
    if (count > self->bytes_.size() - self->at_) {
      self->ended_early = true;
      png_error(png, "the data end early");
    }
    std::memcpy(to, self->bytes_.data() + self->at_, count);
    self->at_ += count;
  }

  const PhotoSource& source_;
  std::string_view bytes_;
  std::size_t at_ = 0;
  std::jmp_buf jump_{};
  png_structp png_ = nullptr;
  png_infop info_ = nullptr;
};

tl::unexpected<Error> failure(const PhotoSource& source, const PngReader& reader) {
  if (reader.ended_early) return unreadable(source, "the PNG data end early, the whole picture is needed");
  return unreadable(source, fmt::format("the PNG data are damaged ({})", reason_of(reader.reason)));
}

template <class T>
Result<Photo::Store> read_pixels(const PhotoSource& source, PngReader& reader, int orientation) {
  const int width = static_cast<int>(reader.width), height = static_cast<int>(reader.height);
  if (reader.interlace == PNG_INTERLACE_NONE) {
    UprightRows<T> rows(width, height, orientation);
    if (!reader.read_pixels(&rows)) return failure(source, reader);
    return Photo::Store(rows.take());
  }
  Image<T> raster(height, width, 3);
  if (!reader.read_passes(&raster)) return failure(source, reader);
  return Photo::Store(turned_upright(std::move(raster), orientation));
}

bool near(const std::array<double, 2>& a, double x, double y) {
  return std::abs(a[0] - x) < 0.002 && std::abs(a[1] - y) < 0.002;
}

/// The strongest statement counts [PNG third edition, 4.3]: cICP, iCCP, sRGB, then gAMA with cHRM.
Result<std::monostate> honour_colour(const PhotoSource& source, const PngReader& reader,
                                     const PngChunks& chunks, Photo::Store& pixels, PhotoEncoding& encoding,
                                     std::vector<std::string>& remarks) {
  if (chunks.primaries) return honour_code_points(source, *chunks.primaries, *chunks.transfer, encoding);
  if (const std::string icc = reader.icc_profile(); !icc.empty())
    return honour_icc(source, icc, reader.grey ? IccChannels::grey : IccChannels::rgb, pixels, encoding,
                      remarks);
  if (chunks.has_profile && !reader.says_srgb())
    remarks.push_back("the embedded colour profile is damaged, sRGB was assumed");
  if (reader.says_srgb()) {
    encoding.profile_assumed = false;
    return std::monostate{};
  }
  const auto gamma = reader.encoding_gamma();
  if (!gamma || *gamma <= 0) return std::monostate{};
  const auto primaries = reader.primaries();
  const bool primaries_of_srgb =
      !primaries || (near(primaries->red, 0.64, 0.33) && near(primaries->green, 0.30, 0.60) &&
                     near(primaries->blue, 0.15, 0.06) && near(primaries->white, 0.3127, 0.3290));
  // 1/2.2 with these primaries is how writers say "sRGB" to readers that do not know its own chunk.
  if (std::abs(*gamma - 1 / 2.2) < 0.005 && primaries_of_srgb) {
    encoding.profile_assumed = false;
    return std::monostate{};
  }
  if (!honour_power(1 / *gamma, primaries, encoding))
    remarks.push_back("the file's gamma or primaries are impossible, sRGB was assumed");
  return std::monostate{};
}

}  // namespace

Result<Photo> decode_png(const PhotoSource& source) {
  PngReader reader(source);
  if (!reader.read_header()) return failure(source, reader);
  const double pixel_bytes = reader.bits == 16 ? 6 : 3;
  const PngChunks chunks = read_png_chunks(source.bytes);
  const CaptureMetadata capture = capture_from_exif(chunks.exif);
  const bool twice = reader.interlace != PNG_INTERLACE_NONE && capture.orientation != 1;
  const auto fits = check_size(source, reader.width, reader.height, (twice ? 2 : 1) * pixel_bytes);
  if (!fits) return fail(fits.error());

  auto pixels = reader.bits == 16 ? read_pixels<std::uint16_t>(source, reader, capture.orientation)
                                  : read_pixels<std::uint8_t>(source, reader, capture.orientation);
  if (!pixels) return fail(pixels.error());
  std::vector<std::string> remarks;
  if (reader.has_transparency) remarks.push_back("transparency was ignored");
  if (reader.grey) remarks.push_back("the photo is grey: all three channels are the same");

  PhotoEncoding encoding;
  encoding.bits_per_channel = reader.bits == 16 ? 16 : 8;
  const auto honoured = honour_colour(source, reader, chunks, *pixels, encoding, remarks);
  if (!honoured) return fail(honoured.error());
  Photo photo(std::move(*pixels), std::move(encoding), capture, source.short_name());
  photo.remarks = std::move(remarks);
  return photo;
}

}  // namespace colorlib
