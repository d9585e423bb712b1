#pragma once
/// Reagents that a list may offer.

#include <QStringList>

namespace tintfall::viewer {

/// Names of the reagents that may be suggested (colorlib::Reagents::presets); highly toxic and obsolete ones
/// have to be typed. Empty when the table, a few dozen lines, cannot be read; it is read once.
const QStringList& offered_reagents();

}  // namespace tintfall::viewer
