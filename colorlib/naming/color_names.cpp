#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/base/reference_table.hpp>
#include <colorlib/naming/color_names.hpp>

namespace colorlib {
namespace {

constexpr const char* advice = "Restore the file from the project's sources.";

tl::unexpected<Error> refused(const ReferenceTable& table, std::size_t row, const std::string& found) {
  return fail(ErrorCode::unreadable_table,
              fmt::format("Reading the block names '{}', line {}: {}.", table.name(), table.line(row), found),
              advice);
}

/// Upper ends may be "inf": no bound.
Result<double> upper_end(const ReferenceTable& table, std::size_t row, std::size_t column, double open) {
  if (table.text(row, column) == "inf") return open;
  return table.number(row, column);
}

void sort_and_merge(std::vector<double>& numbers) {
  std::sort(numbers.begin(), numbers.end());
  numbers.erase(std::unique(numbers.begin(), numbers.end()), numbers.end());
}

}  // namespace

NumberSteps::NumberSteps(std::vector<double> ends) : ends_(std::move(ends)) {
  ends_.erase(std::remove_if(ends_.begin(), ends_.end(), [](double end) { return !(end > 0); }), ends_.end());
  sort_and_merge(ends_);
  if (ends_.empty()) ends_.push_back(1);
  last_bin_ = std::floor(ends_.back() * bins_by_unit_);
  std::size_t step = 0;
  for (double bin = 0; bin <= last_bin_; ++bin) {
    while (step + 1 < ends_.size() && bin / bins_by_unit_ >= ends_[step]) ++step;
    first_step_.push_back(static_cast<std::uint8_t>(step));
  }
}

Result<ColorNames> ColorNames::load(const std::filesystem::path& names_file,
                                    const std::filesystem::path& blocks_file) {
  ColorNames names;
  if (const auto read = names.read_names(names_file); !read) return fail(read.error());
  if (const auto read = names.read_cells(blocks_file); !read) return fail(read.error());
  if (const auto filled = names.fill_grid(blocks_file.filename().string()); !filled)
    return fail(filled.error());
  return names;
}

Result<std::monostate> ColorNames::read_names(const std::filesystem::path& file) {
  const auto table = ReferenceTable::read(file, "the block names");
  if (!table) return fail(table.error());
  const auto columns = table->require({"number", "level1", "level2", "level3", "abbreviation"});
  if (!columns) return fail(columns.error());
  if (table->rows() != blocks)
    return fail(ErrorCode::unreadable_table,
                fmt::format("Reading the block names '{}': {} rows found, {} needed.", table->name(),
                            table->rows(), blocks),
                advice);
  for (std::size_t row = 0; row < table->rows(); ++row) {
    const auto number = table->number(row, (*columns)[0]);
    if (!number) return fail(number.error());
    if (*number != static_cast<double>(row + 1))
      return refused(*table, row, "the numbers must run from 1 to 267");
    for (std::size_t level = 0; level < 3; ++level) {
      const std::string& name = table->text(row, (*columns)[level + 1]);
      if (name.empty()) return refused(*table, row, "a name is missing");
      auto& known = names_[level];
      auto place = std::find(known.begin(), known.end(), name);
      if (place == known.end()) place = known.insert(known.end(), name);
      index_[level].push_back(static_cast<std::size_t>(place - known.begin()));
    }
    abbreviations_.push_back(table->text(row, (*columns)[4]));
  }
  return std::monostate{};
}

Result<std::monostate> ColorNames::read_cells(const std::filesystem::path& file) {
  const auto table = ReferenceTable::read(file, "the block names");
  if (!table) return fail(table.error());
  const auto columns = table->require(
      {"hue_begin", "hue_end", "number", "chroma_begin", "value_begin", "chroma_end", "value_end"});
  if (!columns) return fail(columns.error());
  for (std::size_t row = 0; row < table->rows(); ++row) {
    const auto begin = hue_step_from(table->text(row, (*columns)[0]));
    const auto end = hue_step_from(table->text(row, (*columns)[1]));
    if (!begin || !end || *begin != std::floor(*begin) || *end != std::floor(*end))
      return refused(*table, row, "the hues must be whole steps like 4YR");
    std::array<double, 3> number{};
    for (std::size_t i = 0; i < 3; ++i) {
      const auto read = table->number(row, (*columns)[i + 2]);
      if (!read) return fail(read.error());
      number[i] = *read;
    }
    const auto chroma_end = upper_end(*table, row, (*columns)[5], open_chroma);
    const auto value_end = upper_end(*table, row, (*columns)[6], open_value);
    if (!chroma_end) return fail(chroma_end.error());
    if (!value_end) return fail(value_end.error());
    if (!(number[0] >= 1 && number[0] <= blocks)) return refused(*table, row, "the number is not a block's");
    if (!(number[1] >= 0 && number[1] < *chroma_end && number[2] >= 0 && number[2] < *value_end))
      return refused(*table, row, "a range is empty");
    cells_.push_back({static_cast<int>(number[0]), *begin, wrapped_hue_step(*end - *begin), number[2],
                      *value_end, number[1], *chroma_end});
  }
  return std::monostate{};
}

Result<std::monostate> ColorNames::fill_grid(const std::string& file_name) {
  const auto broken = [&](const std::string& found) {
    return fail(ErrorCode::unreadable_table,
                fmt::format("Reading the block names '{}': {}.", file_name, found), advice);
  };
  std::vector<double> charts, value_ends, chroma_ends;
  for (const auto& cell : cells_) {
    charts.push_back(cell.hue_begin);
    value_ends.insert(value_ends.end(), {cell.value_begin, cell.value_end});
    chroma_ends.insert(chroma_ends.end(), {cell.chroma_begin, cell.chroma_end});
  }
  sort_and_merge(charts);
  values_ = NumberSteps(std::move(value_ends));
  chromas_ = NumberSteps(std::move(chroma_ends));
  if (charts.empty()) return broken("no rows found");
  for (int hue = 0; hue < 100; ++hue) {
    const auto next = std::upper_bound(charts.begin(), charts.end(), hue);
    const auto chart =
        next == charts.begin() ? charts.size() - 1 : static_cast<std::size_t>(next - charts.begin()) - 1;
    chart_of_hue_[static_cast<std::size_t>(hue)] = static_cast<std::uint8_t>(chart);
  }
  const std::size_t values = values_.size(), chromas = chromas_.size();
  grid_.assign(charts.size() * values * chromas, 0);
  for (const auto& cell : cells_) {
    const auto chart =
        static_cast<std::size_t>(std::find(charts.begin(), charts.end(), cell.hue_begin) - charts.begin());
    const double next_chart = chart + 1 < charts.size() ? charts[chart + 1] : charts.front();
    if (wrapped_hue_step(next_chart - cell.hue_begin) != cell.hue_width)
      return broken(fmt::format("block {} begins at hue step {} but does not end with that chart",
                                cell.number, cell.hue_begin));
    for (std::size_t v = values_.at(cell.value_begin); v < values && values_.end(v) <= cell.value_end; ++v)
      for (std::size_t c = chromas_.at(cell.chroma_begin); c < chromas && chromas_.end(c) <= cell.chroma_end;
           ++c) {
        auto& held = grid_[(chart * values + v) * chromas + c];
        if (held != 0)
          return broken(
              fmt::format("blocks {} and {} overlap at hue step {}, value up to {}, chroma up to {}", held,
                          cell.number, cell.hue_begin, values_.end(v), chromas_.end(c)));
        held = static_cast<std::uint16_t>(cell.number);
      }
  }
  if (std::find(grid_.begin(), grid_.end(), 0) != grid_.end())
    return broken("a part of Munsell space has no name");
  return std::monostate{};
}

int ColorNames::block_of(const Munsell& munsell) const {
  const auto hue = std::min(static_cast<std::size_t>(wrapped_hue_step(munsell.hue_step)), std::size_t{99});
  const std::size_t chart = chart_of_hue_[hue];
  return grid_[(chart * values_.size() + values_.at(munsell.value)) * chromas_.size() +
               chromas_.at(munsell.chroma)];
}

std::optional<std::size_t> ColorNames::find(std::string_view name, NameLevel level) const {
  const auto& known = names_at(level);
  const auto place = std::find(known.begin(), known.end(), name);
  if (place == known.end()) return std::nullopt;
  return static_cast<std::size_t>(place - known.begin());
}

}  // namespace colorlib
