#include "tests/scenes/cameras_internal.hpp"

#include <cmath>

#include "tests/scenes/published_spectra.hpp"

namespace colorlib::scenes::held_out {
namespace {

/// Near-colorimetric: mixtures of the observer's own curves with an error that no matrix removes.
Camera observer_like(const char* name, double error, double error_nm) {
  const auto& xyz = observer_1931();
  const Spectrum wobble = spectrum_of([=](double nm) { return 1 + error * std::sin((nm - error_nm) / 26); });
  return finished_camera(name,
                         {(1.2 * xyz[0] + -0.15 * xyz[1] + -0.18 * xyz[2]) * wobble,
                          (-0.32 * xyz[0] + 1.25 * xyz[1] + 0.06 * xyz[2]) * wobble,
                          (0.02 * xyz[0] + -0.06 * xyz[1] + 0.9 * xyz[2]) * wobble},
                         400, 690);
}

/// Log-normal lobes: lopsided and with broad overlap.
Camera log_normal_camera(const char* name, double red_nm, double green_nm, double blue_nm, double width) {
  const auto lobe = [](double nm, double peak, double floor_nm, double w) {
    if (nm <= floor_nm) return 0.0;
    const double t = std::log((nm - floor_nm) / (peak - floor_nm)) / w;
    return std::exp(-0.5 * t * t);
  };
  return finished_camera(
      name,
      {spectrum_of([=](double nm) { return lobe(nm, red_nm, 480, 0.30 * width) + 0.05 * bell(nm, 470, 30); }),
       spectrum_of(
           [=](double nm) { return lobe(nm, green_nm, 400, 0.27 * width) + 0.04 * bell(nm, 640, 30); }),
       spectrum_of(
           [=](double nm) { return lobe(nm, blue_nm, 340, 0.24 * width) + 0.03 * bell(nm, 560, 40); })},
      402, 670);
}

/// Flat-topped filters behind an interference infrared cut that comes early.
Camera plateau_camera(const char* name, double blue_green_nm, double green_red_nm, double long_cut_nm) {
  const auto band = [](double nm, double from, double to, double soft) {
    return step_up(nm, from, soft) * step_up(-nm, -to, soft);
  };
  return finished_camera(
      name,
      {spectrum_of([=](double nm) {
         return band(nm, green_red_nm, 720, 9) * (1 - 0.0022 * (nm - 600)) + 0.08 * band(nm, 490, 560, 14);
       }),
       spectrum_of([=](double nm) {
         return band(nm, blue_green_nm, green_red_nm + 12, 13) * bell(nm, 535, 55) + 0.10 * bell(nm, 455, 26);
       }),
       spectrum_of([=](double nm) {
         return band(nm, 405, blue_green_nm + 10, 11) * bell(nm, 455, 45) + 0.05 * bell(nm, 540, 30);
       })},
      408, long_cut_nm);
}

}  // namespace

std::vector<Camera> cameras() {
  return {observer_like("observer-like 1", 0.10, 500),
          observer_like("observer-like 2", 0.16, 540),
          log_normal_camera("log-normal 1", 598, 530, 452, 1.0),
          log_normal_camera("log-normal 2", 604, 538, 460, 0.9),
          plateau_camera("plateau 1", 488, 580, 662),
          plateau_camera("plateau 2", 494, 574, 655)};
}

}  // namespace colorlib::scenes::held_out
