#pragma once
/// What the catalogue page lists: readings that were found, collections, the fields, records and changes of
/// one.

#include <QAbstractTableModel>
#include <memory>
#include <viewer/tasks/catalogue_jobs.hpp>

namespace tintfall::viewer {

/// Readings that were found; nearest first when a colour was asked for.
class HitModel : public QAbstractTableModel {
  Q_OBJECT
 public:
  enum Column { number, name, lab, distance, kind, collector, collected, columns };
  using QAbstractTableModel::QAbstractTableModel;
  void set_answer(std::shared_ptr<const CatalogueAnswer> answer);
  const CatalogueHitShown* row(int index) const;

  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;
  QVariant headerData(int section, Qt::Orientation orientation, int role = Qt::DisplayRole) const override;

 private:
  std::shared_ptr<const CatalogueAnswer> answer_;
};

class CollectionModel : public QAbstractTableModel {
  Q_OBJECT
 public:
  enum Column { number, working_name, collector, collected, readings, columns };
  using QAbstractTableModel::QAbstractTableModel;
  void set_answer(std::shared_ptr<const CatalogueAnswer> answer);
  QString number_of(int row) const;

  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;
  QVariant headerData(int section, Qt::Orientation orientation, int role = Qt::DisplayRole) const override;

 private:
  std::shared_ptr<const CatalogueAnswer> answer_;
};

/// The fields of one collection; the value is edited in place and kept when the catalogue took it.
class FieldModel : public QAbstractTableModel {
  Q_OBJECT
 public:
  enum Column { field, value, columns };
  using QAbstractTableModel::QAbstractTableModel;
  void set_collection(std::shared_ptr<const CollectionShown> collection);
  int row_of(const QString& name) const;

  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;
  bool setData(const QModelIndex& index, const QVariant& value, int role = Qt::EditRole) override;
  Qt::ItemFlags flags(const QModelIndex& index) const override;
  QVariant headerData(int section, Qt::Orientation orientation, int role = Qt::DisplayRole) const override;

 signals:
  void edit_asked(const QString& name, const QString& value);

 private:
  std::shared_ptr<const CollectionShown> collection_;
};

/// The records of one collection: photo, when, by whom, what was read.
class RecordModel : public QAbstractTableModel {
  Q_OBJECT
 public:
  enum Column { photo, readings, captured, read_by, columns };
  using QAbstractTableModel::QAbstractTableModel;
  void set_collection(std::shared_ptr<const CollectionShown> collection);
  const RecordShown* row(int index) const;

  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;
  QVariant headerData(int section, Qt::Orientation orientation, int role = Qt::DisplayRole) const override;

 private:
  std::shared_ptr<const CollectionShown> collection_;
};

/// What was changed, when and by whom.
class ChangeModel : public QAbstractTableModel {
  Q_OBJECT
 public:
  enum Column { when, who, what, before, after, columns };
  using QAbstractTableModel::QAbstractTableModel;
  void set_collection(std::shared_ptr<const CollectionShown> collection);

  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;
  QVariant headerData(int section, Qt::Orientation orientation, int role = Qt::DisplayRole) const override;

 private:
  std::shared_ptr<const CollectionShown> collection_;
};

/// The name of a field or of a kind of change for people.
QString field_word(const QString& name);

}  // namespace tintfall::viewer
