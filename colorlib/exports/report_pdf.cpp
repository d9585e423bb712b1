#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <colorlib/base/cautions.hpp>
#include <colorlib/calibration/error_budget.hpp>
#include <colorlib/exports/photo_preview.hpp>
#include <colorlib/exports/report_page_internal.hpp>
#include <colorlib/exports/report_pdf.hpp>
#include <colorlib/exports/series_plot_internal.hpp>
#include <colorlib/image/decode.hpp>
#include <colorlib/reaction/reagents.hpp>
#include <colorlib/records/content_hash.hpp>
#include <colorlib/records/photo_names.hpp>
#include <colorlib/records/reagent_regions.hpp>
#include <optional>

namespace colorlib {
namespace {

constexpr TextStyle title_style{6.2, true, 0}, head_style{3.8, true, 0.1}, plain{3.2, false, 0.1},
    small{2.7, false, 0.35};
constexpr double left_mm = ReportPages::margin_mm, foot_mm = 28;
constexpr double lowest_mm = ReportPages::height_mm - ReportPages::margin_mm - foot_mm;
constexpr double reading_mm = 31;
constexpr int picture_px = 1100;

/// Where the next thing goes; opens pages as needed.
struct Cursor {
  ReportPages& pages;
  const Collection& collection;
  double y_mm = ReportPages::margin_mm;

  void foot() {
    const double y = ReportPages::height_mm - ReportPages::margin_mm - foot_mm + 6;
    pages.line(left_mm, y - 2, left_mm + ReportPages::text_width_mm, y - 2, 0.15, 0.6);
    pages.text(
        fmt::format(
            "{} {} A measured colour holds for its light, camera, layer and moment. CIELAB relative to D50, "
            "CIE "
            "1931 2° observer; ± is the expanded uncertainty, k = 2; ΔE00 is CIEDE2000. Swatches are only as "
            "true as the printer.",
            caution_safety, caution_names),
        left_mm, y, ReportPages::text_width_mm, small);
  }
  void need(double height_mm) {
    if (y_mm + height_mm <= lowest_mm) return;
    foot();
    pages.next_page();
    y_mm = ReportPages::margin_mm;
    y_mm +=
        pages.text(collection.number + ", continued", left_mm, y_mm, ReportPages::text_width_mm, head_style) +
        3;
  }
  void write(const std::string& words, const TextStyle& style, double after_mm = 1) {
    need(pages.text_height(words, ReportPages::text_width_mm, style));
    y_mm += pages.text(words, left_mm, y_mm, ReportPages::text_width_mm, style) + after_mm;
  }
};

std::string coordinates(const Collection& c) {
  if (!c.latitude_deg || !c.longitude_deg) return {};
  std::string text = fmt::format("{}° {}, {}° {}", std::abs(*c.latitude_deg), *c.latitude_deg < 0 ? "S" : "N",
                                 std::abs(*c.longitude_deg), *c.longitude_deg < 0 ? "W" : "E");
  if (c.coordinate_uncertainty_m) text += fmt::format(" within {} m", *c.coordinate_uncertainty_m);
  if (c.place_coarseness_deg) text += fmt::format(" (rounded to {}°)", *c.place_coarseness_deg);
  return text;
}

/// The fields that have places of their own are left out of the list.
std::string other_fields(const Collection& collection) {
  constexpr std::array own{"number",
                           "collector",
                           "collected",
                           "place",
                           "area",
                           "latitude_deg",
                           "longitude_deg",
                           "coordinate_uncertainty_m",
                           "place_coarseness_deg",
                           "hide_place",
                           "working_name",
                           "named_by"};
  std::string text;
  for (const CollectionField& field : collection_fields()) {
    if (std::find(own.begin(), own.end(), field.name) != own.end()) continue;
    const std::string value = field_text(collection, field);
    if (value.empty()) continue;
    std::string name(field.name);
    std::replace(name.begin(), name.end(), '_', ' ');
    text += fmt::format("{}{}: {}", text.empty() ? "" : ";   ", name, value);
  }
  return text;
}

void draw_head(Cursor& at) {
  const Collection& c = at.collection;
  at.write(c.number, title_style, 1.5);
  if (!c.working_name.empty())
    at.write(fmt::format("working name {}{}", c.working_name,
                         c.named_by.empty() ? "" : ", given by " + c.named_by),
             plain);
  std::string found;
  for (const std::string& part : {c.collector.empty() ? std::string() : "collected by " + c.collector,
                                  c.collected, c.place, c.area, coordinates(c)})
    if (!part.empty()) found += (found.empty() ? "" : ", ") + part;
  if (!found.empty()) at.write(found, plain);
  if (const std::string others = other_fields(c); !others.empty()) at.write(others, small);
  at.y_mm += 2;
}

/// L*, a*, b* as points on axes of one scale, each with its bar of expanded uncertainty.
void draw_bars(ReportPages& pages, const CatalogueReading& reading, double x_mm, double y_mm) {
  constexpr double half_range = 5, half_width_mm = 22, row_mm = 5.4;
  const Vector3 lab = vector_from(*reading.lab), u = expanded_uncertainty(reading.lab_covariance);
  constexpr std::array names{"L*", "a*", "b*"};
  const double centre = x_mm + half_width_mm;
  for (std::size_t i = 0; i < 3; ++i) {
    const double y = y_mm + row_mm * static_cast<double>(i) + 2;
    pages.line(centre - half_width_mm, y, centre + half_width_mm, y, 0.12, 0.75);
    const double bar = std::min(u[i] / half_range, 1.0) * half_width_mm;
    pages.box(centre - bar, y - 1.0, 2 * bar, 2.0, 0.72);
    pages.line(centre, y - 1.4, centre, y + 1.4, 0.3, 0);
    pages.text(fmt::format("{} {:.1f} ± {:.1f}", names[i], std::round(10 * lab[i]) / 10 + 0.0, u[i]),
               centre + half_width_mm + 3, y - 2.1, 40, plain);
  }
  const double y = y_mm + row_mm * 3 + 0.6;
  for (const int tick : {-5, 0, 5}) {
    const double x = centre + tick * half_width_mm / half_range;
    pages.line(x, y, x, y + 0.9, 0.12, 0.5);
    pages.text(tick == 0 ? std::string("0") : fmt::format("{:+d}", tick), x - 2.2, y + 0.9, 10, small);
  }
}

void draw_reading(Cursor& at, const CatalogueReading& reading) {
  at.need(reading_mm);
  ReportPages& pages = at.pages;
  const double y = at.y_mm;
  if (!reading.lab) {
    at.write(fmt::format("{} ({}): refused. {}", reading.region, reading.kind, reading.refused), plain, 2);
    return;
  }
  pages.swatch(*reading.lab, left_mm, y, 30, 24);
  const double x = left_mm + 34;
  double text_y = y - 0.5;
  text_y += pages.text(fmt::format("{} ({})   {}", reading.region, reading.kind, reading.name), x, text_y, 66,
                       head_style);
  const auto say = [&](const std::string& words, const TextStyle& style) {
    text_y += pages.text(words, x, text_y + 0.6, 66, style) + 0.6;
  };
  if (!reading.munsell.empty()) say("Munsell " + reading.munsell, plain);
  if (!reading.terms.empty())
    say(fmt::format("in the trade's words: {}", fmt::join(reading.terms, ", ")), small);
  say(fmt::format("within ΔE00 {:.1f} of the true colour (95 %)", reading.de00_expanded), small);
  if (!reading.flags.empty()) say(fmt::format("flags: {}", fmt::join(reading.flags, ", ")), small);
  draw_bars(pages, reading, left_mm + 103, y + 0.5);
  at.y_mm = std::max(y + reading_mm, text_y + 3);
}

/// Where pictures are looked for, and how many were found.
struct Pictures {
  const std::filesystem::path& folder;
  std::size_t found = 0;
};

/// The overlay, or the photograph itself when it is the one that was read.
std::optional<Image8> picture_of(const CatalogueRecord& record, const std::filesystem::path& folder) {
  if (folder.empty() || record.photo_name.empty()) return std::nullopt;
  // The name comes from a record: only its last part may lead anywhere.
  const std::string name = std::filesystem::path(record.photo_name).filename().string();
  std::error_code ignored;
  auto path = folder / (name + ".overlay.png");
  if (!std::filesystem::exists(path, ignored)) {
    path = folder / name;
    if (record.photo_sha256.empty() || !std::filesystem::exists(path, ignored)) return std::nullopt;
    const auto hash = sha256_of_file(path);
    if (!hash || *hash != record.photo_sha256) return std::nullopt;
  }
  const auto photo = decode_photo(path);
  if (!photo) return std::nullopt;
  return photo_preview(*photo, picture_px);
}

void draw_course(Cursor& at, const SpotRecord& spot, const SeriesRecord& series) {
  if (!spot.has_course()) {
    at.write(fmt::format("{} {}: no course. {}", region_kind_name(spot.kind), spot.id,
                         spot.refused ? spot.refused->message : "It has no frames."),
             plain, 2);
    return;
  }
  constexpr double scale = ReportPages::text_width_mm / series_plot_width_pt;
  at.need(scale * series_plot_height_pt);
  at.y_mm += at.pages.diagram(
                 series_plot_width_pt, series_plot_height_pt, left_mm, at.y_mm, ReportPages::text_width_mm,
                 [&](VectorCanvas& canvas) {
                   (void)draw_series_plot_on(canvas, series_plot_of(spot, series));  // it has frames
                 }) +
             2;
  for (const std::string& warning : spot.warnings) at.write("Mind: " + warning, small);
}

/// The course of each spot and bruise, and how what was used is handled.
Result<std::monostate> draw_courses(Cursor& at, const SeriesRecord& series) {
  for (const SpotRecord& spot : series.spots) draw_course(at, spot, series);
  const auto handling = handling_text(series.protocol, series.uses_reagent());
  if (!handling) return fail(handling.error());
  at.write("Handling: " + *handling, small, 4);
  return std::monostate{};
}

Result<std::monostate> draw_record(Cursor& at, const CatalogueRecord& record, Pictures& pictures) {
  std::string about = "Photograph";
  const std::string photos = photo_words(record);
  const std::string reagent = reagent_words(record);
  for (const auto& [head, value] : {std::pair{" ", &photos},
                                    {", taken ", &record.captured},
                                    {", read by ", &record.read_by},
                                    {", tissue ", &record.tissue},
                                    {", state ", &record.state},
                                    {", reagent ", &reagent},
                                    {", sheet ", &record.chart}})
    if (!value->empty()) about += head + *value;
  at.need(reading_mm + 8);
  at.write(about, plain, 0.5);
  if (!record.photo_sha256.empty()) at.write("SHA-256 " + record.photo_sha256, small, 2);
  if (const auto picture = picture_of(record, pictures.folder)) {
    ++pictures.found;
    constexpr double picture_mm = 88;
    at.need(picture_mm);
    at.y_mm += at.pages.picture(*picture, left_mm, at.y_mm, ReportPages::text_width_mm, picture_mm) + 4;
  }
  // Of a series the courses come first; the readings are those of its last photograph.
  if (const auto series = parse_series(record.json, record.photo_name); !series) {
    at.write("The course of this series is not drawn. " + series.error().message, plain, 2);
  } else if (*series) {
    if (const auto drawn = draw_courses(at, **series); !drawn) return drawn;
    at.need(reading_mm + 8);
    at.write("Colours in the photograph named above", head_style, 2);
  }
  for (const CatalogueReading& reading : record.readings) draw_reading(at, reading);
  return std::monostate{};
}

Result<std::monostate> draw_entry(ReportPages& pages, const CatalogueEntry& entry, Pictures& pictures) {
  Cursor at{pages, entry.collection};
  draw_head(at);
  for (const CatalogueRecord& record : entry.records)
    if (const auto drawn = draw_record(at, record, pictures); !drawn) return drawn;
  if (entry.records.empty()) at.write("No readings yet.", plain);
  at.foot();
  pages.next_page();
  return std::monostate{};
}

}  // namespace

Result<std::string> report_pdf(const std::vector<CatalogueEntry>& entries,
                               const std::filesystem::path& pictures, std::size_t* pictures_found) {
  ReportPages pages("Colours of collections");
  Pictures looked{pictures};
  for (const CatalogueEntry& entry : entries)
    if (const auto drawn = draw_entry(pages, entry, looked); !drawn) return fail(drawn.error());
  if (pictures_found != nullptr) *pictures_found = looked.found;
  return pages.finish();
}

Result<std::vector<Image8>> report_pictures(const std::vector<CatalogueEntry>& entries,
                                            const std::filesystem::path& pictures, double px_per_mm,
                                            std::size_t most) {
  if (!(px_per_mm >= 0.5 && px_per_mm <= 12) || most == 0)
    return fail(ErrorCode::bad_call, "A report is shown at 0.5 to 12 pixels a millimetre, one page or more.");
  ReportPages pages(px_per_mm, most);
  Pictures looked{pictures};
  for (std::size_t i = 0; i < std::min(most, entries.size()); ++i)
    if (const auto drawn = draw_entry(pages, entries[i], looked); !drawn) return fail(drawn.error());
  return pages.finish_pictures();
}

}  // namespace colorlib
