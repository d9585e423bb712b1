#pragma once
/// Workers that leave the window its share of a busy machine.

namespace tintfall::viewer {

/// Gives this thread, and threads that it starts, less weight than the window's; once is enough. Where the
/// system knows no such thing per thread, nothing happens.
void weigh_less();

}  // namespace tintfall::viewer
