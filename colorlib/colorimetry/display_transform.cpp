#include <lcms2.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <colorlib/colorimetry/display_transform.hpp>
#include <vector>

namespace colorlib {
namespace {

constexpr float half_step = 0.5f / 255;
constexpr int chroma_halvings = 6;

struct CloseProfile {
  void operator()(void* profile) const { cmsCloseProfile(profile); }
};
struct DeleteTransform {
  void operator()(void* transform) const { cmsDeleteTransform(transform); }
};
using Profile = std::unique_ptr<void, CloseProfile>;
using Transform = std::unique_ptr<void, DeleteTransform>;

bool fits(const float* rgb) {
  return std::all_of(rgb, rgb + 3, [](float v) { return v >= -half_step && v <= 1 + half_step; });
}

std::uint8_t byte_from(float value) {
  return static_cast<std::uint8_t>(
      std::lround(255 * std::clamp(std::isfinite(value) ? value : 0.f, 0.f, 1.f)));
}

tl::unexpected<Error> unusable(std::string_view what) {
  return fail(ErrorCode::unreadable_table, "Reading the screen's colour profile: " + std::string(what) + ".",
              "Choose the ICC profile of your screen, or let the screen be taken as sRGB.");
}

}  // namespace

struct DisplayTransform::Parts {
  Transform from_lab, from_srgb;
  bool is_srgb = false;
  std::string description;
};

Result<DisplayTransform> DisplayTransform::from_profile(void* profile, std::string description,
                                                        bool is_srgb) {
  const Profile screen(profile);
  const Profile lab(cmsCreateLab4Profile(nullptr)), srgb(cmsCreate_sRGBProfile());
  auto parts = std::make_shared<Parts>();
  // Both flags: transforms are shared between threads, and nothing is rounded to 16 bits on the way.
  constexpr cmsUInt32Number flags = cmsFLAGS_NOCACHE | cmsFLAGS_NOOPTIMIZE;
  parts->from_lab.reset(cmsCreateTransform(lab.get(), TYPE_Lab_DBL, screen.get(), TYPE_RGB_FLT,
                                           INTENT_RELATIVE_COLORIMETRIC, flags));
  parts->from_srgb.reset(cmsCreateTransform(srgb.get(), TYPE_RGB_FLT, screen.get(), TYPE_RGB_FLT,
                                            INTENT_RELATIVE_COLORIMETRIC, flags));
  if (!parts->from_lab || !parts->from_srgb) return unusable("no way leads from Lab to its pixels");
  parts->is_srgb = is_srgb;
  parts->description = std::move(description);
  return DisplayTransform(std::move(parts));
}

Result<DisplayTransform> DisplayTransform::srgb() {
  return from_profile(cmsCreate_sRGBProfile(), "sRGB", true);
}

Result<DisplayTransform> DisplayTransform::create(std::string_view profile_bytes) {
  Profile profile(
      cmsOpenProfileFromMem(profile_bytes.data(), static_cast<cmsUInt32Number>(profile_bytes.size())));
  if (!profile) return unusable("the file is no sound ICC profile");
  if (cmsGetColorSpace(profile.get()) != cmsSigRgbData) return unusable("it is not of an RGB screen");
  std::array<char, 80> name{};
  cmsGetProfileInfoASCII(profile.get(), cmsInfoDescription, "en", "US", name.data(), name.size() - 1);
  std::string description(name.data());
  std::replace_if(
      description.begin(), description.end(), [](unsigned char c) { return c < 32; }, ' ');
  if (description.empty()) description = "unnamed profile";
  return from_profile(profile.release(), std::move(description), false);
}

void DisplayTransform::from_lab(const Lab* lab, std::uint8_t* rgb, std::uint8_t* clipped,
                                std::size_t colors) const {
  std::vector<float> screen(3 * colors);
  cmsDoTransform(parts_->from_lab.get(), lab, screen.data(), static_cast<cmsUInt32Number>(colors));
  for (std::size_t i = 0; i < colors; ++i) {
    std::array<float, 3> pixel{screen[3 * i], screen[3 * i + 1], screen[3 * i + 2]};
    const bool outside = !fits(pixel.data());
    if (clipped != nullptr) clipped[i] = outside ? 1 : 0;
    if (outside) {
      double kept = 0, step = 0.5;
      for (int halving = 0; halving < chroma_halvings; ++halving, step /= 2) {
        const double share = kept + step;
        const Lab duller{std::clamp(lab[i].l, 0.0, 100.0), share * lab[i].a, share * lab[i].b};
        std::array<float, 3> tried{};
        cmsDoTransform(parts_->from_lab.get(), &duller, tried.data(), 1);
        if (!fits(tried.data())) continue;
        kept = share;
        pixel = tried;
      }
      if (kept == 0) {
        const Lab grey{std::clamp(lab[i].l, 0.0, 100.0), 0, 0};
        cmsDoTransform(parts_->from_lab.get(), &grey, pixel.data(), 1);
      }
    }
    for (std::size_t k = 0; k < 3; ++k) rgb[3 * i + k] = byte_from(pixel[k]);
  }
}

void DisplayTransform::from_srgb(const float* srgb, std::uint8_t* rgb, std::size_t pixels) const {
  if (parts_->is_srgb) {
    std::transform(srgb, srgb + 3 * pixels, rgb, byte_from);
    return;
  }
  std::vector<float> screen(3 * pixels);
  cmsDoTransform(parts_->from_srgb.get(), srgb, screen.data(), static_cast<cmsUInt32Number>(pixels));
  std::transform(screen.begin(), screen.end(), rgb, byte_from);
}

const std::string& DisplayTransform::description() const { return parts_->description; }

}  // namespace colorlib
