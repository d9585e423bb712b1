#include <QApplication>
#include <viewer/window/appearance.hpp>
#include <viewer/window/quiet_style.hpp>

namespace tintfall::viewer {

namespace {

QColor grey(int level) { return {level, level, level}; }

}  // namespace

QPalette palette_of(Appearance appearance) {
  const bool dark = appearance == Appearance::dark;
  QPalette palette;
  const auto set = [&](QPalette::ColorRole role, int light_level, int dark_level) {
    palette.setColor(role, grey(dark ? dark_level : light_level));
  };
  set(QPalette::Window, 236, 46);
  set(QPalette::WindowText, 16, 232);
  set(QPalette::Base, 250, 70);
  set(QPalette::AlternateBase, 242, 76);
  set(QPalette::Text, 16, 232);
  set(QPalette::PlaceholderText, 88, 180);
  set(QPalette::Button, 224, 62);
  set(QPalette::ButtonText, 16, 232);
  set(QPalette::BrightText, 0, 255);
  set(QPalette::ToolTipBase, 250, 24);
  set(QPalette::ToolTipText, 16, 232);
  set(QPalette::Highlight, 72, 190);
  set(QPalette::HighlightedText, 255, 16);
  set(QPalette::Light, 255, 84);
  set(QPalette::Midlight, 240, 72);
  set(QPalette::Mid, 176, 38);
  set(QPalette::Dark, 150, 26);
  set(QPalette::Shadow, 96, 0);
  set(QPalette::Link, 40, 210);
  for (const QPalette::ColorRole role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText})
    palette.setColor(QPalette::Disabled, role, grey(dark ? 128 : 136));
  return palette;
}

Appearance appearance_from(const QString& wanted) {
  if (wanted == QLatin1String("light")) return Appearance::light;
  if (wanted == QLatin1String("dark")) return Appearance::dark;
  return QPalette().color(QPalette::Window).lightness() < 128 ? Appearance::dark : Appearance::light;
}

void apply_appearance(Appearance appearance) {
  QApplication::setStyle(new QuietStyle);
  QApplication::setPalette(palette_of(appearance));
}

}  // namespace tintfall::viewer
