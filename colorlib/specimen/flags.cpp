#include <colorlib/specimen/flags.hpp>
#include <stdexcept>

namespace colorlib {
namespace {

struct Known {
  std::string_view code, advice;
};

constexpr Known known[] = {
    {"clipped",
     "Part of the region or of the sheet is over-exposed; expose less, so that bare paper is bright but not "
     "white."},
    {"under-exposed",
     "Dark or vivid colours of the region or of the sheet stand at the bottom of the range, where they look "
     "alike; use more light or a longer exposure, and the photo as the camera wrote it."},
    {"not-daylight",
     "Daylight was said, but by the raw file's own white a lamp or a tube lit the sheet; say which, or the "
     "stated tolerance is too small."},
    {"very-dark",
     "Below L* 20 little light is left to measure; use more light and a longer exposure, not a brighter "
     "picture."},
    {"specular",
     "Glints were left out, or pale ground seen between gills; light from both sides at about 45 degrees and "
     "dull the gloss, or blot wet tissue."},
    {"foreign-matter",
     "Soil or another deposit seems to lie on it and was left out; brush it off, or draw the region clear of "
     "it."},
    {"uneven-colour",
     "The region holds clearly different colours, and what is stated is about their mean; draw a smaller "
     "region on one of them."},
    {"small-region", "Few pixels stand in the region; move closer or draw a larger one."},
    {"far-from-patches", "No patch of the chart is near this colour; the uncertainty is larger for it."},
    {"off-plane",
     "The specimen does not lie in the sheet's plane, or may not, which widens L*; lay a cut piece flat at "
     "the sheet's height and say --height 0."},
    {"thin-deposit",
     "The layer does not hide its ground: the colour as seen is partly the ground's; compare the masstone, "
     "or "
     "take a thicker deposit."},
    {"outlier-photo",
     "One of the photos does not agree with the others and was left out; look at its light and at its "
     "region."},
    {"photos-disagree",
     "The two photos differ by more than their uncertainties allow, and nothing tells which is wrong; take a "
     "third."},
    {"fills-opening",
     "No bare ground was seen round the specimen; the whole opening was taken as the specimen."},
    {"two-grounds",
     "Two grounds lie in the opening, and only what stands out from both was read, apart over each; draw a "
     "region over each, or photograph the deposit over each and read both with --two-backings."},
    {"outside-opening",
     "The region lies outside the sheet's openings, or on a sheet that has none; make sure that it is not "
     "the sheet itself that is read."},
    {"nominal-reference",
     "The sheet was not measured: its printed colours are only hoped for. Measuring it, or "
     "transferring values from a measured one, is the largest gain."},
    {"other-print",
     "The reference values do not fit this print, the chart's nominal ones fit better: give the file that "
     "was measured on this very sheet, or none."},
    {"uneven-light",
     "The light changes a lot over the sheet; move it further away or use two sides, and avoid shadow "
     "edges."},
    {"soft-photo",
     "The photo is blurred, which mixes the colours on both sides of every edge; rest the camera on "
     "something and tap on the sheet to focus."},
    {"curled-sheet",
     "The sheet does not lie flat; fix it to a stiff board with glue or tape under it, and lay no weights on "
     "its rim."},
    {"few-patches", "Many patches could not be used; clean the sheet and keep glare and shadow off it."},
    {"bright-paper",
     "The sheet's paper holds optical brightener and glows bluish in daylight; print on uncoated paper "
     "without it."},
    {"local-tone",
     "The camera brightened dark parts of the picture more than light ones; this was undone as far as the "
     "paper shows "
     "it. Switch off HDR and scene modes."},
    {"assumed-profile", "The file names no colour profile; sRGB was assumed."},
};

}  // namespace

Flag flag(std::string_view code) {
  for (const auto& entry : known)
    if (entry.code == code) return {std::string(entry.code), std::string(entry.advice)};
  throw std::logic_error("unknown flag code");
}

Flag flag_of_code(std::string code) {
  for (const auto& entry : known)
    if (entry.code == code) return {std::move(code), std::string(entry.advice)};
  return {std::move(code), {}};
}

std::vector<Flag> known_flags() {
  std::vector<Flag> all;
  for (const auto& entry : known) all.push_back({std::string(entry.code), std::string(entry.advice)});
  return all;
}

}  // namespace colorlib
