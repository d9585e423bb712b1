#pragma once
/// The drawings of the guide, which the documentation shows too.

#include <QByteArray>
#include <QStringList>

class QWidget;

namespace tintfall::viewer {

/// The names of all, as guide_drawing takes them.
QStringList guide_drawings();
/// `svg` with what is written in it in the window's language.
QByteArray in_words_of_the_window(QByteArray svg);
/// Dark lines on a card of paper white in light and dark alike.
QWidget* guide_drawing(const QString& name);

}  // namespace tintfall::viewer
