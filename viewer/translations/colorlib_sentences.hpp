#pragma once
/// Sentences of colorlib that the window says in the user's language. colorlib itself knows no translations; a test checks that no
/// flag, check or caution is missing here.

#include <QtGlobal>

namespace tintfall::viewer {

inline constexpr const char* colorlib_sentences[] = {
    QT_TRANSLATE_NOOP("colorlib", "Part of the region is over-exposed; expose less, so that bare paper is bright but not white."),
    QT_TRANSLATE_NOOP("colorlib", "Below L* 20 little light is left to measure; use more light and a longer exposure, not a brighter picture."),
    QT_TRANSLATE_NOOP("colorlib", "Glints were left out; light from both sides at about 45 degrees and dull the gloss, or blot wet tissue."),
    QT_TRANSLATE_NOOP("colorlib", "The region holds clearly different colours; draw a smaller region on one of them."),
    QT_TRANSLATE_NOOP("colorlib", "Few pixels stand in the region; move closer or draw a larger one."),
    QT_TRANSLATE_NOOP("colorlib", "No patch of the chart is near this colour; the uncertainty is larger for it."),
    QT_TRANSLATE_NOOP("colorlib", "A cap or stem does not lie in the sheet's plane, which widens L*; lay a cut piece flat at the sheet's height and say --height 0."),
    QT_TRANSLATE_NOOP("colorlib", "The layer does not hide its ground: the colour as seen is partly the ground's; compare the masstone, or take a thicker deposit."),
    QT_TRANSLATE_NOOP("colorlib", "One of the photos does not agree with the others and was left out; look at its light and at its region."),
    QT_TRANSLATE_NOOP("colorlib", "The two photos differ by more than their uncertainties allow, and nothing tells which is wrong; take a third."),
    QT_TRANSLATE_NOOP("colorlib", "No bare ground was seen round the specimen; the whole opening was taken as the specimen."),
    QT_TRANSLATE_NOOP("colorlib", "The sheet was not measured: its printed colours are only hoped for. Measuring it, or transferring values from a measured one, is the largest gain."),
    QT_TRANSLATE_NOOP("colorlib", "The light changes a lot over the sheet; move it further away or use two sides, and avoid shadow edges."),
    QT_TRANSLATE_NOOP("colorlib", "The sheet does not lie flat; weigh down its corners or tape it to a board."),
    QT_TRANSLATE_NOOP("colorlib", "Many patches could not be used; clean the sheet and keep glare and shadow off it."),
    QT_TRANSLATE_NOOP("colorlib", "The sheet's paper holds optical brightener and glows bluish in daylight; print on uncoated paper without it."),
    QT_TRANSLATE_NOOP("colorlib", "The camera brightened dark parts of the picture more than light ones; this was undone as far as the paper shows it. Switch off HDR and scene modes."),
    QT_TRANSLATE_NOOP("colorlib", "The file names no colour profile; sRGB was assumed."),
    QT_TRANSLATE_NOOP("colorlib", "Colour never tells whether a mushroom is safe to eat: deadly and harmless kinds share their colours, stains and reactions."),
    QT_TRANSLATE_NOOP("colorlib", "Names of colours and finds are working names; a qualified identifier or a fungarium has the last word."),
    QT_TRANSLATE_NOOP("colorlib", "Rest the camera on something and tap on the sheet to focus."),
    QT_TRANSLATE_NOOP("colorlib", "Expose less (about -0.7 EV), so that bare paper is bright but not white."),
    QT_TRANSLATE_NOOP("colorlib", "Use more light or a longer exposure; brightening afterwards does not help."),
    QT_TRANSLATE_NOOP("colorlib", "Light from the sides at about 45 degrees, print on matt paper, blot wet tissue."),
    QT_TRANSLATE_NOOP("colorlib", "Move the lamp further away or use two sides, and keep shadow edges off the sheet."),
    QT_TRANSLATE_NOOP("colorlib", "Move closer or use the full resolution of the camera."),
    QT_TRANSLATE_NOOP("colorlib", "Hold the camera parallel to the sheet and step back a little."),
    QT_TRANSLATE_NOOP("colorlib", "Fix the sheet to a stiff board."),
    QT_TRANSLATE_NOOP("colorlib", "One photo cannot show how high the specimen stands: level it with the paper, or say the height."),
    QT_TRANSLATE_NOOP("colorlib", "Have the sheet measured, or carry values over from a measured one: this is the largest gain."),
    QT_TRANSLATE_NOOP("colorlib", "decoding"),
    QT_TRANSLATE_NOOP("colorlib", "looking for markers"),
    QT_TRANSLATE_NOOP("colorlib", "looking for the sheet"),
    QT_TRANSLATE_NOOP("colorlib", "placing the sheet"),
    QT_TRANSLATE_NOOP("colorlib", "measuring patches and paper"),
    QT_TRANSLATE_NOOP("colorlib", "calibrating"),
    QT_TRANSLATE_NOOP("colorlib", "reading the specimen"),
    QT_TRANSLATE_NOOP("colorlib", "done"),
    QT_TRANSLATE_NOOP("colorlib", "sheet placed"),
    QT_TRANSLATE_NOOP("colorlib", "grouping"),
    QT_TRANSLATE_NOOP("colorlib", "comparing pairs"),
    QT_TRANSLATE_NOOP("colorlib", "reading records"),
    QT_TRANSLATE_NOOP("colorlib", "comparing colours with the start"),
    QT_TRANSLATE_NOOP("colorlib", "making smaller pictures"),
};

}  // namespace tintfall::viewer
