#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/base/median.hpp>
#include <colorlib/chart/chart_choice.hpp>
#include <colorlib/chart/chart_locator.hpp>
#include <colorlib/chart/corner_alignment.hpp>
#include <colorlib/chart/photo_faults.hpp>
#include <colorlib/chart/placement_fit.hpp>
#include <colorlib/chart/placement_refinement.hpp>
#include <colorlib/chart/sheet_flatness.hpp>

namespace colorlib {
namespace {

constexpr double inner_share = 0.6;   // of a patch's side that is sampled
constexpr double least_inner_px = 6;  // of that, for a mean that rests on enough pixels
constexpr double most_blur_share =
    0.10;  // of a patch's side: its inner part is then still 99 % its own colour
constexpr double most_doubt_share =
    0.2;  // of a patch's side: what is sampled is then surely inside the patch
constexpr int least_tried_spots = 40;
constexpr double least_seen_share = 0.15;
constexpr double least_curl_px = 0.2;    // less is within what coarse photos leave open
constexpr double least_fit = 0.6;        // correlation of a sheet placed by corners; right ones reach 0.9
constexpr double sure_fit = 0.92;        // frames reach 0.8 in a wrong order
constexpr double corner_error_mm = 0.5;  // left after the alignment

tl::unexpected<Error> cancelled() {
  return fail(ErrorCode::cancelled, "Looking for the chart was stopped.", "Start again when ready.");
}

std::string sentence_about(const Photo& photo) {
  return photo.name().empty() ? std::string("the photo") : fmt::format("'{}'", photo.name());
}

/// No marker, or too few: the photo's own faults say why, if it has any.
tl::unexpected<Error> too_few_markers(const Photo& photo, const std::string& what, std::string found,
                                      std::string advice) {
  const FaultWords words = words_for(faults_of(photo));
  if (!words.clause.empty()) {
    found += "; " + words.clause;
    advice = words.advice;
  }
  return fail(ErrorCode::chart_not_found,
              fmt::format("Looking for {} in {}: {}.", what, sentence_about(photo), found),
              std::move(advice));
}

Placement empty_placement(const Photo& photo) {
  Placement placement;
  placement.centre = {0.5 * (photo.width_px() - 1), 0.5 * (photo.height_px() - 1)};
  placement.half_diagonal_px = 0.5 * std::hypot(photo.width_px(), photo.height_px());
  return placement;
}

/// The sides of one marker; its corners as the detector gave them as well when some side cannot be measured.
std::vector<SeenEdge> edges_of_marker(const Photo& photo, const ChartDefinition& chart, std::size_t marker,
                                      const MarkerSighting& sighting, int block) {
  const auto sheet = corners_of(chart.markers[marker]);
  std::vector<PointPair> pairs;
  for (std::size_t k = 0; k < 4; ++k) pairs.push_back({sheet[k], sighting.corners_px[k]});
  Placement own = empty_placement(photo);
  const auto homography = homography_from_pairs(pairs);
  if (!homography) return {};
  own.homography = *homography;
  std::vector<SeenEdge> edges = see_marker_edges(photo, chart, own, marker, 0.5 + block);
  std::array<int, 4> on_side{};
  for (const SeenEdge& e : edges)
    ++on_side[e.spot.outward.x != 0 ? (e.spot.outward.x > 0 ? 0 : 1) : (e.spot.outward.y > 0 ? 2 : 3)];
  if (*std::min_element(on_side.begin(), on_side.end()) < 2) {
    for (std::size_t k = 0; k < 4; ++k)
      for (const PointPx normal : {PointPx{1, 0}, PointPx{0, 1}}) {
        SeenEdge corner;
        corner.spot.owner = marker;
        corner.spot.of_marker = true;
        corner.spot.at = sheet[k];
        corner.observation = {sheet[k], sighting.corners_px[k], normal, 0.5 * block};
        corner.spread_px = 1.2 * block;
        edges.push_back(corner);
      }
  }
  return edges;
}

/// Share of a marker's observations that the fit believed.
double believed_share(const RefinedPlacement& refined, std::size_t marker) {
  int all = 0, believed = 0;
  for (std::size_t i = 0; i < refined.edges.size(); ++i) {
    if (!refined.edges[i].spot.of_marker || refined.edges[i].spot.owner != marker) continue;
    ++all;
    believed += refined.fit.weights[i] > 0;
  }
  return all > 0 ? static_cast<double>(believed) / all : 0;
}

/// The sheet's corners where the placement has them; none when no flat sheet before a camera looks so.
std::optional<std::array<PointPx, 4>> plausible_corners(const ChartDefinition& chart,
                                                        const Placement& placement) {
  std::array<PointPx, 4> corners_px;
  const std::array<PointMm, 4> corners_mm = {
      {{0, 0}, {chart.width_mm, 0}, {chart.width_mm, chart.height_mm}, {0, chart.height_mm}}};
  bool plausible = std::fabs(placement.radial) < 0.3;
  for (std::size_t i = 0; i < 4; ++i) {
    const Vector3 q = placement.homography * Vector3{corners_mm[i].x, corners_mm[i].y, 1};
    plausible = plausible && q[2] > 0;
    corners_px[i] = placement.px_from_mm(corners_mm[i]);
    plausible = plausible && std::isfinite(corners_px[i].x) && std::isfinite(corners_px[i].y);
  }
  for (std::size_t i = 0; i < 4 && plausible; ++i) {
    const PointPx &a = corners_px[i], &b = corners_px[(i + 1) % 4], &c = corners_px[(i + 2) % 4];
    plausible = (b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x) > 0;
  }
  if (!plausible) return std::nullopt;
  return corners_px;
}

/// What is wrong with the size and the sharpness of the median patch.
std::optional<Error> too_small_or_blurred(const ChartDefinition& chart, const RefinedPlacement& refined,
                                          const std::string& looking) {
  const Placement& placement = refined.fit.placement;
  std::vector<double> sides;
  for (const Patch& p : chart.patches)
    sides.push_back(std::min(p.place.width, p.place.height) * placement.px_per_mm(p.place.centre()));
  if (sides.empty()) return std::nullopt;
  const double side = median(std::move(sides));
  if (inner_share * side < least_inner_px)
    return Error{
        ErrorCode::chart_not_found,
        fmt::format("{}: it is there, but a patch spans only {:.0f} px; {:.0f} px are needed.", looking, side,
                    least_inner_px / inner_share),
        "Go nearer, so that the sheet fills most of the frame, or use a photo of higher resolution."};
  if (refined.spread_px > most_blur_share * side)
    return Error{ErrorCode::chart_not_found,
                 fmt::format("{}: it is there, but so blurred that borders are smeared over {:.0f} px, and "
                             "a patch spans only "
                             "{:.0f} px.",
                             looking, 4 * refined.spread_px, side),
                 "Take it again in focus and with a steady hand or a support."};
  return std::nullopt;
}

/// Whether what was seen does not say well enough where the patches lie, or says that there are none.
std::optional<Error> unsure_of_patches(const Photo& photo, const ChartDefinition& chart,
                                       const RefinedPlacement& refined, const LocateOptions& options,
                                       const std::string& looking) {
  const Placement& placement = refined.fit.placement;
  std::vector<double> doubts;
  for (const Patch& p : chart.patches) {
    const PointPx at = placement.px_from_mm(p.place.centre());
    if (at.x < 0 || at.y < 0 || at.x > photo.width_px() - 1 || at.y > photo.height_px() - 1) continue;
    doubts.push_back(3 * placement_sd_px(refined.fit, p.place.centre()) /
                     (std::min(p.place.width, p.place.height) * placement.px_per_mm(p.place.centre())));
  }
  if (doubts.empty())
    return Error{ErrorCode::chart_not_found, looking + ": its patches lie outside the photo.",
                 "Take the photo with all of the sheet in the frame."};
  const double middle_doubt = median(std::move(doubts));
  const bool foreign = options.refine_on_patch_edges && refined.patch_spots_tried >= least_tried_spots &&
                       refined.patch_spots_used < least_seen_share * refined.patch_spots_tried;
  if (foreign) {
    const FaultWords words = words_for(faults_of(photo));
    return Error{
        ErrorCode::chart_not_found,
        fmt::format("{}: its markers are there, but only {} of {} borders of its patches{}{}.", looking,
                    refined.patch_spots_used, refined.patch_spots_tried, words.clause.empty() ? "" : "; ",
                    words.clause),
        words.clause.empty()
            ? "Uncover the patches, and check that the sheet was printed from this chart's definition."
            : words.advice};
  }
  if (middle_doubt > most_doubt_share)
    return Error{ErrorCode::chart_not_found,
                 looking + ": what was seen of it does not say precisely enough where its patches lie.",
                 "Take the photo with all of the sheet in the frame and nothing lying on its markers."};
  return std::nullopt;
}

/// Refuses what cannot be a sheet, or cannot be read as one.
Result<LocatedSheet> checked(const Photo& photo, const ChartDefinition& chart,
                             const RefinedPlacement& refined, const LocateOptions& options) {
  LocatedSheet sheet;
  const Placement& placement = refined.fit.placement;
  sheet.placement = placement;
  sheet.blur_px = refined.spread_px;
  const std::string looking = fmt::format("Looking for chart {} in {}", chart.name, sentence_about(photo));
  const auto corners = plausible_corners(chart, placement);
  if (!corners)
    return fail(ErrorCode::chart_not_found, looking + ": the markers found do not fit one flat sheet.",
                "Lay the sheet flat and take the photo from above, with all of the sheet in the frame.");
  sheet.corners_px = *corners;
  if (auto small = too_small_or_blurred(chart, refined, looking)) return fail(std::move(*small));
  if (auto unsure = unsure_of_patches(photo, chart, refined, options, looking))
    return fail(std::move(*unsure));

  sheet.reprojection_px = refined.fit.rms_px;
  for (std::size_t i = 0; i < refined.edges.size(); ++i)
    if (!refined.edges[i].spot.of_marker && refined.fit.weights[i] > 0) ++sheet.edges_used;
  sheet.flatness_mm = flatness_mm(chart, refined);
  const double centre_scale = placement.px_per_mm({chart.width_mm / 2, chart.height_mm / 2});
  sheet.curled = sheet.flatness_mm > std::max(options.curl_limit_mm, least_curl_px / centre_scale);
  double rest_px = sheet.reprojection_px;
  // A curled sheet is told by its flag; what the curl does not explain is held against the placement.
  if (sheet.curled && rest_px > options.worst_reprojection_px) rest_px = rough_rms_px(refined);
  if (rest_px > options.worst_reprojection_px)
    return fail(ErrorCode::chart_not_found,
                fmt::format("{}: its printed borders lie {:.1f} px (rms) from where a flat sheet would have "
                            "them; {:.1f} px is "
                            "the most that can be used.",
                            looking, rest_px, options.worst_reprojection_px),
                "Lay the sheet flat, hold the camera still, and check that the sheet was printed from this "
                "chart's definition.");
  return sheet;
}

/// Whether the patches fit better with the corners in another order: frames look much alike from all sides,
/// so a fair fit in the order given proves nothing.
std::optional<Error> better_order(const Photo& photo, const ChartDefinition& chart,
                                  const std::array<PointPx, 4>& corners, double correlation) {
  std::optional<Error> best;
  double best_correlation = std::max(correlation, least_fit);
  for (int turn = 0; turn < 8; ++turn) {
    if (turn == 0) continue;
    std::array<PointPx, 4> order = corners;
    const bool mirror = turn >= 4;
    if (mirror) order = {corners[1], corners[0], corners[3], corners[2]};
    std::rotate(order.begin(), order.begin() + turn % 4, order.end());
    const double other =
        align_to_patches(photo, chart, placement_from_corners(photo, chart, order)).correlation;
    if (other <= best_correlation) continue;
    best_correlation = other;
    if (mirror)
      best = Error{ErrorCode::chart_not_found, "the patches fit only when the photo is mirrored",
                   "Use the photo as the camera took it, or mirror it back."};
    else
      best = Error{
          ErrorCode::chart_not_found,
          fmt::format("the patches fit only when the sheet is turned by {} degrees", 90 * turn),
          fmt::format(
              "Start with the upright sheet's top-left corner: of the corners given, the order {}, {}, {}, "
              "{} fits.",
              turn + 1, (turn + 1) % 4 + 1, (turn + 2) % 4 + 1, (turn + 3) % 4 + 1)};
  }
  return best;
}

/// The chart whose markers were seen; markers of it that were missed are looked for where they should lie.
Result<ChartChoice> chosen_chart(const Photo& photo, std::span<const ChartDefinition> candidates,
                                 MarkerDetector& detector, MarkerSearch& search) {
  Result<ChartChoice> choice = choose_chart(search.markers, candidates);
  if (!choice) return choice;
  const std::size_t which = choice->chart;
  const ChartDefinition& chart = candidates[which];
  if (choice->marker.size() < chart.markers.size()) {
    search_missing_markers(photo, detector, chart, search.markers);
    choice = choose_chart(search.markers, candidates.subspan(which, 1));
    if (!choice) return choice;
    choice->chart = which;
  }
  const int misplaced = drop_misplaced_marker(chart, *choice);
  if (misplaced >= 0)
    choice->remarks.push_back(
        fmt::format("Marker {} does not lie where the others say and was left out.", misplaced));
  return choice;
}

/// The placement by the edges of the markers, then by those of the patches; none when no flat sheet fits.
std::optional<RefinedPlacement> placed_by_markers(const Photo& photo, const ChartDefinition& chart,
                                                  const ChartChoice& choice, int block,
                                                  const LocateOptions& options, Progress& progress) {
  std::vector<SeenEdge> edges;
  std::vector<PointPair> pairs;
  for (std::size_t i = 0; i < choice.marker.size(); ++i) {
    const std::vector<SeenEdge> own =
        edges_of_marker(photo, chart, choice.marker[i], choice.sighting[i], block);
    edges.insert(edges.end(), own.begin(), own.end());
    const auto sheet = corners_of(chart.markers[choice.marker[i]]);
    for (std::size_t k = 0; k < 4; ++k) pairs.push_back({sheet[k], choice.sighting[i].corners_px[k]});
  }
  const auto homography = homography_from_pairs(pairs);
  if (!homography) return std::nullopt;
  Placement start = empty_placement(photo);
  start.homography = *homography;
  RefinementOptions refinement;
  refinement.patch_edges = options.refine_on_patch_edges;
  return refine_placement(photo, chart, start, std::move(edges), 0, refinement, progress);
}

}  // namespace

Result<LocatedSheet> locate_sheet(const Photo& photo, std::span<const ChartDefinition> candidates,
                                  const LocateOptions& options, Progress& progress) {
  std::vector<int> wanted;
  for (const ChartDefinition& c : candidates)
    for (const Marker& m : c.markers) wanted.push_back(m.id);
  const std::string what = names_of(candidates);
  if (wanted.empty())
    return fail(ErrorCode::bad_call, fmt::format("Looking for {}: it has no markers to be found by.", what),
                "Give the sheet's four corners in the photo.");

  progress.report(0, "looking for markers");
  MarkerDetector detector;
  MarkerSearch search = options.seen ? *options.seen : search_markers(photo, detector, wanted, progress);
  if (search.cancelled || progress.cancelled()) return cancelled();
  if (search.mirrored)
    return fail(ErrorCode::chart_not_found,
                fmt::format("Looking for {} in {}: the photo is mirrored.", what, sentence_about(photo)),
                "Use the photo as the camera took it, or mirror it back.");
  if (search.markers.empty())
    return too_few_markers(
        photo, what, "no marker was found",
        "Take the photo with all of the sheet in the frame, in focus and evenly lit; for a sheet "
        "without markers give its four corners.");
  Result<ChartChoice> choice = chosen_chart(photo, candidates, detector, search);
  if (!choice) return fail(choice.error());
  const ChartDefinition& chart = candidates[choice->chart];

  const auto least = static_cast<std::size_t>(std::max(1, options.least_markers));
  if (choice->marker.size() < least) {
    std::string ids;
    for (const MarkerSighting& s : choice->sighting)
      ids += fmt::format("{}{}", ids.empty() ? "" : ", ", s.id);
    return too_few_markers(
        photo, fmt::format("chart {}", chart.name),
        fmt::format("only {} of its {} markers ({}) {} found, {} are needed", choice->marker.size(),
                    chart.markers.size(), ids, choice->marker.size() == 1 ? "was" : "were", least),
        "Take the photo with all of the sheet in the frame and nothing lying on its markers.");
  }

  progress.report(0.5, "placing the sheet");
  const auto refined = placed_by_markers(photo, chart, *choice, search.block, options, progress);
  if (progress.cancelled()) return cancelled();
  if (!refined)
    return fail(ErrorCode::chart_not_found,
                fmt::format("Looking for chart {} in {}: the markers found do not fit one flat sheet.",
                            chart.name, sentence_about(photo)),
                "Lay the sheet flat and take the photo from above, with all of the sheet in the frame.");

  Result<LocatedSheet> sheet = checked(photo, chart, *refined, options);
  if (!sheet) return sheet;
  sheet->chart = choice->chart;
  for (std::size_t i = 0; i < choice->marker.size(); ++i) {
    const double believed = believed_share(*refined, choice->marker[i]);
    if (believed >= 0.5)
      ++sheet->markers_found;
    else
      choice->remarks.push_back(
          fmt::format("Marker {} does not lie where the rest of the sheet says and was not used.",
                      choice->sighting[i].id));
  }
  sheet->remarks = std::move(choice->remarks);
  progress.report(1, "sheet placed");
  return sheet;
}

Result<LocatedSheet> locate_sheet_by_corners(const Photo& photo, const ChartDefinition& chart,
                                             const std::array<PointPx, 4>& corners,
                                             const LocateOptions& options, Progress& progress) {
  if (const auto sound = check_corners(photo, corners); !sound) return fail(sound.error());
  progress.report(0, "placing the sheet");
  const CornerAlignment aligned =
      align_to_patches(photo, chart, placement_from_corners(photo, chart, corners));
  if (progress.cancelled()) return cancelled();
  const std::string looking =
      fmt::format("Looking for chart {} in {} between the corners given", chart.name, sentence_about(photo));
  if (aligned.correlation < sure_fit)
    if (const auto other = better_order(photo, chart, corners, aligned.correlation))
      return fail(ErrorCode::chart_not_found, fmt::format("{}: {}.", looking, other->message), other->advice);
  if (aligned.correlation < least_fit)
    return fail(
        ErrorCode::chart_not_found,
        fmt::format("{}: its patches do not fit what is seen there (correlation {:.2f}, {:.2f} is needed).",
                    looking, aligned.correlation, least_fit),
        "Check the chart's name and the four corners: the sheet's own, each to within about 1 % of its size, "
        "top-left, top-right, bottom-right, bottom-left.");

  RefinementOptions refinement;
  refinement.patch_edges = true;  // there is nothing else to go by
  const auto scale = aligned.placement.px_per_mm({chart.width_mm / 2, chart.height_mm / 2});
  const auto refined =
      refine_placement(photo, chart, aligned.placement, {}, corner_error_mm * scale, refinement, progress);
  if (progress.cancelled()) return cancelled();
  constexpr int least_edges = 24;
  if (!refined || refined->patch_spots_used < least_edges)
    return fail(ErrorCode::chart_not_found,
                fmt::format("{}: only {} borders of patches could be made out, {} are needed.", looking,
                            refined ? refined->patch_spots_used : 0, least_edges),
                "Take the photo nearer and in focus.");
  Result<LocatedSheet> sheet = checked(photo, chart, *refined, options);
  if (sheet) progress.report(1, "sheet placed");
  return sheet;
}

}  // namespace colorlib
