#include <fmt/format.h>
#include <libraw/libraw.h>

#include <algorithm>
#include <cmath>
#include <colorlib/image/decode_internal.hpp>
#include <colorlib/image/upright_rows_internal.hpp>
#include <memory>

namespace colorlib {
namespace {

/// What LibRaw passes by while it reads the EXIF part of any raw format.
struct ExifTexts {
  std::string time, subseconds, zone;
};

void keep_exif_text(void* context, int tag, int type, int length, unsigned, void* stream, INT64) {
  auto& texts = *static_cast<ExifTexts*>(context);
  constexpr int ascii = 2, original = 0x9003, original_subseconds = 0x9291, original_zone = 0x9011;
  std::string* wanted = tag == original              ? &texts.time
                        : tag == original_subseconds ? &texts.subseconds
                        : tag == original_zone       ? &texts.zone
                                                     : nullptr;
  if (!wanted || type != ascii || length < 1 || length > 64) return;
  char text[65] = {};
  if (static_cast<LibRaw_abstract_datastream*>(stream)->read(text, 1, static_cast<std::size_t>(length)) > 0)
    *wanted = text;
}

/// Camera-linear RGB without surprises: no curve, no brightening, no white balance, no highlight tricks.
void ask_for_linear(libraw_output_params_t& p) {
  p.output_bps = 16;
  p.gamm[0] = p.gamm[1] = 1.0;
  p.no_auto_bright = 1;
  p.adjust_maximum_thr = 0.f;  // else the brightest pixel of each photo would set the scale
  p.output_color = 0;          // the camera's own primaries
  p.use_camera_matrix = 0;
  p.use_camera_wb = p.use_auto_wb = 0;
  for (float& gain : p.user_mul) gain = 1.f;
  p.highlight = 0;
  p.user_flip = 0;
  p.user_qual = 2;  // pixel grouping: linear where the picture is smooth, in half the default's time
}

/// LibRaw's bits (1: mirrored left-right, 2: upside down, 4: rows and columns swapped first) as EXIF writes
/// it.
int orientation_from_flip(int flip) {
  constexpr int orientations[] = {1, 2, 4, 3, 5, 8, 6, 7};
  return flip >= 0 && flip < 8 ? orientations[flip] : 1;
}

/// Camera RGB -> linear sRGB as the camera meant to show it: its as-shot white balance, then its colour
/// matrix.
Matrix3 camera_to_srgb(const libraw_colordata_t& color) {
  Vector3 gain = {color.cam_mul[0], color.cam_mul[1], color.cam_mul[2]};
  const auto usable = [](const Vector3& v) {
    return std::all_of(v.begin(), v.end(), [](double g) { return std::isfinite(g) && g > 0; });
  };
  if (!usable(gain)) gain = {color.pre_mul[0], color.pre_mul[1], color.pre_mul[2]};
  if (!usable(gain)) gain = {1, 1, 1};
  // Known cameras' matrices are in rgb_cam, that of a DNG file in cmatrix, since use_camera_matrix is off.
  Matrix3 matrix;
  const auto fill = [&matrix](const float(&rows)[3][4]) {
    for (int r = 0; r < 3; ++r)
      for (int c = 0; c < 3; ++c) matrix(r, c) = static_cast<double>(rows[r][c]);
  };
  fill(color.rgb_cam);
  if (matrix == Matrix3::identity() && color.cmatrix[0][0] > 0.125f) fill(color.cmatrix);
  const bool sound = std::all_of(matrix.m.begin(), matrix.m.end(),
                                 [](double v) { return std::isfinite(v) && std::abs(v) < 20; });
  if (!sound || std::abs(determinant(matrix)) < 1e-6) matrix = Matrix3::identity();
  matrix = matrix * Matrix3::diagonal(gain[0] / gain[1], 1, gain[2] / gain[1]);
  const bool finite = std::all_of(matrix.m.begin(), matrix.m.end(),
                                  [](double v) { return std::isfinite(v) && std::abs(v) < 1e3; });
  return finite ? matrix : Matrix3::identity();
}

/// Whether one of a DNG's matrices is for a kind of daylight; values of LightSource, CIPA DC-008, 4.6.5 G.
bool matrix_for_daylight(const libraw_dng_color_t (&matrices)[2]) {
  constexpr unsigned kinds[] = {1, 9, 10, 11, 20, 21, 22, 23};  // fine weather, cloudy, shade, D55 to D50
  return std::any_of(std::begin(matrices), std::end(matrices), [&](const auto& matrix) {
    return std::find(std::begin(kinds), std::end(kinds), matrix.illuminant) != std::end(kinds);
  });
}

/// By the matrix of a DNG or of LibRaw's list of cameras: its multipliers make a white of D65 grey.
std::optional<Vector3> daylight_white(const LibRaw& raw) {
  const auto& color = raw.imgdata.color;
  const Vector3 gain = {color.pre_mul[0], color.pre_mul[1], color.pre_mul[2]};
  const bool listed =
      std::any_of(std::begin(color.cam_xyz[0]), std::end(color.cam_xyz[0]), [](float v) { return v != 0; });
  const bool known = raw.imgdata.idata.dng_version ? matrix_for_daylight(color.dng_color) : listed;
  const bool sound =
      std::all_of(gain.begin(), gain.end(), [](double g) { return std::isfinite(g) && g > 0; });
  if (!known || !sound) return {};
  return Vector3{gain[1] / gain[0], 1, gain[1] / gain[2]};
}

std::optional<double> positive(double value) {
  if (std::isfinite(value) && value > 0) return value;
  return {};
}

CaptureMetadata read_capture(const LibRaw& raw, const ExifTexts& texts) {
  CaptureMetadata capture;
  capture.captured = capture_time_from_exif(texts.time, texts.subseconds, texts.zone);
  capture.orientation = orientation_from_flip(raw.imgdata.sizes.flip);
  capture.exposure_s = positive(raw.imgdata.other.shutter);
  capture.f_number = positive(raw.imgdata.other.aperture);
  capture.iso_speed = positive(raw.imgdata.other.iso_speed);
  capture.focal_length_mm = positive(raw.imgdata.other.focal_len);
  const auto text = [](const char* field, std::size_t room) {
    return std::string(field, strnlen(field, room));
  };
  capture.camera_make = text(raw.imgdata.idata.make, sizeof raw.imgdata.idata.make);
  capture.camera_model = text(raw.imgdata.idata.model, sizeof raw.imgdata.idata.model);
  return capture;
}

/// LibRaw's four-channel 16-bit result, upright.
Image16 upright(const libraw_data_t& data, bool grey, int orientation) {
  const int width = data.sizes.width, height = data.sizes.height;
  UprightRows<std::uint16_t> rows(width, height, orientation);
  for (int y = 0; y < height; ++y) {
    const ushort(*from)[4] = data.image + static_cast<std::size_t>(y) * static_cast<std::size_t>(width);
    std::uint16_t* to = rows.row(y);
    for (int x = 0; x < width; ++x, ++from, to += 3) {
      to[0] = (*from)[0];
      to[1] = (*from)[grey ? 0 : 1];
      to[2] = (*from)[grey ? 0 : 2];
    }
    rows.row_done(y);
  }
  return rows.take();
}

tl::unexpected<Error> failure(const PhotoSource& source, int code) {
  if (code == LIBRAW_FILE_UNSUPPORTED || code == LIBRAW_NOT_IMPLEMENTED ||
      code == LIBRAW_REQUEST_FOR_NONEXISTENT_IMAGE)
    return unsupported(
        source,
        fmt::format("it looks like camera raw of a kind that LibRaw {} does not know", LibRaw::version()),
        "Convert it to DNG, or use the camera's JPEG.");
  return unreadable(source, fmt::format("the camera raw data are damaged or end early ({})",
                                        reason_of(LibRaw::strerror(code))));
}

/// In a linear DNG LibRaw 0.20 keeps the black level per channel, with none for the fourth channel that is
/// not there, and so finds no level common to all: it subtracts black from the values but not from white,
/// and 1.0 comes out darker.
void share_black_level(libraw_colordata_t& color) {
  const unsigned common = std::min({color.cblack[0], color.cblack[1], color.cblack[2]});
  color.black += common;
  for (int k = 0; k < 3; ++k) color.cblack[k] -= common;
}

/// Fails when a step of LibRaw failed or met data that are not there.
bool failed(int code, LibRaw& raw) { return code != LIBRAW_SUCCESS || raw.error_count() > 0; }

}  // namespace

Result<Photo> decode_raw(const PhotoSource& source) {
  const auto raw = std::make_unique<LibRaw>();  // 750 KB: not on the stack
  ExifTexts texts;
  raw->set_exifparser_handler(keep_exif_text, &texts);
  raw->set_dataerror_handler([](void*, const char*, int) {}, nullptr);  // the default prints
  raw->set_progress_handler(
      [](void* asked, LibRaw_progress, int, int) {
        return static_cast<int>(static_cast<const PhotoSource*>(asked)->stopped());
      },
      const_cast<PhotoSource*>(&source));  // only read from
  auto& data = raw->imgdata;
  ask_for_linear(data.params);
  data.params.max_raw_memory_mb = static_cast<unsigned>(source.limits.memory_bytes >> 20);

  // LibRaw takes a pointer that is not const and only reads from it.
  int code = raw->open_buffer(const_cast<char*>(source.bytes.data()), source.bytes.size());
  if (code != LIBRAW_SUCCESS) return failure(source, code);
  if (data.idata.colors != 3 && data.idata.colors != 1)
    return unsupported(source, fmt::format("the sensor has {} colours, three are needed", data.idata.colors),
                       "Use the camera's JPEG.");
  // 2 to 6 bytes of raw values, 8 of LibRaw's working raster, 6 of the result; the raw frame may exceed the
  // picture.
  const double per_pixel = data.idata.filters == 0 && data.idata.colors == 3 ? 22 : 18;
  const auto raw_fits = check_size(source, data.sizes.raw_width, data.sizes.raw_height, per_pixel);
  if (!raw_fits) return fail(raw_fits.error());
  const auto fits = check_size(source, data.sizes.width, data.sizes.height, per_pixel);
  if (!fits) return fail(fits.error());

  CaptureMetadata capture = read_capture(*raw, texts);
  PhotoEncoding encoding;
  encoding.kind = EncodingKind::linear_sensor;
  encoding.profile = "camera primaries";
  encoding.profile_assumed = false;
  encoding.bits_per_channel = 16;
  encoding.native_to_srgb = camera_to_srgb(raw->imgdata.color);
  const bool grey = data.idata.colors == 1;
  if (!grey) encoding.daylight_white = daylight_white(*raw);

  code = raw->unpack();
  if (data.idata.filters == 0 && data.idata.colors == 3 && data.idata.dng_version != 0)
    share_black_level(data.rawdata.color);  // from where processing starts
  if (failed(code, *raw)) return failure(source, code == LIBRAW_SUCCESS ? LIBRAW_IO_ERROR : code);
  code = raw->dcraw_process();
  if (failed(code, *raw) || !data.image)
    return failure(source, code == LIBRAW_SUCCESS ? LIBRAW_DATA_ERROR : code);
  const auto processed_fits = check_size(source, data.sizes.width, data.sizes.height, per_pixel);
  if (!processed_fits) return fail(processed_fits.error());

  Image16 pixels = upright(data, grey, capture.orientation);
  Photo photo(std::move(pixels), std::move(encoding), std::move(capture), source.short_name());
  if (grey) photo.remarks.push_back("the photo is grey: all three channels are the same");
  return photo;
}

}  // namespace colorlib
