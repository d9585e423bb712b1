#include <colorlib/base/data_folder.hpp>
#include <colorlib/reaction/reagents.hpp>
#include <viewer/tasks/reagent_names.hpp>

namespace tintfall::viewer {

const QStringList& offered_reagents() {
  static const QStringList names = [] {
    QStringList offered;
    if (const auto reagents = colorlib::Reagents::load(colorlib::data_folder()))
      for (const colorlib::Reagent* reagent : reagents->presets())
        offered.push_back(QString::fromStdString(reagent->name));
    return offered;
  }();
  return names;
}

}  // namespace tintfall::viewer
