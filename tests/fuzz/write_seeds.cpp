/// Writes one small file of every kind that the decoders know: the seeds of the fuzzers. Usage: write_seeds
/// FOLDER

#include <filesystem>
#include <fstream>
#include <iostream>
#include <tests/colorlib/image/photo_files.hpp>

namespace {

using namespace colorlib;
using namespace colorlib::photo_files;

class Folder {
 public:
  explicit Folder(std::filesystem::path path) : path_(std::move(path)) {
    std::filesystem::create_directories(path_);
  }
  void write(const std::string& name, const std::string& bytes) const {
    std::ofstream(path_ / name, std::ios::binary) << bytes;
  }

 private:
  std::filesystem::path path_;
};

void write_photos(const Folder& folder) {
  const Image8 bytes = pattern_8(24, 17);
  const Image16 words = pattern_16(24, 17);
  const ImageF floats = pattern_float(24, 17);
  Exif exif;
  exif.orientation = 6;
  exif.model = "Box 1";
  exif.time_original = "2031:04:09 10:12:03";
  exif.subseconds_original = "25";
  exif.zone_original = "+02:00";
  exif.exposure_s = {1, 125};
  exif.iso_speed = 100;
  const std::string matrix = matrix_profile(2.2, adobe_primaries, "wide");

  JpegOptions j;
  folder.write("plain.jpg", jpeg(bytes, j));
  j.exif = exif_block(exif), j.icc = matrix, j.progressive = true;
  folder.write("progressive.jpg", jpeg(bytes, j));
  j = {}, j.restart_rows = 1, j.arithmetic = true;
  folder.write("arithmetic.jpg", jpeg(bytes, j));
  for (const auto kind : {JpegOptions::Kind::grey, JpegOptions::Kind::cmyk, JpegOptions::Kind::ycck})
    j = {}, j.kind = kind,
    folder.write("kind-" + std::to_string(static_cast<int>(kind)) + ".jpg", jpeg(bytes, j));

  for (int kind = 0; kind <= static_cast<int>(PngOptions::Kind::palette_transparent); ++kind) {
    PngOptions p;
    p.kind = static_cast<PngOptions::Kind>(kind);
    p.interlaced = kind % 2 == 1;
    p.gamma = kind == 0 ? 0.5 : 0;
    if (kind == 2) p.exif = exif_block(exif);
    if (kind == 1) p.icc = matrix, p.code_points = {12, 13};
    folder.write("kind-" + std::to_string(kind) + ".png", png(bytes, p));
    if (kind < static_cast<int>(PngOptions::Kind::palette))
      folder.write("kind16-" + std::to_string(kind) + ".png", png(words, p));
  }

  for (const int compression : {1, 5, 7, 8, 32773})
    for (const int tile : {0, 16}) {
      TiffOptions t;
      t.compression = compression;
      t.tile = tile;
      t.separate = compression == 8;
      t.orientation = compression == 5 ? 3 : 0;
      const std::string name = std::to_string(compression) + "-" + std::to_string(tile) + ".tif";
      folder.write("bytes-" + name, tiff(bytes, t));
      if (compression == 7) continue;
      folder.write("words-" + name, tiff(words, t));
      folder.write("floats-" + name, tiff(floats, t));
    }
  TiffOptions t;
  t.exif = exif;
  t.icc = matrix;
  folder.write("exif.tif", tiff(bytes, t));
  t = {}, t.kind = TiffOptions::Kind::palette, t.big = true;
  folder.write("palette.tif", tiff(bytes, t));

  DngOptions d;
  d.time_original = exif.time_original;
  folder.write("mosaic.dng", dng(words, d));
  d.mosaic = false;
  folder.write("linear.dng", dng(words, d));

#ifdef TINTFALL_HEIF
  HeifOptions h;
  folder.write("plain.heic", heif(pattern_8(64, 64), h));
  h.turned = 6, h.exif = exif_block(exif), h.icc = matrix;
  folder.write("turned.heic", heif(pattern_8(64, 64), h));
#endif
}

}  // namespace

int main(int count, char** arguments) {
  if (count != 2) {
    std::cerr << "usage: write_seeds FOLDER (three folders are made in it: photos, profiles and rounds)\n";
    return 2;
  }
  const std::filesystem::path root = arguments[1];
  write_photos(Folder(root / "photos"));
  Folder(root / "rounds")
      .write("round.json", R"({"format": "tintfall-round", "version": 1, "title": "t", "tolerance_de00": 2.5,
 "items": [{"id": "A", "title": "a", "reference": {"lab": [50, 1, 2], "lab_expanded": [0.6, 0.5, 0.4], "source": "s"}},
  {"id": "B", "reference": {"record": "ref/b.json", "reading": "W1"}}],
 "collectors": [{"id": "V", "name": "v", "camera": "raw", "light": "window"}],
 "readings": [{"item": "A", "collector": "V", "record": "v/a.json", "reading": "W1"}]})");
  const Folder profiles(root / "profiles");
  profiles.write("matrix.icc", matrix_profile(2.2, adobe_primaries, "wide"));
  profiles.write("srgb.icc", matrix_profile(0, srgb_primaries, "sRGB"));
  profiles.write("grey.icc", grey_profile(1.8));
  profiles.write("cmyk.icc", cmyk_profile());
  profiles.write("tables.icc", table_profile());
  return 0;
}
