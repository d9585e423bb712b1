#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/image/decode_internal.hpp>
#include <colorlib/image/pixel_encoding_internal.hpp>
#include <colorlib/image/tiff_reader_internal.hpp>
#include <colorlib/image/upright_rows_internal.hpp>
#include <functional>

namespace colorlib {
namespace {

constexpr auto advice_export =
    "Export the photo as TIFF with 8 or 16 bits per channel in RGB, or as PNG or JPEG.";

constexpr std::uint16_t photometric_linear_raw =
    34892;  ///< LinearRaw of the DNG specification; not in tiff.h

/// How the pixels lie in the file.
struct Layout {
  std::uint32_t width = 0, height = 0;
  int samples = 0;  ///< a pixel, extra ones included
  int bits = 0;
  int photometric = 0, compression = 0;
  bool separate = false;  ///< one plane a channel
  bool floats = false;
  bool tiled = false;
  int orientation = 1;
  bool has_alpha = false, premultiplied = false;
  bool grey() const { return photometric == PHOTOMETRIC_MINISBLACK || photometric == PHOTOMETRIC_MINISWHITE; }
  bool palette() const { return photometric == PHOTOMETRIC_PALETTE; }
  int colours() const { return grey() || palette() ? 1 : 3; }
};

std::string photometric_name(int photometric) {
  switch (photometric) {
    case PHOTOMETRIC_SEPARATED:
      return "CMYK inks";
    case PHOTOMETRIC_CIELAB:
    case PHOTOMETRIC_ICCLAB:
    case PHOTOMETRIC_ITULAB:
      return "Lab values";
    case PHOTOMETRIC_LOGL:
    case PHOTOMETRIC_LOGLUV:
      return "logarithmic light values";
    case PHOTOMETRIC_MASK:
      return "a mask";
    case PHOTOMETRIC_YCBCR:
      return "YCbCr values without JPEG compression";
    case PHOTOMETRIC_CFA:
    case photometric_linear_raw:
      return "camera raw data";
    default:
      return fmt::format("of unknown kind {}", photometric);
  }
}

Layout read_layout(const TiffReader& reader) {
  Layout layout;
  layout.width = reader.value<std::uint32_t>(TIFFTAG_IMAGEWIDTH);
  layout.height = reader.value<std::uint32_t>(TIFFTAG_IMAGELENGTH);
  layout.samples = reader.value<std::uint16_t>(TIFFTAG_SAMPLESPERPIXEL);
  layout.bits = reader.value<std::uint16_t>(TIFFTAG_BITSPERSAMPLE);
  layout.compression = reader.value<std::uint16_t>(TIFFTAG_COMPRESSION);
  layout.separate =
      layout.samples > 1 && reader.value<std::uint16_t>(TIFFTAG_PLANARCONFIG) == PLANARCONFIG_SEPARATE;
  layout.floats = reader.value<std::uint16_t>(TIFFTAG_SAMPLEFORMAT) == SAMPLEFORMAT_IEEEFP;
  layout.tiled = TIFFIsTiled(reader.handle()) != 0;
  layout.orientation = reader.value<std::uint16_t>(TIFFTAG_ORIENTATION);
  std::uint16_t photometric = PHOTOMETRIC_MINISBLACK;
  if (TIFFGetField(reader.handle(), TIFFTAG_PHOTOMETRIC, &photometric) != 1 && layout.samples >= 3)
    photometric = PHOTOMETRIC_RGB;
  layout.photometric = photometric;
  std::uint16_t extra = 0;
  std::uint16_t* kinds = nullptr;
  if (TIFFGetField(reader.handle(), TIFFTAG_EXTRASAMPLES, &extra, &kinds) == 1 && extra > 0) {
    layout.has_alpha = kinds[0] == EXTRASAMPLE_ASSOCALPHA || kinds[0] == EXTRASAMPLE_UNASSALPHA;
    layout.premultiplied = kinds[0] == EXTRASAMPLE_ASSOCALPHA;
  }
  // JPEG inside TIFF: libtiff hands over RGB when asked to.
  if (layout.photometric == PHOTOMETRIC_YCBCR && layout.compression == COMPRESSION_JPEG) {
    TIFFSetField(reader.handle(), TIFFTAG_JPEGCOLORMODE, JPEGCOLORMODE_RGB);
    layout.photometric = PHOTOMETRIC_RGB;
  }
  return layout;
}

Result<std::monostate> check_layout(const PhotoSource& source, const TiffReader& reader,
                                    const Layout& layout) {
  const bool known_colours = layout.grey() || layout.palette() || layout.photometric == PHOTOMETRIC_RGB;
  if (!known_colours)
    return unsupported(source,
                       fmt::format("its pixels are {}, RGB is needed", photometric_name(layout.photometric)),
                       advice_export);
  constexpr int compressions[] = {COMPRESSION_NONE,    COMPRESSION_LZW,      COMPRESSION_ADOBE_DEFLATE,
                                  COMPRESSION_DEFLATE, COMPRESSION_PACKBITS, COMPRESSION_JPEG};
  if (std::find(std::begin(compressions), std::end(compressions), layout.compression) ==
      std::end(compressions))
    return unsupported(
        source,
        fmt::format("it is compressed by method {}; none, LZW, deflate, PackBits or JPEG is needed",
                    layout.compression),
        advice_export);
  if (layout.samples < layout.colours() || layout.samples > 8)
    return unsupported(
        source, fmt::format("it has {} values per pixel, {} are needed", layout.samples, layout.colours()),
        advice_export);
  const auto format = reader.value<std::uint16_t>(TIFFTAG_SAMPLEFORMAT);
  const bool whole_numbers = format == SAMPLEFORMAT_UINT && (layout.bits == 8 || layout.bits == 16);
  if (layout.palette() ? !(whole_numbers && layout.bits == 8)
                       : !(whole_numbers || (layout.floats && layout.bits == 32)))
    return unsupported(
        source,
        fmt::format("its values are {}-bit {}{}; 8- or 16-bit whole numbers or 32-bit floats are needed",
                    layout.bits,
                    layout.floats                 ? "floats"
                    : format == SAMPLEFORMAT_UINT ? "whole numbers"
                    : format == SAMPLEFORMAT_INT  ? "signed whole numbers"
                                                  : "values of an unknown kind",
                    layout.palette() ? " of a palette" : ""),
        advice_export);
  return std::monostate{};
}

tl::unexpected<Error> damaged(const PhotoSource& source, const TiffReader& reader) {
  return unreadable(
      source, fmt::format("the TIFF data are damaged or end early ({})",
                          reader.reason().empty() ? "no reason was given" : reason_of(reader.reason())));
}

/// Turns decoded samples of one row piece into RGB.
template <class T>
struct ToRgb {
  const Layout& layout;
  std::array<std::vector<T>, 3> palette;

  /// `count` pixels of interleaved samples.
  void interleaved(const T* from, T* to, std::uint32_t count) const {
    const int step = layout.samples;
    if (layout.palette()) {
      for (std::uint32_t i = 0; i < count; ++i, from += step, to += 3) look_up(*from, to);
    } else if (layout.grey()) {
      for (std::uint32_t i = 0; i < count; ++i, from += step, to += 3) to[0] = to[1] = to[2] = grey(*from);
    } else {
      for (std::uint32_t i = 0; i < count; ++i, from += step, to += 3)
        to[0] = from[0], to[1] = from[1], to[2] = from[2];
    }
  }
  /// `count` samples of one plane: channel `k` of RGB, or all of them for grey.
  void plane(const T* from, T* to, std::uint32_t count, int k) const {
    if (layout.colours() == 1) {
      for (std::uint32_t i = 0; i < count; ++i, to += 3)
        if (layout.palette())
          look_up(from[i], to);
        else
          to[0] = to[1] = to[2] = grey(from[i]);
    } else {
      for (std::uint32_t i = 0; i < count; ++i)
        to[3 * static_cast<std::size_t>(i) + static_cast<std::size_t>(k)] = from[i];
    }
  }

 private:
  T grey(T v) const {
    if (layout.photometric != PHOTOMETRIC_MINISWHITE) return v;
    if constexpr (std::is_floating_point_v<T>)
      return 1 - v;
    else
      return static_cast<T>(std::numeric_limits<T>::max() - v);
  }
  void look_up(T index, T* to) const {
    for (std::size_t k = 0; k < 3; ++k) to[k] = palette[k][static_cast<std::size_t>(index)];
  }
};

/// The palette's 16-bit entries as 8 bit; old writers put 8-bit values there unscaled.
template <class T>
bool read_palette(const TiffReader& reader, ToRgb<T>& to_rgb) {
  if constexpr (std::is_same_v<T, std::uint8_t>) {
    std::uint16_t* entries[3] = {};
    if (TIFFGetField(reader.handle(), TIFFTAG_COLORMAP, &entries[0], &entries[1], &entries[2]) != 1)
      return false;
    const bool narrow = std::all_of(std::begin(entries), std::end(entries), [](const std::uint16_t* e) {
      return std::all_of(e, e + 256, [](std::uint16_t v) { return v < 256; });
    });
    for (std::size_t k = 0; k < 3; ++k)
      for (int i = 0; i < 256; ++i)
        to_rgb.palette[k].push_back(
            static_cast<std::uint8_t>(narrow ? entries[k][i] : (entries[k][i] + 128) / 257));
    return true;
  }
  return false;
}

template <class T>
bool read_strips(const PhotoSource& source, const TiffReader& reader, const Layout& layout,
                 const ToRgb<T>& to_rgb, UprightRows<T>& rows) {
  std::vector<T> line(static_cast<std::size_t>(TIFFScanlineSize64(reader.handle())) / sizeof(T) + 1);
  for (std::uint32_t y = 0; y < layout.height; ++y) {
    if (TIFFReadScanline(reader.handle(), line.data(), y) != 1 || !reader.reason().empty() ||
        source.stopped())
      return false;
    to_rgb.interleaved(line.data(), rows.row(static_cast<int>(y)), layout.width);
    rows.row_done(static_cast<int>(y));
  }
  return true;
}

/// Planes one after another: the raster is filled channel by channel.
template <class T>
bool read_plane_strips(const PhotoSource& source, const TiffReader& reader, const Layout& layout,
                       const ToRgb<T>& to_rgb, Image<T>& raster) {
  std::vector<T> line(static_cast<std::size_t>(TIFFScanlineSize64(reader.handle())) / sizeof(T) + 1);
  for (int k = 0; k < layout.colours(); ++k)
    for (std::uint32_t y = 0; y < layout.height; ++y) {
      if (TIFFReadScanline(reader.handle(), line.data(), y, static_cast<std::uint16_t>(k)) != 1 ||
          !reader.reason().empty() || source.stopped())
        return false;
      to_rgb.plane(line.data(), raster.at(static_cast<int>(y), 0), layout.width, k);
    }
  return true;
}

template <class T>
bool read_tiles(const PhotoSource& source, const TiffReader& reader, const Layout& layout,
                const ToRgb<T>& to_rgb, Image<T>& raster) {
  const auto tile_width = reader.value<std::uint32_t>(TIFFTAG_TILEWIDTH);
  const auto tile_height = reader.value<std::uint32_t>(TIFFTAG_TILELENGTH);
  const tmsize_t tile_bytes = TIFFTileSize(reader.handle());
  const std::size_t samples = layout.separate ? 1 : static_cast<std::size_t>(layout.samples);
  std::vector<T> tile(static_cast<std::size_t>(tile_bytes) / sizeof(T) + 1);
  for (int k = 0; k < (layout.separate ? layout.colours() : 1); ++k)
    for (std::uint32_t top = 0; top < layout.height; top += tile_height)
      for (std::uint32_t left = 0; left < layout.width; left += tile_width) {
        const auto number = TIFFComputeTile(reader.handle(), left, top, 0, static_cast<std::uint16_t>(k));
        if (TIFFReadEncodedTile(reader.handle(), number, tile.data(), tile_bytes) < 0 ||
            !reader.reason().empty() || source.stopped())
          return false;
        const std::uint32_t columns = std::min(tile_width, layout.width - left);
        for (std::uint32_t y = 0; y < std::min(tile_height, layout.height - top); ++y) {
          const T* from = tile.data() + static_cast<std::size_t>(y) * tile_width * samples;
          T* to = raster.at(static_cast<int>(top + y), static_cast<int>(left));
          if (layout.separate)
            to_rgb.plane(from, to, columns, k);
          else
            to_rgb.interleaved(from, to, columns);
        }
      }
  return true;
}

template <class T>
Result<Photo::Store> read_pixels(const PhotoSource& source, const TiffReader& reader, const Layout& layout) {
  const bool row_by_row = !layout.separate && !layout.tiled;
  const bool turned = layout.orientation > 1 && layout.orientation <= 8;
  const auto fits =
      check_size(source, layout.width, layout.height, (row_by_row || !turned ? 3 : 6) * sizeof(T));
  if (!fits) return fail(fits.error());
  const std::uint64_t at_once =
      layout.tiled ? TIFFTileSize64(reader.handle()) : TIFFScanlineSize64(reader.handle());
  if (layout.tiled) {
    const auto columns = reader.value<std::uint32_t>(TIFFTAG_TILEWIDTH),
               lines = reader.value<std::uint32_t>(TIFFTAG_TILELENGTH);
    const std::uint64_t samples = layout.separate ? 1 : static_cast<std::uint64_t>(layout.samples);
    if (columns == 0 || lines == 0 || columns > 1'000'000 || lines > 1'000'000 ||
        std::uint64_t{columns} * lines * samples * sizeof(T) != at_once)
      return damaged(source, reader);
  } else if (std::uint64_t{layout.width} * (layout.separate ? 1 : layout.samples) * sizeof(T) != at_once) {
    return damaged(source, reader);
  }
  if (at_once > source.limits.memory_bytes / 4)
    return unreadable(source, fmt::format("its tiles of {} MB are larger than is taken", at_once >> 20),
                      advice_export);

  ToRgb<T> to_rgb{layout, {}};
  if (layout.palette() && !read_palette(reader, to_rgb)) return damaged(source, reader);
  const int width = static_cast<int>(layout.width), height = static_cast<int>(layout.height);
  if (row_by_row) {
    UprightRows<T> rows(width, height, layout.orientation);
    if (!read_strips(source, reader, layout, to_rgb, rows)) return damaged(source, reader);
    return Photo::Store(rows.take());
  }
  Image<T> raster(height, width, 3);
  const bool read = layout.tiled ? read_tiles(source, reader, layout, to_rgb, raster)
                                 : read_plane_strips(source, reader, layout, to_rgb, raster);
  if (!read) return damaged(source, reader);
  return Photo::Store(turned_upright(std::move(raster), layout.orientation));
}

/// Negative values and those that are no numbers become 0; returns how many were no numbers.
std::size_t clean(ImageF& floats) {
  std::size_t odd = 0;
  for (float& v : floats.data) {
    if (!std::isfinite(v)) ++odd, v = 0;
    if (v < 0) v = 0;
  }
  return odd;
}

CaptureMetadata read_capture(TiffReader& reader) {
  CaptureMetadata capture;
  capture.camera_make = reader.text(TIFFTAG_MAKE);
  capture.camera_model = reader.text(TIFFTAG_MODEL);
  toff_t place = 0;
  if (TIFFGetField(reader.handle(), TIFFTAG_EXIFIFD, &place) != 1 ||
      TIFFReadEXIFDirectory(reader.handle(), place) != 1)
    return capture;
  capture.captured =
      capture_time_from_exif(reader.text(EXIFTAG_DATETIMEORIGINAL), reader.text(EXIFTAG_SUBSECTIMEORIGINAL),
                             reader.text(EXIFTAG_OFFSETTIMEORIGINAL));
  if (!capture.captured)
    capture.captured = capture_time_from_exif(reader.text(EXIFTAG_DATETIMEDIGITIZED),
                                              reader.text(EXIFTAG_SUBSECTIMEDIGITIZED),
                                              reader.text(EXIFTAG_OFFSETTIMEDIGITIZED));
  capture.exposure_s = reader.number(EXIFTAG_EXPOSURETIME);
  capture.f_number = reader.number(EXIFTAG_FNUMBER);
  capture.focal_length_mm = reader.number(EXIFTAG_FOCALLENGTH);
  std::uint16_t count = 0;
  const std::uint16_t* speeds = nullptr;
  if (TIFFGetField(reader.handle(), EXIFTAG_ISOSPEEDRATINGS, &count, &speeds) == 1 && count > 0 && speeds &&
      speeds[0] > 0)
    capture.iso_speed = speeds[0];
  return capture;
}

std::string read_icc(const TiffReader& reader) {
  std::uint32_t size = 0;
  const void* data = nullptr;
  if (TIFFGetField(reader.handle(), TIFFTAG_ICCPROFILE, &size, &data) != 1 || !data) return {};
  return {static_cast<const char*>(data), size};
}

}  // namespace

Result<Photo> decode_tiff(const PhotoSource& source) {
  TiffReader reader(source);
  if (!reader.handle()) return damaged(source, reader);
  const Layout layout = read_layout(reader);
  const auto usable = check_layout(source, reader, layout);
  if (!usable) return fail(usable.error());

  auto pixels = layout.floats      ? read_pixels<float>(source, reader, layout)
                : layout.bits == 8 ? read_pixels<std::uint8_t>(source, reader, layout)
                                   : read_pixels<std::uint16_t>(source, reader, layout);
  if (!pixels) return fail(pixels.error());

  std::vector<std::string> remarks;
  if (layout.has_alpha)
    remarks.push_back(layout.premultiplied
                          ? "transparency was ignored; colours are darkened where it is partial"
                          : "transparency was ignored");
  if (layout.grey()) remarks.push_back("the photo is grey: all three channels are the same");
  if (TIFFLastDirectory(reader.handle()) == 0)
    remarks.push_back("the first of several pictures in the file was read");

  PhotoEncoding encoding;
  encoding.bits_per_channel = layout.bits;
  const std::string icc = read_icc(reader);
  const auto honoured = honour_icc(source, icc, layout.grey() ? IccChannels::grey : IccChannels::rgb, *pixels,
                                   encoding, remarks);
  if (!honoured) return fail(honoured.error());
  if (auto* floats = std::get_if<ImageF>(&*pixels)) {
    if (const std::size_t odd = clean(*floats); odd > 0)
      remarks.push_back(fmt::format("{} values that are no numbers were taken as 0", odd));
    if (encoding.profile_assumed) {
      encoding.kind = EncodingKind::linear_sensor;
      encoding.profile = "linear sRGB";
      remarks.push_back("floating-point values without a colour profile were taken as linear light");
    }
  }
  CaptureMetadata capture = read_capture(reader);
  capture.orientation = layout.orientation >= 1 && layout.orientation <= 8 ? layout.orientation : 1;
  Photo photo(std::move(*pixels), std::move(encoding), std::move(capture), source.short_name());
  photo.remarks = std::move(remarks);
  return photo;
}

bool tiff_holds_raw(const PhotoSource& source) {
  constexpr int most_directories = 16;
  const TiffReader reader(source);
  if (!reader.handle()) return false;
  const auto raw_here = [&] {
    const auto photometric = reader.value<std::uint16_t>(TIFFTAG_PHOTOMETRIC);
    return photometric == PHOTOMETRIC_CFA || photometric == photometric_linear_raw ||
           reader.has(TIFFTAG_DNGVERSION);
  };
  std::vector<toff_t> below;
  for (int i = 0; i < most_directories; ++i) {
    if (raw_here()) return true;
    std::uint16_t count = 0;
    const toff_t* places = nullptr;
    if (TIFFGetField(reader.handle(), TIFFTAG_SUBIFD, &count, &places) == 1 && places)
      below.insert(below.end(), places, places + std::min<int>(count, most_directories));
    if (TIFFReadDirectory(reader.handle()) != 1) break;
  }
  for (const toff_t place : below)
    if (TIFFSetSubDirectory(reader.handle(), place) == 1 && raw_here()) return true;
  return false;
}

}  // namespace colorlib
