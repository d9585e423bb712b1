#include <cmath>
#include <random>
#include <tests/colorlib/records/example_records.hpp>

namespace colorlib {
namespace {

Reading deposit() {
  Reading reading;
  reading.id = std::string("A");
  reading.kind = RegionKind::deposit;
  reading.region.id = std::string("A");
  reading.region.kind = RegionKind::deposit;
  reading.region.shape = EllipseShape{105.25, 75, 8.5, 7.125};
  reading.pixels = 51234;
  reading.lab = {52.125, 14.25, -33.001};
  reading.lab_covariance = {{0.36, 0.01, -0.02, 0.01, 0.2025, 0.003, -0.02, 0.003, 0.49}};
  reading.lab_expanded = {1.2, 0.9, 1.4};
  reading.de00_expanded = 1.3;
  reading.glint_share = 0.0123;
  reading.area_mm2 = 212.5;
  reading.coverage_share = 0.9375;
  reading.foreign_share = 0.0125;
  reading.words.munsell = "8.2YR 5.1/5.5";
  reading.words.outside_renotation = true;
  reading.words.name = {"strong yellowish brown", 0.81, 0};
  reading.words.alternatives = {{"light yellowish brown", 0.12, 1.1},
                                {"moderate \"brown\" \xC3\xBC", 0.07, 1.6}};
  reading.words.margin_de00 = 0.875;
  reading.words.trade_terms = {"ochre", "rust"};
  reading.words.deposit_classes = {"ochre"};
  reading.budget = {{"light", Matrix3::diagonal(0.25, 0.0625, 0.04)}, {"noise", Matrix3{}}};
  reading.flags = {{"specular", "advice"}, {"small-region", "advice"}};
  return reading;
}

Reading spot_in_pixels() {
  Reading reading = deposit();
  reading.id = std::string("B");
  reading.kind = RegionKind::spot;
  reading.region.id = std::string("B");
  reading.region.kind = RegionKind::spot;
  reading.region.controls = {"A"};
  reading.frame = RegionFrame::photo_px;
  reading.region.shape = PolygonShape{{{10, 20.25}, {30, 20}, {25.5, 40}}};
  reading.words = {};
  reading.words.munsell = "N 5.2";
  reading.words.name.name = "medium gray";
  reading.budget.clear();
  reading.flags.clear();
  return reading;
}

/// Thin, with its masstone beside it.
Reading thin() {
  Reading reading = deposit();
  reading.id = reading.region.id = std::string("D");
  LayerReading& layer = reading.layer.emplace();
  layer.method = "two-grounds";
  layer.with = "E";
  layer.contrast_ratio = 0.7215;
  layer.contrast_ratio_expanded = 0.03;
  layer.scattering_power = 0.9125;
  layer.lab = {40.5, 12.25, 30.125};
  layer.lab_covariance = Matrix3::diagonal(0.25, 0.16, 0.36);
  layer.lab_expanded = {1, 0.8, 1.2};
  layer.de00_expanded = 1.6;
  layer.words = reading.words;
  layer.words.trade_terms = {"rust"};
  ThickestTenth& tenth = reading.tenth.emplace();
  tenth.lab = {44.5, 14.25, 30.5};
  tenth.lab_covariance = Matrix3::diagonal(0.25, 0.16, 0.36);
  tenth.lab_expanded = {1, 0.8, 1.2};
  tenth.de00_expanded = 1.5;
  tenth.de00_from_mean = 3.25;
  tenth.words = layer.words;
  return reading;
}

Reading too_thin() {
  Reading reading = deposit();
  reading.id = reading.region.id = std::string("E");
  LayerReading& layer = reading.layer.emplace();
  layer.method = "uneven-thickness";
  layer.contrast_ratio = 0.31;
  layer.contrast_ratio_expanded = 0.1;
  layer.refused = Error{ErrorCode::untrustworthy, "It is too thin.", "Take a thicker one."};
  return reading;
}

Reading refused() {
  Reading reading;
  reading.id = std::string("C");
  reading.kind = RegionKind::water;
  reading.region.id = std::string("C");
  reading.region.kind = RegionKind::water;
  reading.region.shape = EllipseShape{1, 2, 3, 4};
  reading.refused = Error{ErrorCode::untrustworthy, "It is over-exposed.", "Expose less."};
  return reading;
}

}  // namespace

Record bare_record() {
  Record record;
  record.photo.encoding = "display-referred";
  record.chart.reference_kind = "nominal";
  return record;
}

Record full_record() {
  Record record;
  record.software = "tintfall 0.1.0";
  record.options_sha256 = std::string(64, 'b');
  record.subject = {"QH-03", "V", "cap", "air-dried", "foil", "tube"};
  record.photo = {"photo \"1\".jpg",
                  "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad",
                  4000,
                  3000,
                  "2031-04-09T10:12:03.25+02:00",
                  "linear-sensor",
                  "camera",
                  true,
                  0.0125,
                  2.8,
                  100,
                  5.4,
                  {"transparency was ignored"},
                  std::nullopt};
  record.photos = {record.photo, record.photo, record.photo};
  record.photos[1].name = "photo 2.jpg";
  record.photos[2].name = "photo 3.jpg";
  record.chart = {"frame-a5", "measured", "ref.txt; simulated", {"adapted from D65"}, "A5-03", "2031-03-01"};
  record.calibration.model = "tone curve and matrix";
  record.calibration.markers_found = 4;
  record.calibration.reprojection_px = 0.31;
  record.calibration.flatness_mm = 0.125;
  record.calibration.corners_px = {{{-1.5, 2}, {3999.25, 2}, {4000, 2999}, {0, 3000.75}}};
  record.calibration.check_de00_mean = 0.8;
  record.calibration.check_de00_p95 = 1.9;
  record.calibration.lighting_spread_de00 = 3.1;
  record.calibration.patches_used = 56;
  record.calibration.paper_used = 120;
  record.calibration.patches_dropped = {{"N03", "over-exposed"}, {"C12", "dirt"}};
  record.readings = {deposit(), spot_in_pixels(), refused(), thin(), too_thin()};
  // Of three photos one was left out, and in one the region was refused.
  PhotoAgreement& agreement = record.readings[0].agreement.emplace();
  agreement.photos = 2;
  agreement.outliers = {1};
  agreement.repeatability = {0.125, 0.25, 0.375};
  agreement.repeatability_de00 = 0.5;
  agreement.de00_from_mean = {0.25, 4.5, std::nan("")};
  ScaleMatch match;
  match.entry = "Cinder";
  match.de00 = 1.25;
  match.tolerance_de00 = 2;
  match.nearest_probability = 0.75;
  match.within_probability = 0.5;
  match.within = Answer::undecided;
  record.scales = {{{"my scale", {match}}}, {}, {}, {}, {}};
  record.flags = {{"assumed-profile", "advice"}};
  return record;
}

Record random_record(std::uint64_t seed) {
  std::mt19937_64 engine(seed);
  const auto number = [&](double low, double high) {
    return low + (high - low) * (static_cast<double>(engine() >> 11) / 9007199254740992.0);
  };
  Record record = full_record();
  record.calibration.reprojection_px = number(0, 5);
  for (auto& corner : record.calibration.corners_px) corner = {number(-1e4, 1e4), number(-1e4, 1e4)};
  record.photo.exposure_s = std::pow(10, number(-5, 2));
  for (auto& reading : record.readings) {
    reading.lab = {number(0, 100), number(-90, 90), number(-90, 90)};
    // A covariance of every size: L L' of a random triangle, scaled over six decades.
    const double scale = std::pow(10, number(-4, 2));
    Matrix3 root;
    for (int r = 0; r < 3; ++r)
      for (int c = 0; c <= r; ++c) root(r, c) = scale * number(-1, 1);
    reading.lab_covariance = root * transpose(root);
    for (int i = 0; i < 3; ++i)
      reading.lab_expanded[static_cast<std::size_t>(i)] = 2 * std::sqrt(reading.lab_covariance(i, i));
    reading.de00_expanded = number(0, 20);
    reading.glint_share = number(0, 1);
    reading.area_mm2 = number(0, 1e4);
    reading.pixels = engine() % 100'000'000;
  }
  return record;
}

}  // namespace colorlib
