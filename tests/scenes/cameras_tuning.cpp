#include "tests/scenes/cameras_internal.hpp"

namespace colorlib::scenes {
namespace {

/// Sums of Gaussians: one main lobe a channel and weak crosstalk.
Camera gaussian_camera(const char* name, double red_nm, double green_nm, double blue_nm, double width,
                       double crosstalk) {
  return finished_camera(name,
                         {spectrum_of([=](double nm) {
                            return bell(nm, red_nm, 26 * width, 36 * width) + crosstalk * bell(nm, 530, 28) +
                                   0.3 * crosstalk * bell(nm, 450, 25);
                          }),
                          spectrum_of([=](double nm) {
                            return bell(nm, green_nm, 34 * width, 36 * width) +
                                   0.8 * crosstalk * bell(nm, 460, 24) + 0.6 * crosstalk * bell(nm, 610, 26);
                          }),
                          spectrum_of([=](double nm) {
                            return bell(nm, blue_nm, 27 * width, 27 * width) + crosstalk * bell(nm, 520, 30);
                          })},
                         405, 672);
}

/// Skewed lobes with secondary ones: dye filters that open again at the other end.
Camera skewed_camera(const char* name, double red_nm, double green_nm, double blue_nm, double second) {
  return finished_camera(
      name,
      {spectrum_of([=](double nm) {
         return bell(nm, red_nm, 20, 46) + 0.10 * bell(nm, red_nm - 62, 22) + second * bell(nm, 432, 20);
       }),
       spectrum_of([=](double nm) {
         return bell(nm, green_nm, 30, 44) + 0.16 * bell(nm, 472, 20) + 0.7 * second * bell(nm, 665, 30);
       }),
       spectrum_of([=](double nm) {
         return bell(nm, blue_nm, 22, 34) + 0.07 * bell(nm, 528, 24) + 0.3 * second * bell(nm, 650, 40);
       })},
      400, 678);
}

/// Steep edges on one side and long decays on the other, as measured sensors tend to show.
Camera edged_camera(const char* name, double red_edge_nm, double green_nm, double blue_nm, double leak) {
  return finished_camera(name,
                         {spectrum_of([=](double nm) {
                            return step_up(nm, red_edge_nm, 7) * bell(nm, red_edge_nm + 10, 60, 62) +
                                   leak * bell(nm, 505, 40);
                          }),
                          spectrum_of([=](double nm) {
                            return step_up(nm, green_nm - 42, 9) * step_up(-nm, -(green_nm + 52), 13) *
                                       bell(nm, green_nm, 60, 55) +
                                   leak * bell(nm, 452, 28) + 0.9 * leak * bell(nm, 625, 30);
                          }),
                          spectrum_of([=](double nm) {
                            return step_up(-nm, -(blue_nm + 42), 10) * bell(nm, blue_nm, 30, 48) +
                                   0.7 * leak * bell(nm, 535, 30);
                          })},
                         412, 668);
}

}  // namespace

std::vector<Camera> tuning_cameras() {
  return {gaussian_camera("gaussian 1", 598, 532, 457, 1.00, 0.06),
          gaussian_camera("gaussian 2", 602, 537, 462, 0.96, 0.10),
          gaussian_camera("gaussian 3", 593, 530, 455, 1.10, 0.05),
          skewed_camera("skewed 1", 592, 528, 458, 0.05),
          skewed_camera("skewed 2", 596, 532, 461, 0.03),
          skewed_camera("skewed 3", 590, 525, 454, 0.06),
          edged_camera("edged 1", 580, 530, 455, 0.10),
          edged_camera("edged 2", 574, 525, 462, 0.14),
          edged_camera("edged 3", 582, 535, 452, 0.09)};
}

}  // namespace colorlib::scenes
