#pragma once
/// How the window says what colorlib says in phrases.

#include <colorlib/naming/wording.hpp>

namespace tintfall::viewer {

/// The published names of colours, and phrases round them in the window's language. For jobs as for the
/// window.
colorlib::Wording window_wording();

}  // namespace tintfall::viewer
