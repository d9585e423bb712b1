#include <fmt/format.h>

#include <colorlib/base/reference_table.hpp>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/reaction/series_times.hpp>

namespace colorlib {
namespace {

constexpr std::size_t most_rows = 100'000;

Result<TimesTable> table_from(const ReferenceTable& table) {
  const auto columns = table.require({"photo", "seconds"});
  if (!columns) return fail(columns.error());
  if (table.rows() > most_rows)
    return fail(ErrorCode::unreadable_table,
                fmt::format("The times file '{}' has {} rows, at most {} are taken.", table.name(),
                            table.rows(), most_rows),
                "Split the series.");
  TimesTable times;
  std::map<double, std::size_t> rows;
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const auto seconds = table.number(row, (*columns)[1]);
    if (!seconds) return fail(seconds.error());
    const std::string& photo = table.text(row, (*columns)[0]);
    if (!times.emplace(photo, *seconds).second)
      return fail(ErrorCode::unreadable_table,
                  fmt::format("The times file '{}' names the photo '{}' twice, again on line {}.",
                              table.name(), quotable(photo), table.line(row)),
                  "Leave one of the lines out.");
    if (const auto [before, fresh] = rows.emplace(*seconds, row); !fresh)
      return fail(
          ErrorCode::unreadable_table,
          fmt::format("The times file '{}' puts two photos at {:g} s: '{}' on line {} and '{}' on line {}.",
                      table.name(), *seconds, quotable(table.text(before->second, (*columns)[0])),
                      table.line(before->second), quotable(photo), table.line(row)),
          "Correct one of the two, with decimals where the photos follow one another fast.");
  }
  return times;
}

}  // namespace

Result<TimesTable> read_times_table(const std::filesystem::path& path) {
  const auto table = ReferenceTable::read(path, "the times file");
  if (!table) return fail(table.error());
  return table_from(*table);
}

Result<TimesTable> parse_times_table(std::string_view text, std::string name) {
  const auto table = ReferenceTable::parse(text, std::move(name), "the times file");
  if (!table) return fail(table.error());
  return table_from(*table);
}

}  // namespace colorlib
