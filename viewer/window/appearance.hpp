#pragma once
/// Light and dark, in plain greys: colour in this window belongs to specimens.

#include <QPalette>
#include <QString>

namespace tintfall::viewer {

enum class Appearance { light, dark };

QPalette palette_of(Appearance appearance);
/// "light", "dark", or by the system's own palette when neither.
Appearance appearance_from(const QString& wanted);
void apply_appearance(Appearance appearance);

}  // namespace tintfall::viewer
