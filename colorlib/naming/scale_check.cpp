#include <fmt/format.h>

#include <algorithm>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/naming/scale_check.hpp>
#include <limits>

namespace colorlib {
namespace {

constexpr double same_color_de00 = 0.05;
/// A scale with more close pairs than this is said to have "more".
constexpr std::size_t most_findings = 10'000;

ScaleFinding finding(ScaleFindingKind kind, const ScaleEntry& a, const ScaleEntry& b, double de00) {
  ScaleFinding found{kind, a.name, b.name, a.line, b.line, de00, {}};
  switch (kind) {
    case ScaleFindingKind::duplicate_name:
      found.sentence =
          fmt::format("'{}' stands in lines {} and {}, ΔE00 {:.2f} apart", a.name, a.line, b.line, de00);
      break;
    case ScaleFindingKind::duplicate_color:
      found.sentence =
          fmt::format("'{}' (line {}) and '{}' (line {}) are one colour", a.name, a.line, b.name, b.line);
      break;
    case ScaleFindingKind::close:
      found.sentence = fmt::format(
          "'{}' (line {}) and '{}' (line {}) are ΔE00 {:.2f} apart, nearer than the tolerance of {:.1f}",
          a.name, a.line, b.name, b.line, de00, std::max(a.tolerance_de00, b.tolerance_de00));
      break;
    case ScaleFindingKind::gap:
      found.sentence = fmt::format(
          "between '{}' (line {}) and '{}' (line {}), ΔE00 {:.1f} apart, lie colours that bear no name",
          a.name, a.line, b.name, b.line, de00);
      break;
  }
  return found;
}

struct Link {
  std::size_t from, to;
  double de00;
};

/// The links of a minimum spanning tree (Prim's algorithm, without a stored matrix).
std::vector<Link> neighbors_of(const std::vector<ScaleEntry>& entries) {
  std::vector<Link> tree;
  std::vector<double> least(entries.size(), std::numeric_limits<double>::infinity());
  std::vector<std::size_t> from(entries.size(), 0);
  std::vector<bool> joined(entries.size(), false);
  std::size_t last = 0;
  joined[0] = true;
  for (std::size_t count = 1; count < entries.size(); ++count) {
    std::size_t next = entries.size();
    for (std::size_t i = 0; i < entries.size(); ++i) {
      if (joined[i]) continue;
      const double de00 = difference_ciede2000(entries[last].lab, entries[i].lab);
      if (de00 < least[i]) {
        least[i] = de00;
        from[i] = last;
      }
      if (next == entries.size() || least[i] < least[next]) next = i;
    }
    joined[next] = true;
    tree.push_back({from[next], next, least[next]});
    last = next;
  }
  return tree;
}

bool has_name(const Lab& color, const std::vector<ScaleEntry>& entries) {
  return std::any_of(entries.begin(), entries.end(), [&](const ScaleEntry& entry) {
    return difference_ciede2000(color, entry.lab) <= entry.tolerance_de00;
  });
}

}  // namespace

std::string_view finding_word(ScaleFindingKind kind) {
  switch (kind) {
    case ScaleFindingKind::duplicate_name:
      return "duplicate-name";
    case ScaleFindingKind::duplicate_color:
      return "duplicate-colour";
    case ScaleFindingKind::close:
      return "close";
    case ScaleFindingKind::gap:
      break;
  }
  return "gap";
}

std::vector<ScaleFinding> check_scale(const ColorScale& scale) {
  const auto& entries = scale.entries();
  std::vector<ScaleFinding> findings;
  for (std::size_t i = 0; i < entries.size() && findings.size() < most_findings; ++i)
    for (std::size_t k = i + 1; k < entries.size() && findings.size() < most_findings; ++k) {
      const double de00 = difference_ciede2000(entries[i].lab, entries[k].lab);
      if (entries[i].name == entries[k].name)
        findings.push_back(finding(ScaleFindingKind::duplicate_name, entries[i], entries[k], de00));
      else if (de00 < same_color_de00)
        findings.push_back(finding(ScaleFindingKind::duplicate_color, entries[i], entries[k], de00));
      else if (de00 < std::max(entries[i].tolerance_de00, entries[k].tolerance_de00))
        findings.push_back(finding(ScaleFindingKind::close, entries[i], entries[k], de00));
    }
  auto links = neighbors_of(entries);
  std::stable_sort(links.begin(), links.end(), [](const Link& a, const Link& b) { return a.de00 > b.de00; });
  for (const auto& link : links) {
    const Lab &a = entries[link.from].lab, &b = entries[link.to].lab;
    if (!has_name({(a.l + b.l) / 2, (a.a + b.a) / 2, (a.b + b.b) / 2}, entries)) {
      const bool in_order = entries[link.from].line <= entries[link.to].line;
      findings.push_back(finding(ScaleFindingKind::gap, entries[in_order ? link.from : link.to],
                                 entries[in_order ? link.to : link.from], link.de00));
    }
  }
  return findings;
}

}  // namespace colorlib
