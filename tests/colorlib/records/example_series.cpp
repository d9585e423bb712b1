#include <tests/colorlib/records/example_series.hpp>

namespace colorlib {

SeriesRecord series_record(const InventedCourse& course, const std::vector<double>& seconds) {
  const ReactionSeries path = series_of(course, seconds, 0.3, 11);
  SeriesRecord series;
  series.zero = SeriesZero::applied;
  series.remarks = {"Two photos have the same second."};
  series.protocol.reagent = "KOH";
  series.protocol.strength = "5 %";
  series.protocol.temperature_c = 18;
  series.protocol.others.emplace_back("weather", "rain");
  for (std::size_t i = 0; i < seconds.size(); ++i) {
    FrameRecord frame;
    frame.photo = "frame " + std::to_string(i);
    frame.seconds = seconds[i];
    frame.record = full_record();
    frame.record.readings.clear();
    const auto add = [&](const char* id, RegionKind kind, const Lab& lab) {
      Reading reading = full_record().readings.front();
      reading.id = id;
      reading.kind = reading.region.kind = kind;
      reading.region.id = id;
      reading.lab = lab;
      reading.lab_covariance = variance(0.3);
      frame.record.readings.push_back(reading);
    };
    add("A", RegionKind::spot, path.spot[i].lab);
    add("C", RegionKind::control, course.untreated);
    frame.movements.push_back({"A", Movement{}, true});
    ChangedArea trusted, untrusted;
    trusted.id = "A", trusted.trusted = true;
    untrusted.id = "B";
    frame.areas = {trusted, untrusted};
    series.frames.push_back(frame);
  }
  FrameRecord dropped;
  dropped.photo = "thumb.jpg";
  dropped.seconds = seconds.back() + 1;
  dropped.dropped = Error{ErrorCode::chart_not_found, "No marker was found.", "Look at it."};
  series.frames.push_back(dropped);
  series.spots = spot_records(series.frames, true);
  SpotRecord refused;
  refused.id = "B";
  refused.refused = Error{ErrorCode::untrustworthy, "It is seen once.", ""};
  series.spots.push_back(refused);
  series.spots[0].verdict = "positive";
  return series;
}

}  // namespace colorlib
