#include <cmath>
#include <colorlib/chart/marker_detection.hpp>

extern "C" {
#include <apriltag/apriltag.h>
#include <apriltag/tag36h11.h>
}

namespace colorlib {
namespace {

struct FamilyDeleter {
  void operator()(apriltag_family_t* family) const { tag36h11_destroy(family); }
};
struct DetectorDeleter {
  void operator()(apriltag_detector_t* detector) const { apriltag_detector_destroy(detector); }
};
struct DetectionsDeleter {
  void operator()(zarray_t* detections) const { apriltag_detections_destroy(detections); }
};

}  // namespace

double side_px(const MarkerSighting& marker) {
  double sum = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    const PointPx &a = marker.corners_px[i], &b = marker.corners_px[(i + 1) % 4];
    sum += std::hypot(b.x - a.x, b.y - a.y);
  }
  return sum / 4;
}

struct MarkerDetector::State {
  std::unique_ptr<apriltag_family_t, FamilyDeleter> family{tag36h11_create()};
  std::unique_ptr<apriltag_detector_t, DetectorDeleter> detector{apriltag_detector_create()};
};

MarkerDetector::MarkerDetector() : state_(std::make_unique<State>()) {
  // One corrected bit: two cost 40 ms to prepare and invite false finds.
  apriltag_detector_add_family_bits(state_->detector.get(), state_->family.get(), 1);
  state_->detector->nthreads = 1;
}

MarkerDetector::~MarkerDetector() = default;

std::vector<MarkerSighting> MarkerDetector::detect(const Image8& grey, double decimate) {
  std::vector<MarkerSighting> found;
  // Below 10 cells of 2 pixels nothing can be decoded, and the library is not made for slivers.
  if (grey.channels != 1 || grey.rows < 20 || grey.columns < 20) return found;
  state_->detector->quad_decimate = static_cast<float>(decimate);
  // The library reads the buffer only; its type has no const.
  image_u8_t picture = {grey.columns, grey.rows, grey.columns, const_cast<std::uint8_t*>(grey.data.data())};
  const std::unique_ptr<zarray_t, DetectionsDeleter> detections(
      apriltag_detector_detect(state_->detector.get(), &picture));
  for (int i = 0; i < zarray_size(detections.get()); ++i) {
    apriltag_detection_t* detection = nullptr;
    zarray_get(detections.get(), i, &detection);
    MarkerSighting marker;
    marker.id = detection->id;
    // The library starts bottom-left and goes round by the right; its first pixel's centre is (0.5, 0.5).
    for (std::size_t k = 0; k < 4; ++k) {
      const double* p = detection->p[3 - k];
      marker.corners_px[k] = {p[0] - 0.5, p[1] - 0.5};
    }
    bool finite = true;
    for (const PointPx& c : marker.corners_px) finite = finite && std::isfinite(c.x) && std::isfinite(c.y);
    if (finite) found.push_back(marker);
  }
  return found;
}

std::vector<bool> marker_cells(int id) {
  const std::unique_ptr<apriltag_family_t, FamilyDeleter> family(tag36h11_create());
  if (id < 0 || static_cast<std::uint32_t>(id) >= family->ncodes) return {};
  // Bit positions count from the black border's inner corner, most significant bit first.
  const int cells = family->width_at_border;
  std::vector<bool> white(static_cast<std::size_t>(cells * cells), false);
  const std::uint64_t code = family->codes[id];
  for (std::uint32_t bit = 0; bit < family->nbits; ++bit) {
    if ((code >> (family->nbits - 1 - bit)) & 1u)
      white[family->bit_y[bit] * static_cast<std::uint32_t>(cells) + family->bit_x[bit]] = true;
  }
  return white;
}

}  // namespace colorlib
