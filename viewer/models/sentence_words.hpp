#pragma once
/// What colorlib says with numbers in it - how far it is, what a check measured - in the user's language.

#include <QString>

namespace tintfall::viewer {

/// "12 of 17 photos" -> "12 von 17 Fotos": numbers keep their places, the words round them are looked up
/// ("%1 of %2 photos"). What is not known stays as it is.
QString sentence_words(const QString& sentence);

}  // namespace tintfall::viewer
