#include <fmt/format.h>

#include <colorlib/chart/chart_file_name.hpp>
#include <colorlib/records/content_hash.hpp>
#include <colorlib/records/subject.hpp>
#include <filesystem>
#include <viewer/command/reading_identity.hpp>

namespace tintfall {

using namespace colorlib;

namespace {

/// `text` with its length before it, so that no two lists of texts come out as one.
std::string part(std::string_view text) { return fmt::format(";{}:{}", text.size(), text); }

}  // namespace

std::string content_identity(const std::string& file) {
  if (file.empty()) return {};
  // A pipe can be read once only.
  std::error_code ignored;
  if (!std::filesystem::is_regular_file(file, ignored)) return file;
  const auto hash = sha256_of_file(file);
  return hash ? *hash : std::string("unreadable");
}

std::string subject_identity(const Subject& subject) {
  std::string text;
  for (const SubjectField& field : subject_fields) text += part(subject.*(field.place));
  return text;
}

std::string reading_identity(const ReadChoices& choices, const ReadJob& job) {
  const ReadRequest& request = job.request;
  std::string text = fmt::format("tintfall {};", TINTFALL_VERSION);
  for (const ChartDefinition& chart : request.candidates) text += part(chart.name);
  const std::string& chart = job.sheet ? job.sheet->chart : choices.chart;
  const std::string& reference = job.sheet ? job.sheet->reference : choices.reference;
  text += part(content_identity(reference));
  text += part(names_chart_file(chart) ? content_identity(chart) : std::string());
  if (request.regions) text += part(regions_json(*request.regions));
  if (request.corners)
    for (const PointPx& corner : *request.corners) text += fmt::format(";{},{}", corner.x, corner.y);
  text += part(choices.sheet);
  text += fmt::format(";{};{};{};{}", request.height_mm.value_or(-1), light_kind_name(request.light),
                      request.masstone, request.keep_films);
  for (const std::string& scale : choices.naming.scales) text += part(content_identity(scale));
  if (!choices.naming.scales.empty()) text += fmt::format(";{}", choices.naming.tolerance_de00);
  return text;
}

}  // namespace tintfall
