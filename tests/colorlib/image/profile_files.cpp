#include <lcms2.h>

#include "photo_files.hpp"

namespace colorlib::photo_files {
namespace {

std::string saved(cmsHPROFILE profile) {
  cmsUInt32Number size = 0;
  cmsSaveProfileToMem(profile, nullptr, &size);
  std::string bytes(size, '\0');
  cmsSaveProfileToMem(profile, bytes.data(), &size);
  cmsCloseProfile(profile);
  return bytes;
}

constexpr cmsCIExyY d65 = {0.3127, 0.3290, 1.0};

}  // namespace

std::string matrix_profile(double exponent, std::array<double, 6> p, const std::string& name) {
  const cmsCIExyYTRIPLE primaries = {{p[0], p[1], 1}, {p[2], p[3], 1}, {p[4], p[5], 1}};
  const cmsFloat64Number srgb[5] = {2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045};
  cmsToneCurve* curve =
      exponent > 0 ? cmsBuildGamma(nullptr, exponent) : cmsBuildParametricToneCurve(nullptr, 4, srgb);
  cmsToneCurve* const curves[] = {curve, curve, curve};
  cmsHPROFILE profile = cmsCreateRGBProfile(&d65, &primaries, curves);
  cmsFreeToneCurve(curve);
  cmsMLU* text = cmsMLUalloc(nullptr, 1);
  cmsMLUsetASCII(text, "en", "US", name.c_str());
  cmsWriteTag(profile, cmsSigProfileDescriptionTag, text);
  cmsMLUfree(text);
  return saved(profile);
}

std::string grey_profile(double exponent) {
  cmsToneCurve* curve = cmsBuildGamma(nullptr, exponent);
  cmsHPROFILE profile = cmsCreateGrayProfile(cmsD50_xyY(), curve);
  cmsFreeToneCurve(curve);
  return saved(profile);
}

std::string cmyk_profile() {
  cmsHPROFILE profile = cmsCreateInkLimitingDeviceLink(cmsSigCmykData, 300);
  cmsSetDeviceClass(profile, cmsSigOutputClass);
  cmsSetPCS(profile, cmsSigLabData);
  return saved(profile);
}

std::string table_profile() {
  // sRGB as a table of 17^3 points towards Lab, sampled through LittleCMS itself.
  cmsHPROFILE from = cmsCreate_sRGBProfile(), lab = cmsCreateLab4Profile(nullptr);
  cmsHTRANSFORM transform = cmsCreateTransform(from, TYPE_RGB_16, lab, TYPE_Lab_16,
                                               INTENT_RELATIVE_COLORIMETRIC, cmsFLAGS_NOOPTIMIZE);
  cmsPipeline* pipeline = cmsPipelineAlloc(nullptr, 3, 3);
  cmsStage* table = cmsStageAllocCLut16bit(nullptr, 17, 3, 3, nullptr);
  cmsStageSampleCLut16bit(
      table,
      [](const cmsUInt16Number in[], cmsUInt16Number out[], void* t) -> cmsInt32Number {
        cmsDoTransform(t, in, out, 1);
        return 1;
      },
      transform, 0);
  cmsPipelineInsertStage(pipeline, cmsAT_BEGIN, cmsStageAllocToneCurves(nullptr, 3, nullptr));
  cmsPipelineInsertStage(pipeline, cmsAT_END, table);
  cmsPipelineInsertStage(pipeline, cmsAT_END, cmsStageAllocToneCurves(nullptr, 3, nullptr));
  cmsHPROFILE profile = cmsCreateProfilePlaceholder(nullptr);
  cmsSetProfileVersion(profile, 4.3);
  cmsSetDeviceClass(profile, cmsSigInputClass);
  cmsSetColorSpace(profile, cmsSigRgbData);
  cmsSetPCS(profile, cmsSigLabData);
  cmsMLU* text = cmsMLUalloc(nullptr, 1);
  cmsMLUsetASCII(text, "en", "US", "tables of sRGB");
  cmsWriteTag(profile, cmsSigProfileDescriptionTag, text);
  cmsWriteTag(profile, cmsSigMediaWhitePointTag, cmsD50_XYZ());
  cmsWriteTag(profile, cmsSigAToB0Tag, pipeline);
  cmsMLUfree(text);
  cmsPipelineFree(pipeline);
  cmsDeleteTransform(transform);
  cmsCloseProfile(from);
  cmsCloseProfile(lab);
  return saved(profile);
}

}  // namespace colorlib::photo_files
