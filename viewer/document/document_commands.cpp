#include <QCoreApplication>
#include <algorithm>
#include <viewer/document/document_commands.hpp>

namespace tintfall::viewer {

using namespace colorlib;

namespace {

QString words(const char* text) { return QCoreApplication::translate("DocumentCommands", text); }

Region* find(RegionSet& set, const QString& id) {
  const auto place = std::find_if(set.regions.items.begin(), set.regions.items.end(),
                                  [&](const Region& region) { return region.id == id.toStdString(); });
  return place == set.regions.items.end() ? nullptr : &*place;
}

void push(PhotoDocument& document, const char* text, RegionSet after, EditId id = EditId::none,
          int gesture = 0) {
  after.drawn = true;
  document.undo_stack().push(new RegionsCommand(document, words(text), std::move(after), id, gesture));
}

}  // namespace

RegionsCommand::RegionsCommand(PhotoDocument& document, const QString& text, RegionSet after, EditId id,
                               int gesture)
    : QUndoCommand(text),
      document_(document),
      before_(document.regions()),
      after_(std::move(after)),
      id_(id),
      gesture_(gesture) {}

bool RegionsCommand::mergeWith(const QUndoCommand* other) {
  const auto* next = static_cast<const RegionsCommand*>(other);
  if (next->gesture_ != gesture_) return false;
  after_ = next->after_;
  return true;
}

SetupCommand::SetupCommand(PhotoDocument& document, const QString& text, PhotoSetup after, EditId id,
                           int gesture)
    : QUndoCommand(text),
      document_(document),
      before_(document.setup()),
      after_(std::move(after)),
      id_(id),
      gesture_(gesture) {}

bool SetupCommand::mergeWith(const QUndoCommand* other) {
  const auto* next = static_cast<const SetupCommand*>(other);
  if (next->gesture_ != gesture_) return false;
  after_ = next->after_;
  return true;
}

void add_region(PhotoDocument& document, Region region) {
  RegionSet after = document.regions();
  if (region.id.empty()) region.id = document.free_id().toStdString();
  after.regions.items.push_back(std::move(region));
  push(document, QT_TRANSLATE_NOOP("DocumentCommands", "Draw region"), std::move(after));
}

void remove_region(PhotoDocument& document, const QString& id) {
  RegionSet after = document.regions();
  if (std::erase_if(after.regions.items,
                    [&](const Region& region) { return region.id == id.toStdString(); }) == 0)
    return;
  push(document, QT_TRANSLATE_NOOP("DocumentCommands", "Remove region"), std::move(after));
}

void duplicate_region(PhotoDocument& document, const QString& id) {
  RegionSet after = document.regions();
  const Region* original = find(after, id);
  if (original == nullptr) return;
  const auto [left, top, right, bottom] = original->bounds();
  Region copy = moved(*original, 0.15 * (right - left), 0.15 * (bottom - top));
  copy.id = document.free_id().toStdString();
  copy.found = false;
  after.regions.items.push_back(std::move(copy));
  push(document, QT_TRANSLATE_NOOP("DocumentCommands", "Duplicate region"), std::move(after));
}

void replace_region(PhotoDocument& document, const QString& id, Region region, EditId edit, int gesture) {
  RegionSet after = document.regions();
  Region* place = find(after, id);
  if (place == nullptr) return;
  region.id = place->id;
  region.found = false;  // its outline is the user's now
  *place = std::move(region);
  push(document,
       edit == EditId::move_region ? QT_TRANSLATE_NOOP("DocumentCommands", "Move region")
                                   : QT_TRANSLATE_NOOP("DocumentCommands", "Reshape region"),
       std::move(after), edit, gesture);
}

void rename_region(PhotoDocument& document, const QString& id, const QString& name) {
  RegionSet after = document.regions();
  Region* place = find(after, id);
  const QString trimmed = name.trimmed();
  if (place == nullptr || trimmed.isEmpty() || trimmed == id) return;
  if (find(after, trimmed) != nullptr) {
    document.add_issue(
        {IssueWeight::problem,
         QStringLiteral("region-name"),
         QCoreApplication::translate("DocumentCommands", "Two regions cannot both be called '%1'.")
             .arg(trimmed),
         QCoreApplication::translate("DocumentCommands", "Choose another name."),
         id,
         {},
         1});
    return;
  }
  for (Region& region : after.regions.items)
    std::replace(region.controls.begin(), region.controls.end(), id.toStdString(), trimmed.toStdString());
  place->id = trimmed.toStdString();
  push(document, QT_TRANSLATE_NOOP("DocumentCommands", "Rename region"), std::move(after));
}

void set_region_kind(PhotoDocument& document, const QString& id, RegionKind kind) {
  RegionSet after = document.regions();
  Region* place = find(after, id);
  if (place == nullptr || place->kind == kind) return;
  place->kind = kind;
  push(document, QT_TRANSLATE_NOOP("DocumentCommands", "Change kind of region"), std::move(after));
}

void find_regions_again(PhotoDocument& document) {
  document.undo_stack().push(new RegionsCommand(
      document, words(QT_TRANSLATE_NOOP("DocumentCommands", "Find specimens again")), RegionSet{}));
}

Region moved(Region region, double dx, double dy) {
  if (auto* ellipse = std::get_if<EllipseShape>(&region.shape)) {
    ellipse->x += dx;
    ellipse->y += dy;
  } else {
    for (auto& point : std::get<PolygonShape>(region.shape).points) {
      point[0] += dx;
      point[1] += dy;
    }
  }
  return region;
}

}  // namespace tintfall::viewer
