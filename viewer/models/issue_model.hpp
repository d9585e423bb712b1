#pragma once
/// The issues of a document as rows: weight, message, advice, count.

#include <QAbstractTableModel>
#include <vector>
#include <viewer/document/issue.hpp>

namespace tintfall::viewer {

QString weight_word(IssueWeight weight);

class IssueModel : public QAbstractTableModel {
  Q_OBJECT
 public:
  enum Column { weight, message, advice, columns };
  using QAbstractTableModel::QAbstractTableModel;
  void set_issues(std::vector<Issue> issues);
  const Issue* issue(int row) const;

  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;
  QVariant headerData(int section, Qt::Orientation orientation, int role = Qt::DisplayRole) const override;

 private:
  std::vector<Issue> issues_;
};

}  // namespace tintfall::viewer
