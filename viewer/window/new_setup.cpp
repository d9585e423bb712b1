#include <viewer/settings/preferences.hpp>
#include <viewer/window/new_setup.hpp>

namespace tintfall::viewer {

PhotoSetup setup_of_new_photos() {
  const Preferences preferences;
  PhotoSetup setup;
  setup.chart = preferences.chart.get();
  setup.reference = preferences.reference.get();
  setup.sheet = preferences.sheet.get();
  setup.subject.collector = preferences.collector.get().toStdString();
  return setup;
}

}  // namespace tintfall::viewer
