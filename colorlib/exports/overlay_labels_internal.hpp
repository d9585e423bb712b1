#pragma once
/// The words beside each region of an overlay, and where they find room. For .cpp files only.

#include <colorlib/exports/overlay_canvas_internal.hpp>
#include <colorlib/specimen/reading.hpp>
#include <string>
#include <vector>

namespace colorlib {

/// "deposit A: strong brown" and the figures under it; for a refused region the reason.
std::string label_text(const Reading& reading);

/// Something a label should not cover.
struct Obstacle {
  CanvasBox box;
  double weight = 1;  ///< cost per px^2 covered
};

/// The box of `size` near `target` inside (0, 0, width, height) that covers least of `obstacles`.
CanvasBox free_place(const CanvasBox& target, const CanvasBox& size, double width, double height, double gap,
                     const std::vector<Obstacle>& obstacles);

/// One label for each reading, with a line to its outline; `outlines` in canvas pixels, one per reading.
void draw_labels(OverlayCanvas& canvas, const std::vector<Reading>& readings,
                 const std::vector<std::vector<PointPx>>& outlines, const std::vector<CanvasBox>& patches);

}  // namespace colorlib
