#include <viewer/settings/preferences.hpp>

namespace tintfall::viewer {

void LastSession::remember(const QString& file) const {
  QStringList files = recent.get();
  files.removeAll(file);
  files.prepend(file);
  recent.set(files.mid(0, most_recent));
}

}  // namespace tintfall::viewer
