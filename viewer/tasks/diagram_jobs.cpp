#include <colorlib/exports/photo_tiles.hpp>
#include <viewer/tasks/diagram_jobs.hpp>
#include <viewer/tasks/naming_tables.hpp>

namespace tintfall::viewer {

using namespace colorlib;

NameMap names_round(const Lab& centre, double half_width, int nodes) {
  const auto& namer = naming_tables();
  return namer ? name_map(*namer, centre, half_width, 2 * half_width / nodes, NameLevel::full) : NameMap{};
}

QList<QRgb> difference_shades(int count) {
  QList<QRgb> ramp;
  for (int i = 0; i < count; ++i) {
    float srgb[3];
    difference_scale_color(static_cast<double>(i) / (count - 1), srgb);
    ramp.push_back(qRgb(qRound(255 * srgb[0]), qRound(255 * srgb[1]), qRound(255 * srgb[2])));
  }
  return ramp;
}

}  // namespace tintfall::viewer
