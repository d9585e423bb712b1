#pragma once
/// The way of the Tab key through the window, and names for the parts that take the focus inside Qt's
/// widgets.

#include <QList>

class QWidget;

namespace tintfall::viewer {

/// Everything in `whole` that Tab can reach, as one reads: rows and columns of layouts in their order, tabs
/// before their pages.
QList<QWidget*> in_reading_order(QWidget& whole);
/// Lets Tab go through `parts` one after the other.
void set_tab_order(const QList<QWidget*>& parts);
/// Rows of tabs and the editors of number fields are called as the widget they belong to.
void name_inner_parts(QWidget& whole);

}  // namespace tintfall::viewer
