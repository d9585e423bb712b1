#include <tiffio.h>

#include <algorithm>
#include <cstring>

#include "photo_files.hpp"

namespace colorlib::photo_files {
namespace {

/// A TIFF file that grows in memory.
struct Memory {
  std::string bytes;
  std::size_t at = 0;

  TIFF* open(const char* mode) {
    return TIFFClientOpen(
        "memory", mode, this,
        [](thandle_t self, void* to, tmsize_t count) -> tmsize_t {
          auto& m = *static_cast<Memory*>(self);
          const std::size_t now =
              m.at < m.bytes.size() ? std::min(static_cast<std::size_t>(count), m.bytes.size() - m.at) : 0;
          std::memcpy(to, m.bytes.data() + m.at, now);
          m.at += now;
          return static_cast<tmsize_t>(now);
        },
        [](thandle_t self, void* from, tmsize_t count) -> tmsize_t {
          auto& m = *static_cast<Memory*>(self);
          m.bytes.resize(std::max(m.bytes.size(), m.at + static_cast<std::size_t>(count)));
          std::memcpy(m.bytes.data() + m.at, from, static_cast<std::size_t>(count));
          m.at += static_cast<std::size_t>(count);
          return count;
        },
        [](thandle_t self, toff_t offset, int whence) -> toff_t {
          auto& m = *static_cast<Memory*>(self);
          m.at = offset + (whence == SEEK_CUR ? m.at : whence == SEEK_END ? m.bytes.size() : 0);
          return m.at;
        },
        [](thandle_t) { return 0; },
        [](thandle_t self) -> toff_t { return static_cast<Memory*>(self)->bytes.size(); }, nullptr, nullptr);
  }
};

int photometric(TiffOptions::Kind kind) {
  switch (kind) {
    case TiffOptions::Kind::grey:
      return PHOTOMETRIC_MINISBLACK;
    case TiffOptions::Kind::white_is_zero:
      return PHOTOMETRIC_MINISWHITE;
    case TiffOptions::Kind::palette:
      return PHOTOMETRIC_PALETTE;
    case TiffOptions::Kind::cmyk:
      return PHOTOMETRIC_SEPARATED;
    case TiffOptions::Kind::lab:
      return PHOTOMETRIC_CIELAB;
    default:
      return PHOTOMETRIC_RGB;
  }
}

/// The raster's values as `kind` wants them; grey and palette take the green one.
template <class T>
Image<T> samples_of(const Image<T>& rgb, TiffOptions::Kind kind) {
  using Kind = TiffOptions::Kind;
  const bool one = kind == Kind::grey || kind == Kind::white_is_zero || kind == Kind::palette;
  const int channels = one ? 1 : kind == Kind::rgba || kind == Kind::cmyk ? 4 : 3;
  Image<T> out(rgb.rows, rgb.columns, channels);
  for (int y = 0; y < rgb.rows; ++y)
    for (int x = 0; x < rgb.columns; ++x)
      for (int k = 0; k < channels; ++k)
        out.at(y, x)[k] = one ? rgb.at(y, x)[1] : k == 3 ? static_cast<T>(x) : rgb.at(y, x)[k];
  return out;
}

template <class T>
void write_pixels(TIFF* tiff, const Image<T>& pixels, const TiffOptions& options) {
  const int planes = options.separate ? pixels.channels : 1, each = options.separate ? 1 : pixels.channels;
  const auto piece = [&](int plane, int left, int top, int width, int height) {
    std::vector<T> data(static_cast<std::size_t>(width) * static_cast<std::size_t>(height) *
                        static_cast<std::size_t>(each));
    for (int y = 0; y < height; ++y)
      for (int x = 0; x < width; ++x)
        for (int k = 0; k < each; ++k)
          if (top + y < pixels.rows && left + x < pixels.columns)
            data[static_cast<std::size_t>((y * width + x) * each + k)] =
                pixels.at(top + y, left + x)[options.separate ? plane : k];
    return data;
  };
  for (int plane = 0; plane < planes; ++plane) {
    if (options.tile > 0) {
      for (int top = 0; top < pixels.rows; top += options.tile)
        for (int left = 0; left < pixels.columns; left += options.tile) {
          auto data = piece(plane, left, top, options.tile, options.tile);
          TIFFWriteTile(tiff, data.data(), static_cast<std::uint32_t>(left), static_cast<std::uint32_t>(top),
                        0, static_cast<std::uint16_t>(plane));
        }
    } else {
      for (int y = 0; y < pixels.rows; ++y) {
        auto data = piece(plane, 0, y, pixels.columns, 1);
        TIFFWriteScanline(tiff, data.data(), static_cast<std::uint32_t>(y),
                          static_cast<std::uint16_t>(plane));
      }
    }
  }
}

toff_t write_exif(TIFF* tiff, const Exif& exif) {
  toff_t place = 0;
  TIFFCreateEXIFDirectory(tiff);
  const auto text = [&](int tag, const std::string& value) {
    if (!value.empty()) TIFFSetField(tiff, static_cast<std::uint32_t>(tag), value.c_str());
  };
  text(EXIFTAG_DATETIMEORIGINAL, exif.time_original);
  text(EXIFTAG_SUBSECTIMEORIGINAL, exif.subseconds_original);
  text(EXIFTAG_OFFSETTIMEORIGINAL, exif.zone_original);
  text(EXIFTAG_DATETIMEDIGITIZED, exif.time_digitized);
  const auto ratio = [&](int tag, const std::optional<std::pair<std::uint32_t, std::uint32_t>>& value) {
    if (value)
      TIFFSetField(tiff, static_cast<std::uint32_t>(tag), static_cast<double>(value->first) / value->second);
  };
  ratio(EXIFTAG_EXPOSURETIME, exif.exposure_s);
  ratio(EXIFTAG_FNUMBER, exif.f_number);
  ratio(EXIFTAG_FOCALLENGTH, exif.focal_length_mm);
  const std::uint16_t speed = static_cast<std::uint16_t>(exif.iso_speed);
  if (speed > 0) TIFFSetField(tiff, EXIFTAG_ISOSPEEDRATINGS, 1, &speed);
  TIFFWriteCustomDirectory(tiff, &place);
  return place;
}

template <class T>
std::string written(const Image<T>& rgb, const TiffOptions& options) {
  Memory memory;
  TIFF* tiff = memory.open(options.big          ? (options.big_endian ? "w8b" : "w8")
                           : options.big_endian ? "wb"
                                                : "wl");
  const Image<T> pixels = samples_of(rgb, options.kind);
  for (int page = 0; page < options.pages; ++page) {
    TIFFSetField(tiff, TIFFTAG_IMAGEWIDTH, pixels.columns);
    TIFFSetField(tiff, TIFFTAG_IMAGELENGTH, pixels.rows);
    TIFFSetField(tiff, TIFFTAG_BITSPERSAMPLE, static_cast<int>(8 * sizeof(T)));
    TIFFSetField(tiff, TIFFTAG_SAMPLESPERPIXEL, pixels.channels);
    TIFFSetField(tiff, TIFFTAG_SAMPLEFORMAT,
                 std::is_floating_point_v<T> ? SAMPLEFORMAT_IEEEFP : SAMPLEFORMAT_UINT);
    TIFFSetField(tiff, TIFFTAG_PHOTOMETRIC, photometric(options.kind));
    TIFFSetField(tiff, TIFFTAG_PLANARCONFIG, options.separate ? PLANARCONFIG_SEPARATE : PLANARCONFIG_CONTIG);
    TIFFSetField(tiff, TIFFTAG_COMPRESSION, options.compression);
    if (options.predictor != 1) TIFFSetField(tiff, TIFFTAG_PREDICTOR, options.predictor);
    if (options.compression == COMPRESSION_JPEG) {
      TIFFSetField(tiff, TIFFTAG_PHOTOMETRIC, PHOTOMETRIC_YCBCR);
      TIFFSetField(tiff, TIFFTAG_JPEGCOLORMODE, JPEGCOLORMODE_RGB);
      TIFFSetField(tiff, TIFFTAG_JPEGQUALITY, 95);
    }
    if (options.tile > 0) {
      TIFFSetField(tiff, TIFFTAG_TILEWIDTH, options.tile);
      TIFFSetField(tiff, TIFFTAG_TILELENGTH, options.tile);
    } else {
      TIFFSetField(tiff, TIFFTAG_ROWSPERSTRIP,
                   options.compression == COMPRESSION_JPEG ? 16 : options.rows_per_strip);
    }
    if (options.orientation != 0) TIFFSetField(tiff, TIFFTAG_ORIENTATION, options.orientation);
    if (options.kind == TiffOptions::Kind::rgba) {
      const std::uint16_t alpha = EXTRASAMPLE_UNASSALPHA;
      TIFFSetField(tiff, TIFFTAG_EXTRASAMPLES, 1, &alpha);
    }
    if (options.kind == TiffOptions::Kind::palette) {  // entry i: (i, 255 - i, i / 2) * 257
      std::array<std::array<std::uint16_t, 256>, 3> map;
      for (int i = 0; i < 256; ++i) {
        const auto u = static_cast<std::size_t>(i);
        map[0][u] = static_cast<std::uint16_t>(i * 257);
        map[1][u] = static_cast<std::uint16_t>((255 - i) * 257);
        map[2][u] = static_cast<std::uint16_t>(i / 2 * 257);
      }
      TIFFSetField(tiff, TIFFTAG_COLORMAP, map[0].data(), map[1].data(), map[2].data());
    }
    if (!options.icc.empty())
      TIFFSetField(tiff, TIFFTAG_ICCPROFILE, static_cast<std::uint32_t>(options.icc.size()),
                   options.icc.data());
    if (options.exif && !options.exif->make.empty())
      TIFFSetField(tiff, TIFFTAG_MAKE, options.exif->make.c_str());
    if (options.exif && !options.exif->model.empty())
      TIFFSetField(tiff, TIFFTAG_MODEL, options.exif->model.c_str());
    write_pixels(tiff, pixels, options);
    if (options.exif) {  // reserve the link, write the directory, then set it
      TIFFSetField(tiff, TIFFTAG_EXIFIFD, toff_t{0});
      TIFFWriteDirectory(tiff);
      const toff_t place = write_exif(tiff, *options.exif);
      TIFFSetDirectory(tiff, 0);
      TIFFSetField(tiff, TIFFTAG_EXIFIFD, place);
      TIFFRewriteDirectory(tiff);
    } else {
      TIFFWriteDirectory(tiff);
    }
  }
  TIFFClose(tiff);
  return memory.bytes;
}

}  // namespace

std::string tiff(const Image8& rgb, const TiffOptions& options) { return written(rgb, options); }
std::string tiff(const Image16& rgb, const TiffOptions& options) { return written(rgb, options); }
std::string tiff(const ImageF& rgb, const TiffOptions& options) { return written(rgb, options); }

std::string dng(const Image16& raw, const DngOptions& options) {
  constexpr int cfa = 32803, linear_raw = 34892;
  Memory memory;
  TIFF* tiff = memory.open("wl");
  const int samples = options.mosaic ? 1 : 3;
  TIFFSetField(tiff, TIFFTAG_SUBFILETYPE, 0);
  TIFFSetField(tiff, TIFFTAG_IMAGEWIDTH, raw.columns);
  TIFFSetField(tiff, TIFFTAG_IMAGELENGTH, raw.rows);
  TIFFSetField(tiff, TIFFTAG_BITSPERSAMPLE, 16);
  TIFFSetField(tiff, TIFFTAG_SAMPLESPERPIXEL, samples);
  TIFFSetField(tiff, TIFFTAG_PHOTOMETRIC, options.mosaic ? cfa : linear_raw);
  TIFFSetField(tiff, TIFFTAG_COMPRESSION, COMPRESSION_NONE);
  TIFFSetField(tiff, TIFFTAG_PLANARCONFIG, PLANARCONFIG_CONTIG);
  TIFFSetField(tiff, TIFFTAG_ROWSPERSTRIP, raw.rows);
  TIFFSetField(tiff, TIFFTAG_ORIENTATION, options.orientation == 0 ? 1 : options.orientation);
  TIFFSetField(tiff, TIFFTAG_MAKE, "Example");
  TIFFSetField(tiff, TIFFTAG_MODEL, "Box 1");
  TIFFSetField(tiff, TIFFTAG_UNIQUECAMERAMODEL, "Example Box 1");
  const std::uint8_t version[] = {1, 4, 0, 0}, backward[] = {1, 1, 0, 0};
  TIFFSetField(tiff, TIFFTAG_DNGVERSION, version);
  TIFFSetField(tiff, TIFFTAG_DNGBACKWARDVERSION, backward);
  if (options.mosaic) {
    const std::uint16_t repeat[] = {2, 2};
    const std::uint8_t filter[] = {0, 1, 1, 2};
    TIFFSetField(tiff, TIFFTAG_CFAREPEATPATTERNDIM, repeat);
    TIFFSetField(tiff, TIFFTAG_CFAPATTERN, 4, filter);
  }
  TIFFSetField(tiff, TIFFTAG_COLORMATRIX1, 9, options.xyz_to_camera.data());
  TIFFSetField(tiff, TIFFTAG_CALIBRATIONILLUMINANT1, options.matrix_light);
  TIFFSetField(tiff, TIFFTAG_ASSHOTNEUTRAL, 3, options.as_shot_neutral.data());
  const std::vector<float> black(static_cast<std::size_t>(samples), static_cast<float>(options.black));
  const std::vector<std::uint32_t> white(static_cast<std::size_t>(samples),
                                         static_cast<std::uint32_t>(options.white));
  const std::uint16_t black_repeat[] = {1, 1};
  TIFFSetField(tiff, TIFFTAG_BLACKLEVELREPEATDIM, black_repeat);
  TIFFSetField(tiff, TIFFTAG_BLACKLEVEL, samples, black.data());
  TIFFSetField(tiff, TIFFTAG_WHITELEVEL, samples, white.data());
  std::vector<std::uint16_t> row(static_cast<std::size_t>(raw.columns) * static_cast<std::size_t>(samples));
  for (int y = 0; y < raw.rows; ++y) {
    for (int x = 0; x < raw.columns; ++x)
      if (options.mosaic)
        row[static_cast<std::size_t>(x)] = raw.at(y, x)[(y % 2) + (x % 2)];
      else
        std::copy_n(raw.at(y, x), 3, row.data() + 3 * x);
    TIFFWriteScanline(tiff, row.data(), static_cast<std::uint32_t>(y), 0);
  }
  if (!options.time_original.empty()) {
    TIFFSetField(tiff, TIFFTAG_EXIFIFD, toff_t{0});
    TIFFWriteDirectory(tiff);
    Exif exif;
    exif.time_original = options.time_original;
    exif.subseconds_original = options.subseconds_original;
    exif.zone_original = options.zone_original;
    exif.exposure_s = {1, 125};
    exif.f_number = {28, 10};
    const toff_t place = write_exif(tiff, exif);
    TIFFSetDirectory(tiff, 0);
    TIFFSetField(tiff, TIFFTAG_EXIFIFD, place);
    TIFFRewriteDirectory(tiff);
  } else {
    TIFFWriteDirectory(tiff);
  }
  TIFFClose(tiff);
  return memory.bytes;
}

}  // namespace colorlib::photo_files
