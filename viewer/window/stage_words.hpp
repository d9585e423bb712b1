#pragma once
/// What colorlib says about its progress, in the user's language.

#include <QString>

namespace tintfall::viewer {

/// "12 of 17 photos" -> "12 von 17 Fotos": numbers keep their places, the words round them are looked up.
QString stage_words(const QString& stage);

}  // namespace tintfall::viewer
