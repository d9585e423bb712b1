#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <colorlib/base/file_access.hpp>
#include <colorlib/base/reference_table.hpp>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/colorimetry/chromatic_adaptation.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/naming/color_scale.hpp>
#include <colorlib/naming/munsell_renotation.hpp>
#include <colorlib/naming/scale_cgats.hpp>
#include <colorlib/naming/scale_conditions.hpp>
#include <limits>

namespace colorlib {
namespace {

constexpr double least_shown_probability = 0.05;
constexpr double greatest_tolerance_de00 = 50;

/// Either kind of file as one table.
struct ScaleTable {
  std::vector<std::string> columns;  ///< upper case
  std::vector<CgatsRows::Row> rows;
  std::vector<std::string> header;
};

std::string upper_case(std::string_view text) {
  std::string upper(text);
  for (char& c : upper) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  return upper;
}

Result<ScaleTable> table_from(std::string_view text, const std::string& name) {
  ScaleTable scale;
  if (looks_like_cgats(text)) {
    auto cgats = cgats_rows_from(text, name);
    if (!cgats) return fail(cgats.error());
    scale.columns = std::move(cgats->columns);
    scale.rows = std::move(cgats->rows);
    scale.header = std::move(cgats->header);
    return scale;
  }
  const auto table = ReferenceTable::parse(text, name, "the scale");
  if (!table) return fail(table.error());
  for (const auto& column : table->columns()) scale.columns.push_back(upper_case(column));
  for (std::size_t row = 0; row < table->rows(); ++row) {
    CgatsRows::Row cells{table->line(row), {}};
    for (std::size_t column = 0; column < table->columns().size(); ++column)
      cells.cells.push_back(table->text(row, column));
    scale.rows.push_back(std::move(cells));
  }
  scale.header = table->comments();
  return scale;
}

/// Reads the rows of one scale; each problem is named by its line.
class ScaleReader {
 public:
  ScaleReader(const ScaleTable& table, std::string_view name, const MunsellRenotation& renotation,
              double tolerance)
      : table_(table), name_(name), renotation_(renotation), tolerance_de00_(tolerance) {}

  Result<std::vector<ScaleEntry>> entries(const ScaleConditions& conditions) {
    name_column_ = column({"NAME", "SAMPLE_NAME", "SAMPLE_ID", "SAMPLEID", "ID", "LABEL"});
    lab_columns_ = {column({"L", "L*", "LAB_L"}), column({"A", "A*", "LAB_A"}), column({"B", "B*", "LAB_B"})};
    munsell_column_ = column({"MUNSELL"});
    tolerance_column_ = column({"TOLERANCE_DE00", "TOLERANCE"});
    const bool has_lab =
        std::all_of(lab_columns_.begin(), lab_columns_.end(), [](const auto& c) { return c.has_value(); });
    if (!name_column_ || (!has_lab && !munsell_column_))
      return fail(
          ErrorCode::unreadable_table,
          fmt::format(
              "Reading the scale '{}': columns '{}' found, a name and L, a, b (or munsell) were needed.",
              name_, fmt::join(table_.columns, "', '")),
          "Write a heading like name,L,a,b above the colours.");
    std::vector<ScaleEntry> entries;
    for (const auto& row : table_.rows) {
      auto entry = has_lab ? entry_from_lab(row, conditions) : entry_from_munsell(row);
      if (!entry) return fail(entry.error());
      entries.push_back(std::move(*entry));
      if (entries.size() > ColorScale::limit_entries)
        return refused(row, fmt::format("more than {} colours", ColorScale::limit_entries),
                       "Split the scale.");
    }
    if (entries.empty())
      return fail(ErrorCode::unreadable_table, fmt::format("Reading the scale '{}': no colour found.", name_),
                  "Write one colour a line below the heading.");
    return entries;
  }

 private:
  using Column = std::optional<std::size_t>;

  Column column(std::initializer_list<std::string_view> names) const {
    for (const auto wanted : names) {
      const auto place = std::find(table_.columns.begin(), table_.columns.end(), wanted);
      if (place != table_.columns.end()) return static_cast<std::size_t>(place - table_.columns.begin());
    }
    return std::nullopt;
  }
  tl::unexpected<Error> refused(const CgatsRows::Row& row, const std::string& found,
                                const char* advice) const {
    return fail(ErrorCode::unreadable_table,
                fmt::format("Reading the scale '{}', line {}: {}.", name_, row.line, found), advice);
  }
  Result<double> number(const CgatsRows::Row& row, std::size_t column, double least, double greatest) const {
    const auto& cell = row.cells[column];
    // A comma inside a cell can only be a decimal one, or no number.
    const auto value = number_from_with_decimal_comma(cell);
    if (!value)
      return refused(
          row, fmt::format("'{}' in column '{}' is not a number", cell.substr(0, 40), table_.columns[column]),
          "Write a plain number with a decimal point.");
    if (!(*value >= least && *value <= greatest))
      return refused(row,
                     fmt::format("{} in column '{}' is not within {} to {}", *value, table_.columns[column],
                                 least, greatest),
                     "Make sure that the columns are CIELAB and in their places.");
    return *value;
  }
  Result<ScaleEntry> named_entry(const CgatsRows::Row& row) const {
    ScaleEntry entry;
    entry.name = row.cells[*name_column_];
    entry.line = row.line;
    entry.tolerance_de00 = tolerance_de00_;
    if (entry.name.empty()) return refused(row, "the name is missing", "Give every colour a name.");
    if (tolerance_column_ && !row.cells[*tolerance_column_].empty()) {
      const auto tolerance = number(row, *tolerance_column_, 0, greatest_tolerance_de00);
      if (!tolerance) return fail(tolerance.error());
      entry.tolerance_de00 = *tolerance;
    }
    return entry;
  }
  Result<ScaleEntry> entry_from_lab(const CgatsRows::Row& row, const ScaleConditions& conditions) const {
    auto entry = named_entry(row);
    if (!entry) return entry;
    const auto l = number(row, *lab_columns_[0], 0, 110);
    const auto a = number(row, *lab_columns_[1], -150, 150);
    const auto b = number(row, *lab_columns_[2], -150, 150);
    for (const auto* read : {&l, &a, &b})
      if (!*read) return fail(read->error());
    entry->lab = {*l, *a, *b};
    if (!(conditions.white == white_d50))
      entry->lab = adapted_lab(entry->lab, conditions.white, white_d50, AdaptationMethod::bradford);
    return entry;
  }
  Result<ScaleEntry> entry_from_munsell(const CgatsRows::Row& row) const {
    auto entry = named_entry(row);
    if (!entry) return entry;
    const auto munsell = munsell_from_notation(row.cells[*munsell_column_]);
    if (!munsell)
      return refused(row,
                     fmt::format("'{}' is no Munsell notation", row.cells[*munsell_column_].substr(0, 40)),
                     "Write hue, value and chroma like 7.5YR 5/6, or a neutral like N 5.");
    entry->lab = renotation_.lab_from_munsell(*munsell);
    return entry;
  }

  const ScaleTable& table_;
  std::string_view name_;
  const MunsellRenotation& renotation_;
  double tolerance_de00_;
  Column name_column_, munsell_column_, tolerance_column_;
  std::array<Column, 3> lab_columns_;
};

}  // namespace

Result<ColorScale> ColorScale::load(const std::filesystem::path& file, const MunsellRenotation& renotation,
                                    double tolerance_de00) {
  const auto text = read_file(file, "the scale", ErrorCode::unreadable_table, ReferenceTable::limit_bytes);
  if (!text) return fail(text.error());
  auto scale = parse(*text, file.filename().string(), renotation, tolerance_de00);
  if (scale) scale->name_ = file.stem().string();
  return scale;
}

Result<ColorScale> ColorScale::parse(std::string_view text, std::string name,
                                     const MunsellRenotation& renotation, double tolerance_de00) {
  const auto table = table_from(text, name);
  if (!table) return fail(table.error());
  const auto conditions = scale_conditions_from(table->header, name);
  if (!conditions) return fail(conditions.error());
  auto entries = ScaleReader(*table, name, renotation, tolerance_de00).entries(*conditions);
  if (!entries) return fail(entries.error());
  ColorScale scale;
  scale.name_ = std::move(name);
  scale.entries_ = std::move(*entries);
  if (conditions->illuminant != "D50")
    scale.remark_ = fmt::format("adapted from {} to D50 by Bradford", conditions->illuminant);
  return scale;
}

const ScaleEntry* ColorScale::find(std::string_view entry) const {
  const auto place = std::find_if(entries_.begin(), entries_.end(),
                                  [&](const ScaleEntry& known) { return known.name == entry; });
  return place == entries_.end() ? nullptr : &*place;
}

ScaleAnswer ColorScale::answer(const Lab& lab, const std::vector<Lab>& distribution) const {
  ScaleAnswer said{name_, {}};
  std::vector<double> differences;
  for (const auto& entry : entries_) differences.push_back(difference_ciede2000(lab, entry.lab));
  const auto nearest = std::min_element(differences.begin(), differences.end());

  // Only entries that some colour of the distribution could prefer need to be looked at again: dE00 is no
  // metric, so the bound is generous.
  double reach = 0;
  for (const auto& color : distribution) reach = std::max(reach, difference_ciede2000(lab, color));
  std::vector<std::size_t> candidates;
  for (std::size_t i = 0; i < entries_.size(); ++i)
    if (differences[i] <= 1.5 * (*nearest + 2 * reach) + 1e-9) candidates.push_back(i);
  std::vector<double> shares(entries_.size(), 0.0);
  for (const auto& color : distribution) {
    double least = std::numeric_limits<double>::infinity();
    std::size_t chosen = candidates.front();
    for (const std::size_t i : candidates)
      if (const double de00 = difference_ciede2000(color, entries_[i].lab); de00 < least) {
        least = de00;
        chosen = i;
      }
    shares[chosen] += 1.0 / static_cast<double>(distribution.size());
  }

  const auto first = static_cast<std::size_t>(nearest - differences.begin());
  std::vector<std::size_t> shown;
  for (const std::size_t i : candidates)
    if (i != first && shares[i] >= least_shown_probability) shown.push_back(i);
  std::stable_sort(shown.begin(), shown.end(),
                   [&](std::size_t i, std::size_t k) { return shares[i] > shares[k]; });
  shown.insert(shown.begin(), first);
  for (const std::size_t i : shown) {
    const auto& entry = entries_[i];
    ScaleMatch match{entry.name,
                     differences[i],
                     entry.tolerance_de00,
                     shares[i],
                     share_within(distribution, entry.lab, entry.tolerance_de00),
                     Answer::undecided};
    match.within = answer_from(match.within_probability);
    said.matches.push_back(std::move(match));
  }
  return said;
}

}  // namespace colorlib
