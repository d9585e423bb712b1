#pragma once
/// What foreign libraries say on standard error that tells a user nothing.

#include <string_view>

namespace tintfall {

/// Whether a line of a library is left out. The marker library looks at everything with four corners; of a
/// strip only a few pixels wide its finer look takes both long sides for the same line, the strip is dropped,
/// which is right, and a warning of a singular matrix is printed.
bool is_library_noise(std::string_view line);

/// Leaves such lines out of what C code of this process prints to `stderr` from now on; everything else goes
/// to standard error as before, at once. C++ streams are not touched. Where the C library has no such means,
/// nothing changes. For `main`, before threads begin.
void leave_out_library_noise();

}  // namespace tintfall
