#pragma once
/// The regions of a document with their readings, one row each: name, kind, colour in words, Lab.

#include <QAbstractTableModel>
#include <vector>
#include <viewer/tasks/shown_reading.hpp>

namespace tintfall::viewer {

/// The kinds of the regions file in its order, with a word for each.
std::vector<colorlib::RegionKind> region_kinds();
QString kind_word(colorlib::RegionKind kind);

struct RegionRow {
  QString id;
  colorlib::RegionKind kind = colorlib::RegionKind::other;
  ShownReading shown;
  bool read = false;    ///< `shown` belongs to the region as it is now
  bool coming = false;  ///< it is being read
};

/// Edits are asked for by signals: whoever owns the document makes commands of them.
class RegionModel : public QAbstractTableModel {
  Q_OBJECT
 public:
  enum Column { id, kind, name, lab, columns };
  using QAbstractTableModel::QAbstractTableModel;
  void set_rows(std::vector<RegionRow> rows);
  const RegionRow* row(int index) const;
  int row_of(const QString& id) const;  ///< -1: none

  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;
  bool setData(const QModelIndex& index, const QVariant& value, int role = Qt::EditRole) override;
  Qt::ItemFlags flags(const QModelIndex& index) const override;
  QVariant headerData(int section, Qt::Orientation orientation, int role = Qt::DisplayRole) const override;

 signals:
  void rename_asked(const QString& id, const QString& name);

 private:
  std::vector<RegionRow> rows_;
};

}  // namespace tintfall::viewer
