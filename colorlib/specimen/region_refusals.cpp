#include <fmt/format.h>

#include <colorlib/chart/patch_sampler.hpp>
#include <colorlib/specimen/photo_limits.hpp>
#include <colorlib/specimen/region_reading.hpp>
#include <colorlib/specimen/region_refusals_internal.hpp>

namespace colorlib {
namespace {

constexpr double least_pixels = 40;
constexpr double most_outside_share = 0.1;  // of a region: beyond the photo
constexpr double most_clipped_share = 0.15;
constexpr double most_glint_share = 0.4;
constexpr double white_l = 100;
/// The bottom of the range is as good as black in a photo as the camera wrote it: in 90 simulated phone
/// photos (tuning scenes) it stood for L* 0.1 to 2.5, and vivid colours beyond the file's range lie there
/// unharmed. In 24 of them made darker by a tenth of the range it stood for L* 3 to 9, and 8 of 14 regions
/// with many pixels there would have been off by more than their tolerance, up to ΔE00 7.
constexpr double black_l = 4;

Error refusal(std::string message, std::string advice) {
  return {ErrorCode::untrustworthy, std::move(message), std::move(advice)};
}

}  // namespace

std::optional<Error> unreadable(const RegionPixels& found, const Region& region) {
  const std::string& id = region.id;
  if (found.outside_share > most_outside_share)
    return refusal(fmt::format("Reading region '{}': {:.0f} % of it lies outside the photo.", id,
                               100 * found.outside_share),
                   "Take the photo again with the whole opening in view.");
  if (region.found && found.area_mm2 > 0 && found.photo_pixels < least_pixels)
    return refusal(fmt::format("Reading region '{}': only {:.0f} pixels of it lie clear of its edges, into "
                               "which the ground's colour is blurred; at least {:.0f} are needed.",
                               id, found.photo_pixels, least_pixels),
                   "Move the camera closer and tap on the sheet to focus.");
  if (found.pixels.empty())
    return refusal(
        fmt::format(
            "Reading region '{}': its outline encloses no area, at least {:.0f} pixels of the photo are "
            "needed.",
            id, least_pixels),
        "Draw it round the place that is meant: its points may not lie on one line.");
  if (found.photo_pixels < least_pixels)
    return refusal(
        fmt::format("Reading region '{}': it covers {:.0f} pixels of the photo, at least {:.0f} are needed.",
                    id, found.photo_pixels, least_pixels),
        "Draw a larger region or move the camera closer.");
  if (found.clipped_share > most_clipped_share)
    return refusal(fmt::format("Reading region '{}': {:.0f} % of its pixels are over-exposed.", id,
                               100 * found.clipped_share),
                   "Take the photo again with less exposure or without the glare.");
  return std::nullopt;
}

std::optional<Error> under_exposed(const RegionPixels& found, double bottom_l, const std::string& id) {
  if (found.dark_share <= SampleOptions{}.most_dark_share || bottom_l <= black_l) return std::nullopt;
  return refusal(
      fmt::format("Reading region '{}': {:.0f} % of its pixels have a channel at the bottom of its "
                  "range, which in this photo stands for L* {:.0f}: what is darker looks alike.",
                  id, 100 * found.dark_share, bottom_l),
      expose_more_advice);
}

Error two_separate_colors(const TwoColors& two, const std::string& id, bool own_grounds, const Namer& namer) {
  const auto named = [&](const Lab& lab) {
    return fmt::format("{} (L* {:.0f}, a* {:.0f}, b* {:.0f})",
                       namer.describe(lab, Matrix3::diagonal(1, 1, 1)).name.name, lab.l, lab.a, lab.b);
  };
  return refusal(
      fmt::format("Reading region '{}': it holds two separate colours, {} on {:.0f} % of it and {} on the "
                  "rest, and their mean would be the colour of neither.",
                  id, named(two.first), 100 * two.first_share, named(two.second)),
      own_grounds ? "Draw a region over each of the sheet's grounds, clear of the border between them."
                  : "Draw the region on one of them with --region; of a film that lies over black and over "
                    "white read each in a photo of its own with --two-backings, or use the sheet with two "
                    "grounds.");
}

Error across_two_grounds(const std::string& id) {
  return refusal(fmt::format("Reading region '{}': it lies across two grounds, and where they meet under it "
                             "is not known; their mean would be the colour over neither.",
                             id),
                 "Draw a region over each ground with --region, or lay the cards edge to edge and leave "
                 "their straight border bare on both sides of the deposit.");
}

std::optional<Error> untrustworthy(const CalibratedColor& color, const std::string& id) {
  if (color.glint_share > most_glint_share)
    return refusal(
        fmt::format("Reading region '{}': {:.0f} % of its pixels are glints.", id, 100 * color.glint_share),
        "Light it softly from both sides, or move the deposit to matt card.");
  if (color.light_rest > most_light_rest)
    return refusal(
        fmt::format("Reading region '{}': the light on the paper round it departs by {:.1f} % from "
                    "a smooth one (at most {:.0f} %), as at a shadow's "
                    "edge or under heavy soil, and does not tell how the specimen is lit.",
                    id, 100 * color.light_rest, 100 * most_light_rest),
        even_light_advice);
  return std::nullopt;
}

std::optional<Error> height_says_nothing(const BudgetComponent& off_plane, const Lab& lab,
                                         std::optional<double> height_mm, const std::string& id) {
  const double by_height = expanded_de00(lab, off_plane.covariance);
  if (!height_mm || by_height <= says_nothing_de00) return std::nullopt;
  return refusal(
      fmt::format("Reading region '{}': at the stated {:.0f} mm off the sheet its light is known so little "
                  "that the colour would be stated within ΔE00 {:.0f} (95 %); more than {:.0f} says "
                  "nothing.",
                  id, *height_mm, by_height, says_nothing_de00),
      "Raise the sheet to the specimen's level, take the photo again and state the height that is left; "
      "--height is in mm.");
}

std::optional<Error> lighter_than_white(const Reading& reading) {
  if (reading.lab.l - reading.lab_expanded[0] <= white_l) return std::nullopt;
  return refusal(fmt::format("Reading region '{}': L* {:.1f} ± {:.1f} is lighter than a perfect white "
                             "(100), so what is seen there "
                             "is a lamp or a window mirrored, not the specimen's colour.",
                             reading.id, reading.lab.l, reading.lab_expanded[0]),
                 "Light it softly from both sides, or draw the region where nothing shines.");
}

}  // namespace colorlib
