#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <colorlib/base/data_folder.hpp>
#include <colorlib/base/file_access.hpp>
#include <colorlib/base/median.hpp>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/chart/reference_conditions_internal.hpp>
#include <colorlib/chart/reference_owner_internal.hpp>
#include <colorlib/chart/reference_plausibility_internal.hpp>
#include <colorlib/chart/reference_sheet_internal.hpp>
#include <colorlib/chart/reference_spectra_internal.hpp>
#include <colorlib/chart/reference_values.hpp>
#include <colorlib/colorimetry/chromatic_adaptation.hpp>
#include <colorlib/colorimetry/cie_tables.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <map>
#include <set>
#include <variant>

namespace colorlib {
namespace {

constexpr double largest_lightness = 110, largest_ab = 150, largest_uncertainty = 20;
/// Reflectances above this are percent: a sheet of paper that fluoresces hardly reaches 1.3 on the scale of
/// 1, and the lightest patch of a sheet that serves is far above 2 percent.
constexpr double percent_from = 2;
/// Colour columns that lie this far (median dE00) from the colours of the file's own spectra were made for
/// another light: D65 taken for D50 would differ by several, tables and bandpass of two programs by a few
/// tenths.
constexpr double same_colours_de00 = 1;

bool is_possible(const Lab& lab) {
  return lab.l >= 0 && lab.l <= largest_lightness && std::abs(lab.a) <= largest_ab &&
         std::abs(lab.b) <= largest_ab;
}

/// The columns of one triple, when all three are there.
using Triple = std::array<std::size_t, 3>;

class Reader {
 public:
  Reader(ReferenceSheet sheet, const ChartDefinition& chart) : sheet_(std::move(sheet)), chart_(chart) {}

  Result<ReferenceValues> read();

 private:
  tl::unexpected<Error> refuse(const std::string& found, std::string advice) const {
    return fail(ErrorCode::unreadable_reference,
                fmt::format("Reading the reference values '{}': {}.", quotable(sheet_.name, 120), found),
                std::move(advice));
  }
  std::string cell_name(std::size_t patch, std::size_t column) const {
    return fmt::format("line {}, patch '{}', column '{}'", sheet_.rows[rows_[patch]].line,
                       quotable(chart_.patches[patch].id), quotable(sheet_.columns[column]));
  }
  Result<std::monostate> match_rows();
  Result<std::optional<Triple>> triple(const std::array<std::string_view, 3>& names) const;
  Result<double> number(std::size_t patch, std::size_t column);
  Result<std::vector<Lab>> lab_columns(const Triple& columns);
  Result<std::vector<Lab>> xyz_columns(const Triple& columns);
  Result<std::vector<Lab>> spectra(const SpectralColumns& spectral);
  Result<std::vector<Lab>> colours();
  Result<std::vector<Lab>> colour_columns(const std::optional<Triple>& lab, const std::optional<Triple>& xyz);
  std::string source() const;

  ReferenceSheet sheet_;
  const ChartDefinition& chart_;
  ReferenceConditions conditions_;
  std::vector<std::size_t> rows_;          ///< of the sheet, for each patch of the chart
  std::string first_point_, first_comma_;  ///< cells with a decimal point and with a decimal comma
  std::vector<std::string> remarks_;
};

/// At most five ids in quotes, then how many more.
std::string some_of(const std::vector<std::string>& ids) {
  std::string text;
  for (std::size_t i = 0; i < std::min<std::size_t>(ids.size(), 5); ++i)
    text += fmt::format("{}'{}'", i > 0 ? ", " : "", quotable(ids[i]));
  if (ids.size() > 5) text += fmt::format(" and {} more", ids.size() - 5);
  return text;
}

Result<std::monostate> Reader::match_rows() {
  std::optional<std::size_t> best;
  std::vector<std::string> best_missing;
  for (const std::string_view name : {"SAMPLE_ID", "SAMPLE_NAME", "SAMPLEID", "SAMPLE_LOC", "ID", "PATCH"}) {
    const auto column = sheet_.column(name);
    if (!column) continue;
    std::map<std::string_view, std::size_t> count;
    for (const auto& row : sheet_.rows) ++count[row.cells[*column]];
    std::vector<std::string> missing;
    for (const Patch& patch : chart_.patches)
      if (!count.contains(patch.id)) missing.push_back(patch.id);
    if (!best || missing.size() < best_missing.size()) {
      best = column;
      best_missing = std::move(missing);
    }
  }
  if (!best)
    return refuse("it has no column SAMPLE_ID, which must hold the chart's patch ids",
                  "Name the patches in a column SAMPLE_ID as the chart's definition does.");
  if (!best_missing.empty())
    return refuse(fmt::format("column '{}' holds {} of the {} patches of '{}', missing: {}",
                              quotable(sheet_.columns[*best]), chart_.patches.size() - best_missing.size(),
                              chart_.patches.size(), chart_.name, some_of(best_missing)),
                  "Check that the file belongs to this chart, and measure or add what is missing.");
  std::set<std::string_view> ids;
  for (const auto& row : sheet_.rows) ids.insert(row.cells[*best]);
  const std::string descriptor = sheet_.statement("DESCRIPTOR");
  if (const auto other = other_chart_named(descriptor, ids, chart_))
    return refuse(fmt::format("it says that it is of chart '{}' (\"{}\"), values of '{}' are needed", *other,
                              quotable(descriptor, 80), quotable(chart_.name)),
                  fmt::format("Give the file measured on this sheet, or name the chart {}; if the values are "
                              "this sheet's, correct the file's DESCRIPTOR.",
                              *other));
  if (upper_case(sheet_.columns[*best]) != "SAMPLE_ID")
    remarks_.push_back(fmt::format("patches were matched by column '{}'", quotable(sheet_.columns[*best])));
  std::map<std::string_view, std::size_t> wanted;
  for (std::size_t i = 0; i < chart_.patches.size(); ++i) wanted[chart_.patches[i].id] = i;
  std::vector<std::optional<std::size_t>> rows(chart_.patches.size());
  std::vector<std::string> others;
  for (std::size_t row = 0; row < sheet_.rows.size(); ++row) {
    const std::string& id = sheet_.rows[row].cells[*best];
    const auto patch = wanted.find(id);
    if (patch == wanted.end()) {
      others.push_back(id);
      continue;
    }
    if (auto& place = rows[patch->second])
      return refuse(fmt::format("patch '{}' is there twice, in lines {} and {}", quotable(id),
                                sheet_.rows[*place].line, sheet_.rows[row].line),
                    "Keep one row for each patch; average repeated measurements first.");
    rows[patch->second] = row;
  }
  for (const auto& row : rows) rows_.push_back(*row);
  if (!others.empty())
    remarks_.push_back(fmt::format("{} {} no patch of the chart and were left out: {}", others.size(),
                                   others.size() == 1 ? "row names" : "rows name", some_of(others)));
  return std::monostate{};
}

Result<std::optional<Triple>> Reader::triple(const std::array<std::string_view, 3>& names) const {
  Triple columns{};
  std::size_t there = 0;
  for (std::size_t i = 0; i < 3; ++i) {
    std::size_t same = 0;
    for (std::size_t k = 0; k < sheet_.columns.size(); ++k)
      if (upper_case(sheet_.columns[k]) == names[i]) {
        columns[i] = k;
        ++same;
      }
    if (same > 1) return refuse(fmt::format("column {} is there twice", names[i]), "Keep one of the two.");
    there += same;
  }
  if (there == 3) return std::optional<Triple>(columns);
  if (there > 0)
    return refuse(
        fmt::format("of the columns {}, {} and {} it has only {}", names[0], names[1], names[2], there),
        "Export all three.");
  return std::optional<Triple>();
}

Result<double> Reader::number(std::size_t patch, std::size_t column) {
  const std::string& cell = sheet_.rows[rows_[patch]].cells[column];
  const auto value = number_from_with_decimal_comma(cell);
  if (!value)
    return refuse(fmt::format("{}: {} where a number is needed", cell_name(patch, column),
                              cell.empty() ? "the cell is empty" : fmt::format("found '{}'", quotable(cell))),
                  "Write a plain number such as 52.31.");
  // Beside decimal points a comma might part thousands: then nobody can tell which is meant.
  if (cell.find(',') != std::string::npos && first_comma_.empty()) first_comma_ = cell_name(patch, column);
  if (cell.find('.') != std::string::npos && first_point_.empty()) first_point_ = cell_name(patch, column);
  if (!first_comma_.empty() && !first_point_.empty())
    return refuse(fmt::format("decimal commas ({}) and decimal points ({}) stand in one file", first_comma_,
                              first_point_),
                  "Write all numbers with decimal points.");
  return *value;
}

Result<std::vector<Lab>> Reader::lab_columns(const Triple& columns) {
  std::vector<Lab> colours;
  for (std::size_t patch = 0; patch < rows_.size(); ++patch) {
    Vector3 v{};
    for (std::size_t i = 0; i < 3; ++i) {
      const auto value = number(patch, columns[i]);
      if (!value) return fail(value.error());
      v[i] = *value;
      const bool fits = i == 0 ? v[i] >= 0 && v[i] <= largest_lightness : std::abs(v[i]) <= largest_ab;
      if (!fits)
        return refuse(
            fmt::format("{}: {} is no {} of a printed patch, {} is possible", cell_name(patch, columns[i]),
                        v[i], i == 0 ? "L*" : "a* or b*", i == 0 ? "0 to 110" : "-150 to 150"),
            "Check the columns' order and scale.");
    }
    colours.push_back(lab_from(v));
  }
  return colours;
}

Result<std::vector<Lab>> Reader::xyz_columns(const Triple& columns) {
  std::vector<Xyz> colours;
  double largest_y = 0;
  for (std::size_t patch = 0; patch < rows_.size(); ++patch) {
    Vector3 v{};
    for (std::size_t i = 0; i < 3; ++i) {
      const auto value = number(patch, columns[i]);
      if (!value) return fail(value.error());
      v[i] = *value;
      if (v[i] < 0 || v[i] > 150)
        return refuse(fmt::format("{}: {} is no tristimulus value of a printed patch, 0 to 150 is possible",
                                  cell_name(patch, columns[i]), v[i]),
                      "Check the columns' order and scale (Y is 100 for the perfect diffuser).");
    }
    largest_y = std::max(largest_y, v[1]);
    colours.push_back(xyz_from(v));
  }
  // The lightest patch of a sheet that serves is far above Y = 1.5 of 100.
  const bool scale_of_one = largest_y <= 1.5;
  if (scale_of_one) remarks_.emplace_back("tristimulus values were read on the scale where white has Y = 1");
  std::vector<Lab> labs;
  const double scale = scale_of_one ? 1 : 100;
  const White white = conditions_.white.value_or(white_d50);
  for (const Xyz& c : colours) labs.push_back(lab_from_xyz({c.x / scale, c.y / scale, c.z / scale}, white));
  return labs;
}

Result<std::vector<Lab>> Reader::spectra(const SpectralColumns& spectral) {
  const auto tables = read_cie_tables(data_folder() / "reference");
  if (!tables) return fail(tables.error());
  std::vector<Spectrum> reflectances;
  double largest = 0;
  for (std::size_t patch = 0; patch < rows_.size(); ++patch) {
    Spectrum spectrum{spectral.start_nm, spectral.step_nm, {}};
    for (const std::size_t column : spectral.columns) {
      const auto value = number(patch, column);
      if (!value) return fail(value.error());
      if (*value < -5 || *value > 200)
        return refuse(fmt::format("{}: {} is no reflectance, 0 to 1 or 0 to 100 percent is needed",
                                  cell_name(patch, column), *value),
                      "Check that the columns hold reflectance factors.");
      spectrum.values.push_back(*value);
      largest = std::max(largest, *value);
    }
    reflectances.push_back(std::move(spectrum));
  }
  const bool percent = largest > percent_from;
  if (percent) remarks_.emplace_back("reflectances were read as percent");
  std::vector<Lab> labs;
  for (std::size_t patch = 0; patch < rows_.size(); ++patch) {
    for (double& value : reflectances[patch].values) value /= percent ? 100 : 1;
    const auto lab =
        lab_from_reflectance(reflectances[patch], tables->illuminant(Illuminant::d50), tables->observer_1931);
    if (!lab)
      return refuse(fmt::format("the spectrum of patch '{}' cannot serve: {}",
                                quotable(chart_.patches[patch].id), lab.error().message),
                    lab.error().advice.empty() ? "Export reflectances from 400 to 700 nm by 10 nm."
                                               : lab.error().advice);
    if (!is_possible(*lab))
      return refuse(
          fmt::format(
              "the spectrum of patch '{}' (line {}) gives L* {:.1f}, a* {:.1f}, b* {:.1f}, no colour of a "
              "printed patch",
              quotable(chart_.patches[patch].id), sheet_.rows[rows_[patch]].line, lab->l, lab->a, lab->b),
          "Check that the columns hold reflectance factors on one scale.");
    labs.push_back(*lab);
  }
  return labs;
}

Result<std::vector<Lab>> Reader::colour_columns(const std::optional<Triple>& lab,
                                                const std::optional<Triple>& xyz) {
  if (!conditions_.contradiction.empty())
    return refuse(
        fmt::format("it states {}, one of them is needed", conditions_.contradiction),
        "State the light and the observer of the values once, as WEIGHTING_FUNCTION \"ILLUMINANT, D50\".");
  if (conditions_.observer_deg == 10)
    return refuse(
        "its colours are for the 10 degree observer, which cannot be converted into those for 2 degree",
        "Export the values for D50 and 2 degree, or the spectra.");
  if (!conditions_.illuminant.empty() && !conditions_.white)
    return refuse(fmt::format("its colours are for the illuminant {}, whose white this program does not know",
                              conditions_.illuminant),
                  "Export the values for D50 and 2 degree, or the spectra.");
  auto colours = lab ? lab_columns(*lab) : xyz_columns(*xyz);
  if (colours && conditions_.white && *conditions_.white != white_d50) {
    for (std::size_t patch = 0; patch < colours->size(); ++patch) {
      Lab& colour = (*colours)[patch];
      colour = adapted_lab(colour, *conditions_.white, white_d50, AdaptationMethod::bradford);
      if (!is_possible(colour))
        return refuse(fmt::format("line {}, patch '{}': no printed patch has its colour",
                                  sheet_.rows[rows_[patch]].line, quotable(chart_.patches[patch].id)),
                      "Check the columns' order and scale.");
    }
    remarks_.push_back(fmt::format("adapted from {} to D50 by Bradford", conditions_.illuminant));
  }
  return colours;
}

Result<std::vector<Lab>> Reader::colours() {
  const auto lab = triple({"LAB_L", "LAB_A", "LAB_B"});
  if (!lab) return fail(lab.error());
  const auto xyz = triple({"XYZ_X", "XYZ_Y", "XYZ_Z"});
  if (!xyz) return fail(xyz.error());
  const auto spectral = spectral_columns_of(sheet_);
  if (!spectral) return fail(spectral.error());
  const bool has_colours = lab->has_value() || xyz->has_value();
  const bool has_spectra = !spectral->columns.empty();
  if (!has_colours && !has_spectra)
    return refuse(
        "it has no colours: neither LAB_L, LAB_A, LAB_B nor XYZ_X, XYZ_Y, XYZ_Z nor spectral columns",
        "Export one of these for D50 and 2 degree.");
  if (!has_spectra) return colour_columns(*lab, *xyz);
  auto from_spectra = spectra(*spectral);
  if (!from_spectra || !has_colours) return from_spectra;
  if (!conditions_.as_needed()) {
    remarks_.emplace_back(
        "colours were computed from the spectra for D50 and 2 degree, the file's own are for other "
        "conditions");
    return from_spectra;
  }
  auto stated = colour_columns(*lab, *xyz);
  if (!stated) return stated;
  std::vector<double> apart;
  for (std::size_t i = 0; i < stated->size(); ++i)
    apart.push_back(difference_ciede2000((*stated)[i], (*from_spectra)[i]));
  if (const double middle = median(std::move(apart)); middle > same_colours_de00) {
    remarks_.push_back(fmt::format(
        "colours were computed from the spectra: the file's own differ from them by {:.1f} (median "
        "ΔE00), as if for another light",
        middle));
    return from_spectra;
  }
  return stated;
}

std::string Reader::source() const {
  std::string text = quotable(sheet_.name, 120);
  for (const std::string_view keyword :
       {"DESCRIPTOR", "ORIGINATOR", "INSTRUMENTATION", "MEASUREMENT_SOURCE", "CREATED"})
    if (const std::string stated = sheet_.statement(keyword); !stated.empty())
      text += fmt::format("; {}: {}", keyword, quotable(stated, 120));
  return text;
}

Result<ReferenceValues> Reader::read() {
  if (const auto matched = match_rows(); !matched) return fail(matched.error());
  conditions_ = conditions_of(sheet_);
  const auto labs = colours();
  if (!labs) return fail(labs.error());
  if (auto why = why_no_print_has(*labs, chart_)) return refuse(why->found, std::move(why->advice));
  const auto deviations = triple({"STDEV_L", "STDEV_A", "STDEV_B"});
  if (!deviations) return fail(deviations.error());

  ReferenceValues values;
  values.kind = upper_case(sheet_.statement("MEASUREMENT_SOURCE")).find(upper_case(transferred_source)) ==
                        std::string::npos
                    ? ReferenceKind::measured
                    : ReferenceKind::transferred;
  for (std::size_t patch = 0; patch < rows_.size(); ++patch) {
    PatchReference reference{chart_.patches[patch].id, (*labs)[patch], {}};
    reference.standard_uncertainty.fill(default_reference_uncertainty);
    for (std::size_t i = 0; deviations->has_value() && i < 3; ++i) {
      const auto value = number(patch, (**deviations)[i]);
      if (!value) return fail(value.error());
      if (!(*value > 0 && *value <= largest_uncertainty))
        return refuse(
            fmt::format("{}: {} is no standard uncertainty, a number above 0 and at most {} is needed",
                        cell_name(patch, (**deviations)[i]), *value, largest_uncertainty),
            "Correct it, or leave the STDEV columns out.");
      reference.standard_uncertainty[i] = *value;
    }
    values.patches.push_back(std::move(reference));
  }
  if (!first_comma_.empty()) remarks_.emplace_back("decimal commas were read as decimal points");
  values.source = source();
  values.created = sheet_.statement("CREATED");
  values.measurement_source = sheet_.statement("MEASUREMENT_SOURCE");
  values.remarks = sheet_.remarks;
  values.remarks.insert(values.remarks.end(), remarks_.begin(), remarks_.end());
  return values;
}

}  // namespace

std::string_view reference_kind_name(ReferenceKind kind) {
  switch (kind) {
    case ReferenceKind::measured:
      return "measured";
    case ReferenceKind::transferred:
      return "transferred";
    case ReferenceKind::nominal:
      break;
  }
  return "nominal";
}

Result<ReferenceValues> parse_reference(std::string_view text, std::string_view name,
                                        const ChartDefinition& chart) {
  auto sheet = read_reference_sheet(text, name);
  if (!sheet) return fail(sheet.error());
  return Reader(std::move(*sheet), chart).read();
}

Result<ReferenceValues> read_reference(const std::filesystem::path& path, const ChartDefinition& chart) {
  const auto bytes =
      read_file(path, "the reference values", ErrorCode::unreadable_reference, ReferenceLimits::bytes);
  if (!bytes) return fail(bytes.error());
  return parse_reference(*bytes, path.filename().string(), chart);
}

ReferenceValues nominal_reference(const ChartDefinition& chart) {
  ReferenceValues values;
  values.kind = ReferenceKind::nominal;
  values.source = fmt::format("nominal values of {}", chart.name);
  for (const Patch& patch : chart.patches)
    values.patches.push_back(
        {patch.id,
         patch.nominal_lab,
         {nominal_reference_uncertainty, nominal_reference_uncertainty, nominal_reference_uncertainty}});
  return values;
}

}  // namespace colorlib
