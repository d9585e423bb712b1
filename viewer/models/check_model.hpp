#pragma once
/// The checks of a photo as rows: what, the figure, what to do.

#include <QAbstractTableModel>
#include <colorlib/specimen/photo_checks.hpp>
#include <vector>

namespace tintfall::viewer {

class CheckModel : public QAbstractTableModel {
  Q_OBJECT
 public:
  enum Column { what, measured, advice, columns };
  using QAbstractTableModel::QAbstractTableModel;
  void set_checks(std::vector<colorlib::PhotoCheck> checks);
  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;
  QVariant headerData(int section, Qt::Orientation orientation, int role = Qt::DisplayRole) const override;

 private:
  std::vector<colorlib::PhotoCheck> checks_;
};

}  // namespace tintfall::viewer
