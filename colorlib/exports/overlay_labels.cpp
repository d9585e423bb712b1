#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <colorlib/exports/overlay_labels_internal.hpp>
#include <limits>

namespace colorlib {
namespace {

constexpr double patch_weight = 0.5, region_weight = 4, label_weight = 20;
constexpr double label_grey = 0.08, label_opacity = 0.82;
/// More regions than this are drawn without words: nobody could read them.
constexpr std::size_t most_labels = 150;

/// The point of `box` nearest to `to`.
PointPx nearest_point(const CanvasBox& box, const PointPx& to) {
  return {std::clamp(to.x, box.x, box.x + box.width), std::clamp(to.y, box.y, box.y + box.height)};
}

/// The corner of `outline` nearest to `to`.
PointPx nearest_corner(const std::vector<PointPx>& outline, const PointPx& to) {
  return *std::min_element(outline.begin(), outline.end(), [&](const PointPx& a, const PointPx& b) {
    return std::hypot(a.x - to.x, a.y - to.y) < std::hypot(b.x - to.x, b.y - to.y);
  });
}

}  // namespace

std::string label_text(const Reading& reading) {
  const std::string head = fmt::format("{} {}", region_kind_name(reading.kind), reading.id);
  if (reading.refused) return fmt::format("{}: no reading\n{}", head, reading.refused->message);
  std::string text =
      fmt::format("{}: {}\nL* {:.1f} ± {:.1f}   a* {:.1f} ± {:.1f}   b* {:.1f} ± {:.1f}", head,
                  reading.words.name.name, reading.lab.l, reading.lab_expanded[0], reading.lab.a,
                  reading.lab_expanded[1], reading.lab.b, reading.lab_expanded[2]);
  std::string flags;
  for (const Flag& flag : reading.flags) flags.append(flags.empty() ? "\nflags: " : ", ").append(flag.code);
  return text + flags;
}

CanvasBox free_place(const CanvasBox& target, const CanvasBox& size, double width, double height, double gap,
                     const std::vector<Obstacle>& obstacles) {
  CanvasBox best;
  double least = std::numeric_limits<double>::infinity();
  const PointPx middle = target.centre();
  for (int ring = 1; ring <= 8; ++ring) {
    const double away = gap * ring * (ring + 1) / 2;
    const double left = target.x - away - size.width, right = target.x + target.width + away;
    const double above = target.y - away - size.height, below = target.y + target.height + away;
    const double centre_x = middle.x - size.width / 2, centre_y = middle.y - size.height / 2;
    const std::array<PointPx, 8> corners{{{right, centre_y},
                                          {left, centre_y},
                                          {centre_x, below},
                                          {centre_x, above},
                                          {right, below},
                                          {right, above},
                                          {left, below},
                                          {left, above}}};
    for (const PointPx& corner : corners) {
      CanvasBox box{std::clamp(corner.x, 0.0, std::max(0.0, width - size.width)),
                    std::clamp(corner.y, 0.0, std::max(0.0, height - size.height)), size.width, size.height};
      const PointPx centre = box.centre();
      double cost =
          std::hypot(centre.x - middle.x, centre.y - middle.y) + region_weight * box.overlap(target);
      for (const Obstacle& obstacle : obstacles) cost += obstacle.weight * box.overlap(obstacle.box);
      if (cost < least) {
        least = cost;
        best = box;
      }
    }
  }
  return best;
}

void draw_labels(OverlayCanvas& canvas, const std::vector<Reading>& readings,
                 const std::vector<std::vector<PointPx>>& outlines, const std::vector<CanvasBox>& patches) {
  if (readings.size() > most_labels) return;
  std::vector<Obstacle> obstacles;
  for (const CanvasBox& patch : patches) obstacles.push_back({patch, patch_weight});
  for (const auto& outline : outlines) obstacles.push_back({bounds_of(outline), region_weight});
  const double pad = canvas.text_px() * 0.5, wrap = canvas.text_px() * 30;
  const double swatch = canvas.text_px() * 2.2;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    if (outlines[i].empty()) continue;
    const bool coloured = !readings[i].refused;
    const std::string text = label_text(readings[i]);
    const CanvasBox words = canvas.text_size(text, wrap);
    const double text_left = pad + (coloured ? swatch + pad : 0);
    const CanvasBox size{0, 0, text_left + words.width + pad,
                         std::max(words.height, coloured ? swatch : 0) + 2 * pad};
    const CanvasBox place = free_place(bounds_of(outlines[i]), size, canvas.width(), canvas.picture_height(),
                                       canvas.text_px(), obstacles);
    const PointPx anchor = nearest_corner(outlines[i], place.centre());
    canvas.line({nearest_point(place, anchor), anchor}, {1.5, false, false});
    canvas.box(place, label_grey, label_opacity);
    if (coloured)
      canvas.swatch({place.x + pad, place.y + pad, swatch, swatch}, screen_color_from_lab(readings[i].lab));
    canvas.text(text, {place.x + text_left, place.y + pad}, wrap);
    obstacles.push_back({place, label_weight});
  }
}

}  // namespace colorlib
