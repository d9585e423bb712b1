#include <QCoreApplication>
#include <viewer/models/catalogue_models.hpp>

namespace tintfall::viewer {

namespace {

struct FieldWords {
  const char *name, *word;
};
constexpr FieldWords field_words[] = {
    {"number", QT_TRANSLATE_NOOP("Field", "Number")},
    {"collector", QT_TRANSLATE_NOOP("Field", "Collector")},
    {"recorder", QT_TRANSLATE_NOOP("Field", "Written down by")},
    {"collected", QT_TRANSLATE_NOOP("Field", "Collected on")},
    {"place", QT_TRANSLATE_NOOP("Field", "Site")},
    {"area", QT_TRANSLATE_NOOP("Field", "Larger area")},
    {"latitude_deg", QT_TRANSLATE_NOOP("Field", "Degrees north")},
    {"longitude_deg", QT_TRANSLATE_NOOP("Field", "Degrees east")},
    {"coordinate_uncertainty_m", QT_TRANSLATE_NOOP("Field", "Place known within, m")},
    {"place_coarseness_deg", QT_TRANSLATE_NOOP("Field", "Place rounded to, degrees")},
    {"hide_place", QT_TRANSLATE_NOOP("Field", "Site kept back")},
    {"working_name", QT_TRANSLATE_NOOP("Field", "Working name")},
    {"named_by", QT_TRANSLATE_NOOP("Field", "Named by")},
    {"substrate", QT_TRANSLATE_NOOP("Field", "Grew on")},
    {"habitat", QT_TRANSLATE_NOOP("Field", "Surroundings")},
    {"tissue", QT_TRANSLATE_NOOP("Field", "Tissue")},
    {"state", QT_TRANSLATE_NOOP("Field", "State")},
    {"since_picking_h", QT_TRANSLATE_NOOP("Field", "Hours since picking")},
    {"surface", QT_TRANSLATE_NOOP("Field", "Deposit lies on")},
    {"deposit_began", QT_TRANSLATE_NOOP("Field", "Cap laid down")},
    {"deposit_ended", QT_TRANSLATE_NOOP("Field", "Cap lifted")},
    {"deposit_covered", QT_TRANSLATE_NOOP("Field", "Under a cover")},
    {"deposit_wetted", QT_TRANSLATE_NOOP("Field", "Drop on the cap")},
    {"deposit_state", QT_TRANSLATE_NOOP("Field", "State of the deposit")},
    {"deposit_age_h", QT_TRANSLATE_NOOP("Field", "Hours until the photo")},
    {"deposit_form", QT_TRANSLATE_NOOP("Field", "Form of the deposit")},
    {"thickness", QT_TRANSLATE_NOOP("Field", "Thickness")},
    {"backings", QT_TRANSLATE_NOOP("Field", "Grounds")},
    {"contrast_ratio_percent", QT_TRANSLATE_NOOP("Field", "Contrast ratio, %")},
    {"contamination", QT_TRANSLATE_NOOP("Field", "Contamination")},
    {"permit", QT_TRANSLATE_NOOP("Field", "Permit")},
    {"licence", QT_TRANSLATE_NOOP("Field", "Licence")},
    {"remarks", QT_TRANSLATE_NOOP("Field", "Remarks")},
    {"added", QT_TRANSLATE_NOOP("Field", "added")},
    {"removed", QT_TRANSLATE_NOOP("Field", "removed")},
    {"restored", QT_TRANSLATE_NOOP("Field", "brought back")},
};

}  // namespace

QString field_word(const QString& name) {
  for (const FieldWords& each : field_words)
    if (name == QLatin1String(each.name)) return QCoreApplication::translate("Field", each.word);
  return name;
}

}  // namespace tintfall::viewer
