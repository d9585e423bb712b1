#include <QCoreApplication>
#include <QFont>
#include <viewer/models/catalogue_models.hpp>
#include <viewer/models/region_model.hpp>
#include <viewer/models/swatch_icon.hpp>
#include <viewer/settings/figures.hpp>

namespace tintfall::viewer {

namespace {

QString words(const std::string& text) { return QString::fromStdString(text); }

/// What was removed is struck out: no colour carries that alone.
QVariant removed_font(bool removed) {
  if (!removed) return {};
  QFont font;
  font.setStrikeOut(true);
  return font;
}

}  // namespace

void HitModel::set_answer(std::shared_ptr<const CatalogueAnswer> answer) {
  beginResetModel();
  answer_ = std::move(answer);
  endResetModel();
}

const CatalogueHitShown* HitModel::row(int index) const {
  return index >= 0 && index < rowCount() ? &answer_->readings[static_cast<std::size_t>(index)] : nullptr;
}

int HitModel::rowCount(const QModelIndex& parent) const {
  return parent.isValid() || !answer_ ? 0 : static_cast<int>(answer_->readings.size());
}
int HitModel::columnCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : columns; }

QVariant HitModel::data(const QModelIndex& index, int role) const {
  const CatalogueHitShown* each = index.isValid() ? row(index.row()) : nullptr;
  if (each == nullptr) return {};
  const colorlib::CatalogueHit& hit = each->hit;
  if (role == Qt::DecorationRole && index.column() == name && hit.reading.lab)
    return swatch_icon(each->swatch.color);
  if (role == Qt::ToolTipRole && index.column() == distance && !each->distance.isEmpty())
    return tr("truly within the distance asked for with a probability of %1 %")
        .arg(figure(100 * hit.within_probability, 0));
  if (role != Qt::DisplayRole && role != Qt::ToolTipRole) return {};
  switch (index.column()) {
    case number:
      return words(hit.number);
    case name:
      return hit.reading.lab ? words(hit.reading.name) : tr("no reading");
    case lab:
      return each->lab;
    case distance:
      return each->distance;
    case kind:
      return QStringLiteral("%1 %2").arg(kind_word(each->kind), words(hit.reading.region));
    case collector:
      if (hit.collector.empty() || hit.read_by.empty() || hit.read_by == hit.collector)
        return words(hit.collector.empty() ? hit.read_by : hit.collector);
      return tr("%1, read by %2").arg(words(hit.collector), words(hit.read_by));
    case collected:
      return words(hit.collected);
    default:
      return {};
  }
}

QVariant HitModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal || role != Qt::DisplayRole) return {};
  switch (section) {
    case number:
      return tr("Number");
    case name:
      return tr("Colour in words");
    case lab:
      return tr("L*  a*  b*   ±ΔE00");
    case distance:
      return tr("ΔE00 away");
    case kind:
      return tr("Region");
    case collector:
      return tr("Collector");
    case collected:
      return tr("Collected");
    default:
      return {};
  }
}

void CollectionModel::set_answer(std::shared_ptr<const CatalogueAnswer> answer) {
  beginResetModel();
  answer_ = std::move(answer);
  endResetModel();
}

QString CollectionModel::number_of(int row) const {
  return row >= 0 && row < rowCount() ? words(answer_->collections[static_cast<std::size_t>(row)].number)
                                      : QString();
}

int CollectionModel::rowCount(const QModelIndex& parent) const {
  return parent.isValid() || !answer_ ? 0 : static_cast<int>(answer_->collections.size());
}
int CollectionModel::columnCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : columns; }

QVariant CollectionModel::data(const QModelIndex& index, int role) const {
  if (!index.isValid() || index.row() >= rowCount()) return {};
  const colorlib::CatalogueLine& line = answer_->collections[static_cast<std::size_t>(index.row())];
  if (role == Qt::FontRole) return removed_font(!line.removed.empty());
  if (role != Qt::DisplayRole && role != Qt::ToolTipRole) return {};
  switch (index.column()) {
    case number:
      return words(line.number);
    case working_name:
      return words(line.working_name);
    case collector:
      return words(line.collector);
    case collected:
      return words(line.collected);
    case readings:
      return tr("%1 in %2").arg(line.readings).arg(line.records);
    default:
      return {};
  }
}

QVariant CollectionModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal || role != Qt::DisplayRole) return {};
  switch (section) {
    case number:
      return tr("Number");
    case working_name:
      return tr("Working name");
    case collector:
      return tr("Collector");
    case collected:
      return tr("Collected");
    case readings:
      return tr("Readings in records");
    default:
      return {};
  }
}

void FieldModel::set_collection(std::shared_ptr<const CollectionShown> collection) {
  beginResetModel();
  collection_ = std::move(collection);
  endResetModel();
}

int FieldModel::row_of(const QString& name) const {
  for (int r = 0; r < rowCount(); ++r)
    if (collection_->fields[static_cast<std::size_t>(r)].name == name) return r;
  return -1;
}

int FieldModel::rowCount(const QModelIndex& parent) const {
  return parent.isValid() || !collection_ ? 0 : static_cast<int>(collection_->fields.size());
}
int FieldModel::columnCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : columns; }

QVariant FieldModel::data(const QModelIndex& index, int role) const {
  if (!index.isValid() || index.row() >= rowCount()) return {};
  const FieldShown& each = collection_->fields[static_cast<std::size_t>(index.row())];
  if (role == Qt::ToolTipRole)
    return QCoreApplication::translate("colorlib", each.explanation.toUtf8().constData());
  if (role == Qt::EditRole) return index.column() == value ? QVariant(each.value) : QVariant();
  if (role != Qt::DisplayRole) return {};
  return index.column() == field ? field_word(each.name) : each.value;
}

bool FieldModel::setData(const QModelIndex& index, const QVariant& wanted, int role) {
  if (!index.isValid() || role != Qt::EditRole || index.column() != value || index.row() >= rowCount())
    return false;
  const FieldShown& each = collection_->fields[static_cast<std::size_t>(index.row())];
  if (wanted.toString().trimmed() == each.value) return false;
  emit edit_asked(each.name, wanted.toString().trimmed());
  return true;
}

Qt::ItemFlags FieldModel::flags(const QModelIndex& index) const {
  const Qt::ItemFlags plain = QAbstractTableModel::flags(index);
  return index.isValid() && index.column() == value ? plain | Qt::ItemIsEditable : plain;
}

QVariant FieldModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal || role != Qt::DisplayRole) return {};
  return section == field ? tr("Field") : tr("What was said");
}

void RecordModel::set_collection(std::shared_ptr<const CollectionShown> collection) {
  beginResetModel();
  collection_ = std::move(collection);
  endResetModel();
}

const RecordShown* RecordModel::row(int index) const {
  return index >= 0 && index < rowCount() ? &collection_->records[static_cast<std::size_t>(index)] : nullptr;
}

int RecordModel::rowCount(const QModelIndex& parent) const {
  return parent.isValid() || !collection_ ? 0 : static_cast<int>(collection_->records.size());
}
int RecordModel::columnCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : columns; }

QVariant RecordModel::data(const QModelIndex& index, int role) const {
  const RecordShown* each = index.isValid() ? row(index.row()) : nullptr;
  if (each == nullptr) return {};
  if (role == Qt::FontRole) return removed_font(each->removed);
  if (role != Qt::DisplayRole && role != Qt::ToolTipRole) return {};
  switch (index.column()) {
    case photo:
      return each->removed ? tr("%1 (removed)").arg(each->photo) : each->photo;
    case readings:
      return each->readings.join(QStringLiteral("\n"));
    case captured:
      return role == Qt::DisplayRole ? each->captured.left(10) : each->captured;  // the day
    case read_by:
      return each->read_by;
    default:
      return {};
  }
}

QVariant RecordModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal || role != Qt::DisplayRole) return {};
  switch (section) {
    case photo:
      return tr("Photo");
    case readings:
      return tr("Readings");
    case captured:
      return tr("Taken");
    case read_by:
      return tr("Read by");
    default:
      return {};
  }
}

void ChangeModel::set_collection(std::shared_ptr<const CollectionShown> collection) {
  beginResetModel();
  collection_ = std::move(collection);
  endResetModel();
}

int ChangeModel::rowCount(const QModelIndex& parent) const {
  return parent.isValid() || !collection_ ? 0 : static_cast<int>(collection_->changes.size());
}
int ChangeModel::columnCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : columns; }

QVariant ChangeModel::data(const QModelIndex& index, int role) const {
  if (!index.isValid() || index.row() >= rowCount() || (role != Qt::DisplayRole && role != Qt::ToolTipRole))
    return {};
  const ChangeShown& each = collection_->changes[static_cast<std::size_t>(index.row())];
  switch (index.column()) {
    case when:
      return each.when;
    case who:
      return each.who;
    case what:
      return field_word(each.what);
    case before:
      return each.before;
    case after:
      return each.after;
    default:
      return {};
  }
}

QVariant ChangeModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal || role != Qt::DisplayRole) return {};
  switch (section) {
    case when:
      return tr("When");
    case who:
      return tr("Who");
    case what:
      return tr("What");
    case before:
      return tr("Before");
    case after:
      return tr("After");
    default:
      return {};
  }
}

}  // namespace tintfall::viewer
