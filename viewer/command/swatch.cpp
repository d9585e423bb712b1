#include <fmt/format.h>

#include <colorlib/exports/screen_color.hpp>
#include <string>
#include <viewer/command/plain_stream.hpp>
#include <viewer/command/swatch.hpp>

namespace tintfall {

void write_swatch(const colorlib::Lab& lab, std::size_t columns, std::ostream& out) {
  const colorlib::ScreenColor color = colorlib::screen_color_from_lab(lab);
  write_control(out, fmt::format("\x1b[48;2;{};{};{}m", color.red, color.green, color.blue));
  out << std::string(columns, ' ');
  write_control(out, "\x1b[0m");
}

}  // namespace tintfall
