#include <fmt/format.h>
#include <lcms2.h>

#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/colorimetry/icc.hpp>
#include <colorlib/colorimetry/lcms_handles_internal.hpp>
#include <cstdint>

namespace colorlib {
namespace {

/// A LittleCMS context that keeps the first reason it was given.
class Context {
 public:
  Context() : handle_(cmsCreateContext(nullptr, this)) {
    if (handle_) cmsSetLogErrorHandlerTHR(handle_, &Context::log);
  }
  Context(const Context&) = delete;
  Context& operator=(const Context&) = delete;
  ~Context() {
    if (handle_) cmsDeleteContext(handle_);
  }
  cmsContext handle() const { return handle_; }
  const std::string& reason() const { return reason_; }

 private:
  static void log(cmsContext context, cmsUInt32Number, const char* text) {
    auto* self = static_cast<Context*>(cmsGetContextUserData(context));
    if (self && self->reason_.empty()) self->reason_ = text;
  }
  cmsContext handle_;
  std::string reason_;
};

const std::string advice_other = "Export the photo again as sRGB.";

tl::unexpected<Error> damaged(const std::string& reason) {
  return fail(ErrorCode::unreadable_photo,
              fmt::format("Reading the embedded colour profile: it is damaged ({}).", reason), advice_other);
}

tl::unexpected<Error> other_kind(const std::string& what) {
  return fail(
      ErrorCode::unsupported_photo,
      fmt::format("Reading the embedded colour profile: it is {}, which cannot belong to these pixels.",
                  what),
      advice_other);
}

/// Four characters of the header as a number. Read from the bytes, because LittleCMS hands even nonsense out
/// as one of its enumerators. Source: ICC.1:2010, 7.2.
std::uint32_t signature_at(std::string_view bytes, std::size_t place) {
  std::uint32_t value = 0;
  for (std::size_t i = 0; i < 4; ++i) value = (value << 8) | static_cast<unsigned char>(bytes[place + i]);
  return value;
}
constexpr std::size_t class_place = 12, space_place = 16, connection_place = 20;

std::string space_name(std::uint32_t space) {
  switch (space) {
    case cmsSigRgbData:
      return "RGB";
    case cmsSigGrayData:
      return "grey";
    case cmsSigCmykData:
      return "CMYK";
    case cmsSigCmyData:
      return "CMY";
    case cmsSigLabData:
      return "Lab";
    case cmsSigXYZData:
      return "XYZ";
    case cmsSigYCbCrData:
      return "YCbCr";
    default:
      return "another colour space";
  }
}

/// Printable ASCII only: the text reaches terminals and records.
std::string description_of(cmsHPROFILE profile) {
  char text[256] = {};
  cmsGetProfileInfoASCII(profile, cmsInfoDescription, "en", "US", text, sizeof text - 1);
  std::string name;
  for (const char* c = text; *c != '\0' && name.size() < 80; ++c)
    if (*c >= 0x20 && *c < 0x7f) name += *c;
  const auto last = name.find_last_not_of(' ');
  return last == std::string::npos ? "unnamed profile" : name.substr(0, last + 1);
}

Result<Profile> open_profile(Context& context, std::string_view bytes) {
  if (bytes.size() < 132) return damaged(fmt::format("{} bytes are too few", bytes.size()));
  if (bytes.size() > icc_limit_bytes) return damaged(fmt::format("{} bytes are too many", bytes.size()));
  Profile profile(
      cmsOpenProfileFromMemTHR(context.handle(), bytes.data(), static_cast<cmsUInt32Number>(bytes.size())));
  if (!profile) return damaged(context.reason().empty() ? "no profile was recognised" : context.reason());
  return profile;
}

/// Fails unless the profile describes devices or spaces of the wanted channels.
Result<std::monostate> check_kind(std::string_view bytes, IccChannels channels) {
  const std::uint32_t kind = signature_at(bytes, class_place);
  if (kind == cmsSigNamedColorClass) return other_kind("a list of named colours");
  if (kind == cmsSigLinkClass) return other_kind("a link between two devices");
  if (kind == cmsSigAbstractClass) return other_kind("an abstract effect");
  if (kind != cmsSigInputClass && kind != cmsSigDisplayClass && kind != cmsSigOutputClass &&
      kind != cmsSigColorSpaceClass)
    return damaged("its class is unknown");
  const std::uint32_t space = signature_at(bytes, space_place);
  const bool fits = space == cmsSigRgbData || (space == cmsSigGrayData && channels == IccChannels::grey);
  if (!fits) return other_kind(fmt::format("for {}", space_name(space)));
  return std::monostate{};
}

bool has_lookup_tables(cmsHPROFILE profile) {
  for (const auto tag : {cmsSigAToB0Tag, cmsSigAToB1Tag, cmsSigAToB2Tag, cmsSigDToB0Tag, cmsSigDToB1Tag})
    if (cmsIsTag(profile, tag)) return true;
  return false;
}

/// Linear value of the file value; never decreasing, within [0, 1], or an empty vector.
std::vector<double> sampled(const cmsToneCurve* curve) {
  std::vector<double> linear(icc_curve_nodes);
  double before = -1e-6;
  for (int i = 0; i < icc_curve_nodes; ++i) {
    const double value = cmsEvalToneCurveFloat(curve, static_cast<float>(i) / (icc_curve_nodes - 1));
    if (!std::isfinite(value) || value < before - 1e-4) return {};
    before = std::max(before, value);
    linear[static_cast<std::size_t>(i)] = std::clamp(value, 0.0, 1.0);
  }
  if (linear.back() < 0.5) return {};
  return linear;
}

/// Light of an L* in [0, 1] instead of [0, 100]; grey curves end in L* where the profile's connection space
/// is Lab.
double light_of_lightness(double l) {
  return l > 0.08 ? std::pow((l + 0.16) / 1.16, 3) : l * 2700.0 / 24389.0;  // [ISO/CIE 11664-4, inverted]
}

/// The curve tags of `tags` as sRGB-encoding curves; false when one is missing or no curve of a display or
/// camera.
bool read_curves(cmsHPROFILE profile, const std::array<cmsTagSignature, 3>& tags, bool ends_in_lightness,
                 std::array<std::vector<float>, 3>& curves) {
  double largest_difference = 0;
  for (std::size_t k = 0; k < 3; ++k) {
    const auto* curve = static_cast<const cmsToneCurve*>(cmsReadTag(profile, tags[k]));
    const auto linear = curve ? sampled(curve) : std::vector<double>{};
    if (linear.empty()) return false;
    curves[k].resize(linear.size());
    for (std::size_t i = 0; i < linear.size(); ++i) {
      const double encoded = srgb_from_linear(ends_in_lightness ? light_of_lightness(linear[i]) : linear[i]);
      curves[k][i] = static_cast<float>(encoded);
      largest_difference =
          std::max(largest_difference, std::abs(encoded - static_cast<double>(i) / (icc_curve_nodes - 1)));
    }
  }
  if (largest_difference <= 0.0005)
    for (auto& curve : curves) curve.clear();
  return true;
}

bool read_colorants(cmsHPROFILE profile, Matrix3& native_to_d50) {
  const std::array<cmsTagSignature, 3> tags = {cmsSigRedColorantTag, cmsSigGreenColorantTag,
                                               cmsSigBlueColorantTag};
  for (int k = 0; k < 3; ++k) {
    const auto* xyz = static_cast<const cmsCIEXYZ*>(cmsReadTag(profile, tags[static_cast<std::size_t>(k)]));
    if (!xyz) return false;
    native_to_d50(0, k) = xyz->X;
    native_to_d50(1, k) = xyz->Y;
    native_to_d50(2, k) = xyz->Z;
  }
  // Their sum is the white: anything far from Y = 1, or primaries in one plane, is no photograph's profile.
  const double white_y = native_to_d50(1, 0) + native_to_d50(1, 1) + native_to_d50(1, 2);
  return std::isfinite(white_y) && white_y > 0.5 && white_y < 1.5 &&
         std::abs(determinant(native_to_d50)) > 1e-3;
}

/// Colorants of sRGB relative to D50, rounded to s15Fixed16 as in profiles [IEC 61966-2-1 adapted by ICC.1
/// annex E].
Matrix3 srgb_to_d50() {
  return {{0.43606567, 0.38514709, 0.14307785, 0.22248840, 0.71687317, 0.06060791, 0.01391602, 0.09707642,
           0.71409607}};
}

void snap_to_identity(Matrix3& matrix) {
  const Matrix3 identity = Matrix3::identity();
  for (std::size_t i = 0; i < 9; ++i)
    if (std::abs(matrix.m[i] - identity.m[i]) > 0.002) return;
  matrix = identity;
}

Profile wide_rgb(cmsContext context) {
  // Primaries of ITU-R BT.2020-2 table 3; white D65; curve of IEC 61966-2-1 as ICC's parametric type 3
  // (LittleCMS 4).
  const cmsCIExyY white = {0.3127, 0.3290, 1.0};
  const cmsCIExyYTRIPLE primaries = {{0.708, 0.292, 1.0}, {0.170, 0.797, 1.0}, {0.131, 0.046, 1.0}};
  const cmsFloat64Number srgb[5] = {2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045};
  const Curve curve(cmsBuildParametricToneCurve(context, 4, srgb));
  if (!curve) return nullptr;
  cmsToneCurve* const three[3] = {curve.get(), curve.get(), curve.get()};
  return Profile(cmsCreateRGBProfileTHR(context, &white, &primaries, three));
}

}  // namespace

Result<IccProfile> read_icc_profile(std::string_view bytes, IccChannels channels) {
  Context context;
  auto profile = open_profile(context, bytes);
  if (!profile) return fail(profile.error());
  const auto kind = check_kind(bytes, channels);
  if (!kind) return fail(kind.error());

  IccProfile found;
  found.description = description_of(profile->get());
  if (signature_at(bytes, space_place) == cmsSigGrayData) {
    const bool lightness = signature_at(bytes, connection_place) == cmsSigLabData;
    if (!read_curves(profile->get(), {cmsSigGrayTRCTag, cmsSigGrayTRCTag, cmsSigGrayTRCTag}, lightness,
                     found.to_srgb_curve))
      return damaged("its grey curve is missing or falls");
    return found;
  }
  if (has_lookup_tables(profile->get())) {
    found.lookup_table = true;
    const auto usable = IccToWideRgb::create(bytes);
    if (!usable) return fail(usable.error());
    return found;
  }
  Matrix3 native_to_d50;
  if (!read_colorants(profile->get(), native_to_d50))
    return damaged("its primaries are missing or impossible");
  if (!read_curves(profile->get(), {cmsSigRedTRCTag, cmsSigGreenTRCTag, cmsSigBlueTRCTag}, false,
                   found.to_srgb_curve))
    return damaged("a tone curve is missing or falls");
  found.native_to_srgb = inverse(srgb_to_d50()) * native_to_d50;
  snap_to_identity(found.native_to_srgb);
  return found;
}

struct IccToWideRgb::Parts {
  Context context;
  Transform transform;  // goes before its context
};

IccToWideRgb::IccToWideRgb(std::unique_ptr<Parts> parts) : parts_(std::move(parts)) {}
IccToWideRgb::IccToWideRgb(IccToWideRgb&&) noexcept = default;
IccToWideRgb& IccToWideRgb::operator=(IccToWideRgb&&) noexcept = default;
IccToWideRgb::~IccToWideRgb() = default;

Result<IccToWideRgb> IccToWideRgb::create(std::string_view profile_bytes) {
  auto parts = std::make_unique<Parts>();
  auto profile = open_profile(parts->context, profile_bytes);
  if (!profile) return fail(profile.error());
  const auto kind = check_kind(profile_bytes, IccChannels::rgb);
  if (!kind) return fail(kind.error());
  const Profile wide = wide_rgb(parts->context.handle());
  if (wide)
    parts->transform.reset(cmsCreateTransformTHR(parts->context.handle(), profile->get(), TYPE_RGB_FLT,
                                                 wide.get(), TYPE_RGB_FLT, INTENT_RELATIVE_COLORIMETRIC,
                                                 cmsFLAGS_NOCACHE));
  if (!parts->transform)
    return damaged(parts->context.reason().empty() ? "no transform can be made of it"
                                                   : parts->context.reason());
  return IccToWideRgb(std::move(parts));
}

void IccToWideRgb::convert(const float* in, float* out, std::size_t pixels) const {
  constexpr std::size_t at_once = 1u << 20;  // LittleCMS counts pixels in 32 bits
  for (std::size_t done = 0; done < pixels; done += at_once) {
    const std::size_t now = std::min(at_once, pixels - done);
    cmsDoTransform(parts_->transform.get(), in + 3 * done, out + 3 * done, static_cast<cmsUInt32Number>(now));
  }
  for (std::size_t i = 0; i < 3 * pixels; ++i)
    out[i] = out[i] > 0.f ? std::min(out[i], 1.f) : 0.f;  // NaN -> 0
}

Matrix3 IccToWideRgb::wide_to_srgb() {
  // The inverse of ITU-R BT.2087-0 (linear BT.709 in terms of BT.2020; sRGB has BT.709's primaries and
  // white).
  return inverse(Matrix3{{0.6274, 0.3293, 0.0433, 0.0691, 0.9195, 0.0114, 0.0164, 0.0880, 0.8956}});
}

}  // namespace colorlib
