#include <algorithm>
#include <colorlib/calibration/error_budget.hpp>
#include <colorlib/naming/name_sentence.hpp>
#include <viewer/settings/figures.hpp>
#include <viewer/tasks/error_words.hpp>
#include <viewer/tasks/shown_reading.hpp>

namespace tintfall::viewer {

using namespace colorlib;

namespace {

QString words(const std::string& text) { return QString::fromStdString(text); }
QString one_decimal(double value) { return figure(value, 1); }

QString name_of(const ColorDescription& said) {
  return QStringLiteral("%1 (%2)").arg(words(said.name.name), words(percentage_from(said.name.probability)));
}

/// L*, a*, b* with their expanded uncertainties.
template <class Colour, class Shown>
void show_figures(const Colour& colour, Shown& result) {
  const Vector3 lab = vector_from(colour.lab);
  for (std::size_t i = 0; i < 3; ++i) {
    result.lab[i] = one_decimal(lab[i]);
    result.expanded[i] = one_decimal(colour.lab_expanded[i]);
  }
  result.de00 = one_decimal(colour.de00_expanded);
}

ShownTenth shown_tenth(const ThickestTenth& tenth) {
  ShownTenth result;
  result.name = name_of(tenth.words);
  result.from_mean = one_decimal(tenth.de00_from_mean);
  show_figures(tenth, result);
  return result;
}

ShownLayer shown_layer(const LayerReading& layer, const Screen& screen) {
  ShownLayer result;
  result.method = words(layer.method);
  result.with = words(layer.with);
  if (layer.contrast_ratio)
    result.contrast = QStringLiteral("%1 ± %2")
                          .arg(figure(100 * *layer.contrast_ratio, 0))
                          .arg(figure(100 * layer.contrast_ratio_expanded, 0));
  if (layer.refused) {
    result.refused = true;
    result.problem = message_words(*layer.refused);
    result.advice = advice_words(*layer.refused);
    return result;
  }
  result.swatch = swatch_of(layer.lab, screen);
  result.name = name_of(layer.words);
  result.munsell = words(layer.words.munsell);
  show_figures(layer, result);
  return result;
}

}  // namespace

ShownReading shown(const Reading& reading, const Screen& screen) {
  ShownReading result;
  result.reading = reading;
  if (reading.refused) return result;
  result.swatch = swatch_of(reading.lab, screen);
  const ColorDescription& said = reading.words;
  result.name = words(said.name.name);
  result.probability = words(percentage_from(said.name.probability));
  for (const NameShare& other : said.alternatives)
    result.alternatives.push_back(
        QStringLiteral("%1 (%2, ΔE00 %3)")
            .arg(words(other.name), words(percentage_from(other.probability)), one_decimal(other.de00)));
  result.munsell = words(said.munsell);
  QStringList trade;
  for (const std::string& term : said.trade_terms) trade.push_back(words(term));
  result.trade = trade.join(QStringLiteral(" / "));
  show_figures(reading, result);
  for (const BudgetComponent& part : reading.budget)
    result.budget.push_back({words(part.name), expanded_de00(reading.lab, part.covariance)});
  std::stable_sort(result.budget.begin(), result.budget.end(),
                   [](const auto& a, const auto& b) { return a.de00 > b.de00; });
  if (reading.tenth && reading.tenth->de00_from_mean >= visible_tenth_de00)
    result.tenth = shown_tenth(*reading.tenth);
  if (reading.layer) result.layer = shown_layer(*reading.layer, screen);
  result.ellipse = ellipse_ab(reading.lab_covariance);
  return result;
}

}  // namespace tintfall::viewer
