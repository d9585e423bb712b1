#pragma once
/// Every reading against every other: the verdict, how far apart, and how sure.

#include <QAbstractTableModel>
#include <memory>
#include <viewer/tasks/compare_jobs.hpp>

namespace tintfall::viewer {

QString verdict_for_people(colorlib::Verdict verdict);

class PairModel : public QAbstractTableModel {
  Q_OBJECT
 public:
  using QAbstractTableModel::QAbstractTableModel;
  void set_outcome(std::shared_ptr<const CompareOutcome> outcome);
  /// What the two say about each other; null on the diagonal and where nothing is known.
  const colorlib::Agreement* agreement(int row, int column) const;

  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;
  QVariant headerData(int section, Qt::Orientation orientation, int role = Qt::DisplayRole) const override;

 private:
  std::shared_ptr<const CompareOutcome> outcome_;
  std::vector<int> pairs_;  ///< rows x columns: place in Comparison::pairs, or -1
};

/// How far each is from what all say of an item, and each collector's bias.
class ConsensusModel : public QAbstractTableModel {
  Q_OBJECT
 public:
  enum Column { item, participant, distance, verdict, columns };
  using QAbstractTableModel::QAbstractTableModel;
  void set_outcome(std::shared_ptr<const CompareOutcome> outcome);

  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;
  QVariant headerData(int section, Qt::Orientation orientation, int role = Qt::DisplayRole) const override;

 private:
  struct Row {
    QString item, participant, distance, verdict;
  };
  std::vector<Row> rows_;
};

}  // namespace tintfall::viewer
