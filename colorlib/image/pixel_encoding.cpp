#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/chromatic_adaptation.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/image/pixel_encoding_internal.hpp>
#include <functional>

namespace colorlib {
namespace {

/// Every row of `in` through the transform, scaled by `in_scale` before and to the type of `out` after.
template <class In, class Out>
Image<Out> converted(Image<In>&& in, const IccToWideRgb& transform, float in_scale, float out_scale,
                     float rounding) {
  Image<Out> out(in.rows, in.columns, 3);
  std::vector<float> row(static_cast<std::size_t>(in.columns) * 3);
  for (int y = 0; y < in.rows; ++y) {
    const In* from = in.at(y, 0);
    for (std::size_t i = 0; i < row.size(); ++i) row[i] = static_cast<float>(from[i]) * in_scale;
    transform.convert(row.data(), row.data(), static_cast<std::size_t>(in.columns));
    Out* to = out.at(y, 0);
    for (std::size_t i = 0; i < row.size(); ++i) to[i] = static_cast<Out>(row[i] * out_scale + rounding);
  }
  in = {};
  return out;
}

Result<std::monostate> convert_to_wide(const PhotoSource& source, std::string_view icc, Photo::Store& pixels,
                                       PhotoEncoding& encoding) {
  const auto transform = IccToWideRgb::create(icc);
  if (!transform) return fail(transform.error());
  if (auto* p8 = std::get_if<Image8>(&pixels)) {
    const auto fits = check_size(source, p8->columns, p8->rows, 9);
    if (!fits) return fail(fits.error());
    pixels = converted<std::uint8_t, std::uint16_t>(std::move(*p8), *transform, 1.f / 255.f, 65535.f, 0.5f);
  } else if (auto* p16 = std::get_if<Image16>(&pixels)) {
    const auto fits = check_size(source, p16->columns, p16->rows, 12);
    if (!fits) return fail(fits.error());
    pixels =
        converted<std::uint16_t, std::uint16_t>(std::move(*p16), *transform, 1.f / 65535.f, 65535.f, 0.5f);
  } else {
    auto& floats = std::get<ImageF>(pixels);
    transform->convert(floats.data.data(), floats.data.data(), floats.data.size() / 3);
  }
  encoding.native_to_srgb = IccToWideRgb::wide_to_srgb();
  return std::monostate{};
}

/// `linear_of(file value)` as the sRGB-encoding curve of all channels; left out when it is sRGB's own.
void set_curve(const std::function<double(double)>& linear_of, PhotoEncoding& encoding) {
  std::vector<float> curve(icc_curve_nodes);
  double largest_difference = 0;
  for (int i = 0; i < icc_curve_nodes; ++i) {
    const double value = static_cast<double>(i) / (icc_curve_nodes - 1);
    const double encoded = srgb_from_linear(std::clamp(linear_of(value), 0.0, 1.0));
    curve[static_cast<std::size_t>(i)] = static_cast<float>(encoded);
    largest_difference = std::max(largest_difference, std::abs(encoded - value));
  }
  if (largest_difference <= 0.0005) return;
  encoding.to_srgb_curve = {curve, curve, curve};
}

/// Linear RGB of `p` -> XYZ with white at Y = 1; nothing when the primaries are no triangle.
std::optional<Matrix3> to_xyz(const Primaries& p) {
  Matrix3 columns;
  const std::array<std::array<double, 2>, 3> all = {p.red, p.green, p.blue};
  for (int k = 0; k < 3; ++k) {
    const auto [x, y] = all[static_cast<std::size_t>(k)];
    columns(0, k) = x;
    columns(1, k) = y;
    columns(2, k) = 1 - x - y;
  }
  if (!(std::abs(determinant(columns)) > 1e-3) || !(p.white[1] > 0.05)) return {};
  const Vector3 white = {p.white[0] / p.white[1], 1, (1 - p.white[0] - p.white[1]) / p.white[1]};
  const Vector3 share = inverse(columns) * white;
  if (!(share[0] > 0 && share[1] > 0 && share[2] > 0)) return {};
  return columns * Matrix3::diagonal(share[0], share[1], share[2]);
}

constexpr std::array<double, 2> d65_chromaticity = {0.3127, 0.3290};
constexpr Primaries srgb_primaries = {{0.640, 0.330}, {0.300, 0.600}, {0.150, 0.060}, d65_chromaticity};

bool set_primaries(const Primaries& p, PhotoEncoding& encoding) {
  const auto native = to_xyz(p), srgb = to_xyz(srgb_primaries);
  if (!native || !srgb) return false;
  const auto white_of = [](const Matrix3& m) { return xyz_from(m * Vector3{1, 1, 1}); };
  const Matrix3 adapted = adaptation_matrix(white_of(*native), white_of(*srgb), AdaptationMethod::bradford);
  const Matrix3 matrix = inverse(*srgb) * adapted * *native;
  double away = 0;
  for (std::size_t i = 0; i < 9; ++i) {
    if (!std::isfinite(matrix.m[i]) || std::abs(matrix.m[i]) > 20) return false;
    away = std::max(away, std::abs(matrix.m[i] - Matrix3::identity().m[i]));
  }
  encoding.native_to_srgb = away <= 0.002 ? Matrix3::identity() : matrix;
  return true;
}

struct NamedPrimaries {
  int code;
  std::string_view name;
  Primaries values;
};

// ITU-T H.273 (12/2016) table 2.
constexpr std::array<double, 2> c_chromaticity = {0.310, 0.316};
constexpr NamedPrimaries known_primaries[] = {
    {1, "BT.709", srgb_primaries},
    {4, "BT.470 M", {{0.67, 0.33}, {0.21, 0.71}, {0.14, 0.08}, c_chromaticity}},
    {5, "BT.601 625", {{0.64, 0.33}, {0.29, 0.60}, {0.15, 0.06}, d65_chromaticity}},
    {6, "BT.601 525", {{0.630, 0.340}, {0.310, 0.595}, {0.155, 0.070}, d65_chromaticity}},
    {7, "SMPTE 240M", {{0.630, 0.340}, {0.310, 0.595}, {0.155, 0.070}, d65_chromaticity}},
    {9, "BT.2020", {{0.708, 0.292}, {0.170, 0.797}, {0.131, 0.046}, d65_chromaticity}},
    {11, "DCI P3", {{0.680, 0.320}, {0.265, 0.690}, {0.150, 0.060}, {0.314, 0.351}}},
    {12, "Display P3", {{0.680, 0.320}, {0.265, 0.690}, {0.150, 0.060}, d65_chromaticity}},
    {22, "EBU 3213", {{0.630, 0.340}, {0.295, 0.605}, {0.155, 0.077}, d65_chromaticity}},
};

/// The inverse of BT.709's camera curve, H.273 table 3, code 1 (and 6, 14, 15).
double linear_from_bt709(double v) {
  return v < 4.5 * 0.018053968510807 ? v / 4.5
                                     : std::pow((v + 0.09929682680944) / 1.09929682680944, 1 / 0.45);
}
/// The inverse of SMPTE 240M's, code 7.
double linear_from_smpte240(double v) {
  return v < 4 * 0.022821585529445 ? v / 4 : std::pow((v + 0.111572195921731) / 1.111572195921731, 1 / 0.45);
}

}  // namespace

Result<std::monostate> honour_icc(const PhotoSource& source, std::string_view icc, IccChannels channels,
                                  Photo::Store& pixels, PhotoEncoding& encoding,
                                  std::vector<std::string>& remarks) {
  if (icc.empty()) return std::monostate{};
  const auto profile = read_icc_profile(icc, channels);
  if (!profile && profile.error().code == ErrorCode::unreadable_photo) {
    remarks.push_back("the embedded colour profile is damaged, sRGB was assumed");
    return std::monostate{};
  }
  if (!profile)
    return fail(profile.error().code, fmt::format("Reading '{}': {}", source.name, profile.error().message),
                profile.error().advice);
  encoding.profile = profile->description;
  encoding.profile_assumed = false;
  if (profile->lookup_table) {
    const auto done = convert_to_wide(source, icc, pixels, encoding);
    if (!done) return fail(done.error());
    remarks.push_back("the colour profile holds lookup tables; the pixels were converted to wide RGB");
    return std::monostate{};
  }
  encoding.native_to_srgb = profile->native_to_srgb;
  encoding.to_srgb_curve = profile->to_srgb_curve;
  return std::monostate{};
}

Result<std::monostate> honour_code_points(const PhotoSource& source, int primaries, int transfer,
                                          PhotoEncoding& encoding) {
  if (transfer == 16 || transfer == 18)
    return unsupported(
        source,
        fmt::format("it is an HDR picture ({} transfer), a photo with an ordinary tone curve is needed",
                    transfer == 16 ? "PQ" : "HLG"),
        "Switch HDR off in the camera, or export the photo as JPEG in sRGB.");
  constexpr int unspecified = 2;
  PhotoEncoding found = encoding;
  std::string name = "unspecified primaries";
  if (primaries != unspecified) {
    const auto* known = std::find_if(std::begin(known_primaries), std::end(known_primaries),
                                     [&](const NamedPrimaries& p) { return p.code == primaries; });
    if (known == std::end(known_primaries) || !set_primaries(known->values, found))
      return unsupported(
          source,
          fmt::format("it names colour primaries {} of ITU-T H.273, which are not known here", primaries),
          "Export the photo again as sRGB.");
    name = known->name;
  }
  std::string curve = "sRGB curve";
  switch (transfer) {
    case unspecified:
    case 13:
      break;
    case 1:
    case 6:
    case 14:
    case 15:
      set_curve(linear_from_bt709, found), curve = "BT.709 curve";
      break;
    case 4:
      set_curve([](double v) { return std::pow(v, 2.2); }, found), curve = "gamma 2.2";
      break;
    case 5:
      set_curve([](double v) { return std::pow(v, 2.8); }, found), curve = "gamma 2.8";
      break;
    case 7:
      set_curve(linear_from_smpte240, found), curve = "SMPTE 240M curve";
      break;
    case 8:
      set_curve([](double v) { return v; }, found), curve = "linear";
      break;
    default:
      return unsupported(
          source, fmt::format("it names transfer curve {} of ITU-T H.273, which is not known here", transfer),
          "Export the photo again as sRGB.");
  }
  if (primaries == unspecified && transfer == unspecified) return std::monostate{};
  found.profile_assumed = false;
  found.profile = primaries == 1 && curve == "sRGB curve"    ? "sRGB"
                  : primaries == 12 && curve == "sRGB curve" ? "Display P3"
                                                             : fmt::format("{}, {}", name, curve);
  encoding = std::move(found);
  return std::monostate{};
}

bool honour_power(double exponent, const std::optional<Primaries>& primaries, PhotoEncoding& encoding) {
  if (!(exponent >= 0.2 && exponent <= 5)) return false;
  PhotoEncoding found = encoding;
  if (primaries && !set_primaries(*primaries, found)) return false;
  set_curve([exponent](double v) { return std::pow(v, exponent); }, found);
  found.profile = fmt::format("gamma {:.2f}{}", exponent, primaries ? ", primaries in the file" : "");
  found.profile_assumed = false;
  encoding = std::move(found);
  return true;
}

}  // namespace colorlib
