#pragma once
/// A patch of a measured colour on a terminal.

#include <colorlib/colorimetry/color_types.hpp>
#include <cstddef>
#include <ostream>

namespace tintfall {

/// `columns` blanks on a ground of the colour, by 24-bit terminal codes.
void write_swatch(const colorlib::Lab& lab, std::size_t columns, std::ostream& out);

}  // namespace tintfall
