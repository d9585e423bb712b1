#include <fmt/format.h>
#include <lcms2.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/exports/row_files.hpp>
#include <memory>

namespace colorlib {
namespace {

struct ContextDeleter {
  void operator()(cmsContext context) const { cmsDeleteContext(context); }
};
struct TableDeleter {
  void operator()(void* table) const { cmsIT8Free(table); }
};

std::string capitals(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(), [](unsigned char c) { return std::toupper(c); });
  return text;
}

std::string small_letters(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(), [](unsigned char c) { return std::tolower(c); });
  return text;
}

/// LittleCMS passes over an empty string as if it were not there: an empty cell is a lone '%'.
constexpr const char* empty_cell = "%";

std::string quoted(const std::string& text) {
  if (text.empty()) return fmt::format("\"{}\"", empty_cell);
  std::string cell = "\"";
  for (const char c : text) {
    if (c == '"')
      cell += "%22";
    else if (c == '%')
      cell += "%25";
    else
      cell += c;
  }
  cell += '"';
  return cell;
}

std::string unquoted(std::string text) {
  if (text == empty_cell) return {};
  for (const auto& [code, sign] : {std::pair{"%22", "\""}, std::pair{"%25", "%"}})
    for (std::size_t at = 0; (at = text.find(code, at)) != std::string::npos; ++at) text.replace(at, 3, sign);
  return text;
}

bool is_standard(const std::string& column) {
  return column == "lab_l" || column == "lab_a" || column == "lab_b" || column.starts_with("u_");
}

}  // namespace

std::string cgats_from(const ReadingRows& rows) {
  std::vector<std::size_t> others;
  const auto place = [&](std::string_view column) {
    return static_cast<std::size_t>(std::find(rows.columns.begin(), rows.columns.end(), column) -
                                    rows.columns.begin());
  };
  for (std::size_t i = 0; i < rows.columns.size(); ++i)
    if (!is_standard(rows.columns[i])) others.push_back(i);
  const std::size_t l = place("lab_l"), ll = place("cov_ll"), aa = place("cov_aa"), bb = place("cov_bb");
  std::string body;
  std::size_t sets = 0;
  for (const auto& cells : rows.cells) {
    if (cells[l].empty()) continue;
    body += fmt::format("{} {} {} {}", ++sets, cells[l], cells[l + 1], cells[l + 2]);
    for (const std::size_t variance : {ll, aa, bb})
      body += fmt::format(" {:.6g}", std::sqrt(std::max(0.0, number_from(cells[variance]).value_or(0))));
    for (const std::size_t i : others) body.append(" ").append(quoted(cells[i]));
    body += '\n';
  }
  std::string text =
      "CGATS.17\nORIGINATOR \"tintfall\"\nDESCRIPTOR \"Readings of collections, CIELAB\"\n"
      "WEIGHTING_FUNCTION \"ILLUMINANT, D50\"\nWEIGHTING_FUNCTION \"OBSERVER, 2 degree\"\n"
      "# Colour never tells whether a mushroom is safe to eat.\n";
  for (const std::size_t i : others) text += fmt::format("KEYWORD \"{}\"\n", capitals(rows.columns[i]));
  text += fmt::format(
      "NUMBER_OF_FIELDS {}\nBEGIN_DATA_FORMAT\nSAMPLE_ID LAB_L LAB_A LAB_B STDEV_L STDEV_A STDEV_B",
      others.size() + 7);
  for (const std::size_t i : others) text.append(" ").append(capitals(rows.columns[i]));
  text += fmt::format("\nEND_DATA_FORMAT\nNUMBER_OF_SETS {}\nBEGIN_DATA\n{}END_DATA\n", sets, body);
  return text;
}

Result<ReadingRows> rows_from_cgats(std::string_view text, std::string_view name) {
  text = without_byte_order_mark(text);
  const auto wrong = [&](std::string_view what) {
    return fail(ErrorCode::unreadable_table, fmt::format("Reading the CGATS text '{}': {}.", name, what),
                "Export it again with its SAMPLE_ID and LAB columns.");
  };
  std::string reason;
  const std::unique_ptr<std::remove_pointer_t<cmsContext>, ContextDeleter> context(
      cmsCreateContext(nullptr, &reason));
  cmsSetLogErrorHandlerTHR(context.get(), [](cmsContext id, cmsUInt32Number, const char* said) {
    *static_cast<std::string*>(cmsGetContextUserData(id)) = said;
  });
  const std::unique_ptr<void, TableDeleter> table(
      cmsIT8LoadFromMem(context.get(), text.data(), static_cast<cmsUInt32Number>(text.size())));
  if (!table) return wrong(reason.empty() ? "it is not well-formed" : quotable(reason, 120));
  char** names = nullptr;
  const int columns = cmsIT8EnumDataFormat(table.get(), &names);
  const int sets = static_cast<int>(cmsIT8GetPropertyDbl(table.get(), "NUMBER_OF_SETS"));
  ReadingRows rows;
  std::vector<int> source;  // of each column of `rows`
  int id = -1, number = -1;
  std::vector<int> deviations(3, -1);
  bool covariances = false;
  for (int i = 0; i < columns; ++i) {
    const std::string column = capitals(names[i] != nullptr ? names[i] : "");
    const std::string own = small_letters(column);
    if (column == "SAMPLE_ID") id = i;
    if (column == "STDEV_L") deviations[0] = i;
    if (column == "STDEV_A") deviations[1] = i;
    if (column == "STDEV_B") deviations[2] = i;
    const auto& known = reading_columns();
    if (std::find(known.begin(), known.end(), own) == known.end()) continue;
    if (own == "number") number = i;
    covariances = covariances || own == "cov_ll";
    rows.columns.push_back(own);
    source.push_back(i);
  }
  if (std::find(rows.columns.begin(), rows.columns.end(), "lab_l") == rows.columns.end())
    return wrong("it has no column LAB_L");
  if (number < 0) {
    if (id < 0) return wrong("it has neither NUMBER nor SAMPLE_ID");
    rows.columns.emplace_back("number");
    source.push_back(id);
  }
  const bool spreads = !covariances && *std::min_element(deviations.begin(), deviations.end()) >= 0;
  if (spreads) rows.columns.insert(rows.columns.end(), {"u_l_k2", "u_a_k2", "u_b_k2"});
  for (int row = 0; row < sets; ++row) {
    std::vector<std::string> cells;
    for (const int column : source) {
      const char* cell = cmsIT8GetDataRowCol(table.get(), row, column);
      cells.push_back(unquoted(cell != nullptr ? cell : ""));
    }
    for (int i = 0; spreads && i < 3; ++i) {
      const char* cell = cmsIT8GetDataRowCol(table.get(), row, deviations[static_cast<std::size_t>(i)]);
      const auto deviation = number_from(cell != nullptr ? cell : "");
      cells.push_back(deviation ? fmt::format("{}", 2 * *deviation) : std::string());
    }
    rows.cells.push_back(std::move(cells));
  }
  return rows;
}

}  // namespace colorlib
