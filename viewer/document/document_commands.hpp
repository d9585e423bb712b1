#pragma once
/// Every edit of a document, as commands of its undo stack.

#include <QUndoCommand>
#include <viewer/document/photo_document.hpp>

namespace tintfall::viewer {

/// What an edit is, for merging: the steps of one drag become one.
enum class EditId { none = -1, move_region = 1, reshape_region, rename_region, drag_corner, subject };

/// Replaces the regions: adding, taking away, moving, reshaping, renaming, duplicating, loading.
class RegionsCommand : public QUndoCommand {
 public:
  /// `gesture` tells one drag from the next: commands merge when id and gesture are equal.
  RegionsCommand(PhotoDocument& document, const QString& text, RegionSet after, EditId id = EditId::none,
                 int gesture = 0);
  void undo() override { document_.set_regions(before_); }
  void redo() override { document_.set_regions(after_); }
  int id() const override { return static_cast<int>(id_); }
  bool mergeWith(const QUndoCommand* other) override;

 private:
  PhotoDocument& document_;
  RegionSet before_, after_;
  EditId id_;
  int gesture_;
};

/// Replaces what was said about the photo: chart, reference, corners, height, subject.
class SetupCommand : public QUndoCommand {
 public:
  SetupCommand(PhotoDocument& document, const QString& text, PhotoSetup after, EditId id = EditId::none,
               int gesture = 0);
  void undo() override { document_.set_setup(before_); }
  void redo() override { document_.set_setup(after_); }
  int id() const override { return static_cast<int>(id_); }
  bool mergeWith(const QUndoCommand* other) override;

 private:
  PhotoDocument& document_;
  PhotoSetup before_, after_;
  EditId id_;
  int gesture_;
};

/// Shorthands for what the window offers. Each pushes one command; an unknown id does nothing.
void add_region(PhotoDocument& document, colorlib::Region region);
void remove_region(PhotoDocument& document, const QString& id);
void duplicate_region(PhotoDocument& document, const QString& id);
void replace_region(PhotoDocument& document, const QString& id, colorlib::Region region, EditId edit,
                    int gesture);
void rename_region(PhotoDocument& document, const QString& id, const QString& name);
void set_region_kind(PhotoDocument& document, const QString& id, colorlib::RegionKind kind);
void find_regions_again(PhotoDocument& document);

/// The region moved by (dx, dy) in its own units.
colorlib::Region moved(colorlib::Region region, double dx, double dy);

}  // namespace tintfall::viewer
