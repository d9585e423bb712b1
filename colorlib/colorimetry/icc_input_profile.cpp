#include <fmt/format.h>
#include <lcms2.h>

#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/icc_input_profile.hpp>
#include <colorlib/colorimetry/lcms_handles_internal.hpp>

namespace colorlib {
namespace {

constexpr cmsUInt32Number nodes_an_axis = 33;
constexpr double full_scale = 65535;

struct FreePipeline {
  void operator()(cmsPipeline* pipeline) const { cmsPipelineFree(pipeline); }
};
struct FreeText {
  void operator()(cmsMLU* text) const { cmsMLUfree(text); }
};

/// What the sampling of the table needs.
struct Source {
  const std::function<Lab(const Vector3&)>& lab_of;
  double gamma;
};

cmsUInt16Number word(double share) {
  return static_cast<cmsUInt16Number>(std::lround(std::clamp(share, 0.0, 1.0) * full_scale));
}

cmsInt32Number sample(const cmsUInt16Number in[], cmsUInt16Number out[], void* cargo) {
  const auto& source = *static_cast<const Source*>(cargo);
  Vector3 rgb;
  for (std::size_t k = 0; k < 3; ++k) rgb[k] = std::pow(in[k] / full_scale, source.gamma);
  const Lab lab = source.lab_of(rgb);
  // PCS Lab of version 4: ICC.1:2010, 6.3.4.2.
  out[0] = word(lab.l / 100);
  out[1] = word((lab.a + 128) / 255);
  out[2] = word((lab.b + 128) / 255);
  return 1;
}

bool set_text(cmsHPROFILE profile, cmsTagSignature tag, const std::string& text) {
  const std::unique_ptr<cmsMLU, FreeText> words(cmsMLUalloc(nullptr, 1));
  return words && cmsMLUsetASCII(words.get(), "en", "US", text.c_str()) &&
         cmsWriteTag(profile, tag, words.get());
}

tl::unexpected<Error> refused() {
  return fail(ErrorCode::untrustworthy, "Making the colour profile failed in LittleCMS.",
              "Please report it.");
}

}  // namespace

Result<std::string> icc_input_profile(const std::function<Lab(const Vector3&)>& lab_of, double gamma,
                                      const InputProfileText& text) {
  const Profile profile(cmsCreateProfilePlaceholder(nullptr));
  if (!profile) return refused();
  cmsSetProfileVersion(profile.get(), 4.3);
  cmsSetDeviceClass(profile.get(), cmsSigInputClass);
  cmsSetColorSpace(profile.get(), cmsSigRgbData);
  cmsSetPCS(profile.get(), cmsSigLabData);
  cmsSetHeaderRenderingIntent(profile.get(), INTENT_RELATIVE_COLORIMETRIC);

  const std::unique_ptr<cmsPipeline, FreePipeline> table(cmsPipelineAlloc(nullptr, 3, 3));
  const Curve shaper(cmsBuildGamma(nullptr, 1 / gamma)), straight(cmsBuildGamma(nullptr, 1));
  if (!table || !shaper || !straight) return refused();
  cmsToneCurve* const before[] = {shaper.get(), shaper.get(), shaper.get()};
  cmsToneCurve* const after[] = {straight.get(), straight.get(), straight.get()};
  cmsStage* lookup = cmsStageAllocCLut16bit(nullptr, nodes_an_axis, 3, 3, nullptr);
  const Source source{lab_of, gamma};
  if (lookup == nullptr || !cmsStageSampleCLut16bit(lookup, sample, const_cast<Source*>(&source), 0)) {
    if (lookup != nullptr) cmsStageFree(lookup);
    return refused();
  }
  // The pipeline takes each stage over.
  const bool built =
      cmsPipelineInsertStage(table.get(), cmsAT_END, cmsStageAllocToneCurves(nullptr, 3, before)) &&
      cmsPipelineInsertStage(table.get(), cmsAT_END, lookup) &&
      cmsPipelineInsertStage(table.get(), cmsAT_END, cmsStageAllocToneCurves(nullptr, 3, after));
  const cmsCIEXYZ white = *cmsD50_XYZ();
  if (!built || !cmsWriteTag(profile.get(), cmsSigAToB0Tag, table.get()) ||
      !cmsWriteTag(profile.get(), cmsSigMediaWhitePointTag, &white) ||
      !set_text(profile.get(), cmsSigProfileDescriptionTag, text.description) ||
      !set_text(profile.get(), cmsSigCopyrightTag, text.copyright))
    return refused();
  cmsUInt32Number size = 0;
  if (!cmsSaveProfileToMem(profile.get(), nullptr, &size)) return refused();
  std::string bytes(size, '\0');
  if (!cmsSaveProfileToMem(profile.get(), bytes.data(), &size)) return refused();
  return bytes;
}

struct IccToLab::Parts {
  Profile from, to;
  Transform transform;
};

IccToLab::IccToLab(std::unique_ptr<Parts> parts) : parts_(std::move(parts)) {}
IccToLab::IccToLab(IccToLab&&) noexcept = default;
IccToLab& IccToLab::operator=(IccToLab&&) noexcept = default;
IccToLab::~IccToLab() = default;

Result<IccToLab> IccToLab::create(std::string_view bytes) {
  auto parts = std::make_unique<Parts>();
  parts->from.reset(cmsOpenProfileFromMem(bytes.data(), static_cast<cmsUInt32Number>(bytes.size())));
  parts->to.reset(cmsCreateLab4Profile(nullptr));
  if (parts->from && parts->to && cmsGetColorSpace(parts->from.get()) == cmsSigRgbData)
    parts->transform.reset(cmsCreateTransform(parts->from.get(), TYPE_RGB_DBL, parts->to.get(), TYPE_Lab_DBL,
                                              INTENT_RELATIVE_COLORIMETRIC,
                                              cmsFLAGS_NOOPTIMIZE | cmsFLAGS_NOCACHE));
  if (!parts->transform)
    return fail(ErrorCode::unreadable_photo, "Reading the colour profile: it is no RGB profile.",
                "Make it again.");
  return IccToLab(std::move(parts));
}

Lab IccToLab::lab(const Vector3& rgb) const {
  cmsCIELab lab{};
  cmsDoTransform(parts_->transform.get(), rgb.data(), &lab, 1);
  return {lab.L, lab.a, lab.b};
}

}  // namespace colorlib
