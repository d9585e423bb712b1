#include <algorithm>
#include <viewer/models/region_model.hpp>
#include <viewer/models/swatch_icon.hpp>

namespace tintfall::viewer {

using colorlib::RegionKind;

std::vector<RegionKind> region_kinds() {
  return {RegionKind::deposit, RegionKind::substrate, RegionKind::spot, RegionKind::bruise,
          RegionKind::control, RegionKind::water,     RegionKind::other};
}

QString kind_word(RegionKind kind) {
  switch (kind) {
    case RegionKind::deposit:
      return RegionModel::tr("deposit");
    case RegionKind::substrate:
      return RegionModel::tr("substrate");
    case RegionKind::spot:
      return RegionModel::tr("reagent spot");
    case RegionKind::bruise:
      return RegionModel::tr("bruise");
    case RegionKind::control:
      return RegionModel::tr("untreated control");
    case RegionKind::water:
      return RegionModel::tr("water drop");
    case RegionKind::other:
      break;
  }
  return RegionModel::tr("other");
}

void RegionModel::set_rows(std::vector<RegionRow> rows) {
  const auto same_row = [](const RegionRow& a, const RegionRow& b) { return a.id == b.id; };
  if (rows.size() == rows_.size() && std::equal(rows.begin(), rows.end(), rows_.begin(), same_row)) {
    rows_ = std::move(rows);  // the selection stays while a region is dragged
    if (!rows_.empty()) emit dataChanged(index(0, 0), index(rowCount() - 1, columns - 1));
    return;
  }
  beginResetModel();
  rows_ = std::move(rows);
  endResetModel();
}

const RegionRow* RegionModel::row(int index) const {
  return index >= 0 && index < rowCount() ? &rows_[static_cast<std::size_t>(index)] : nullptr;
}

int RegionModel::row_of(const QString& id) const {
  const auto place =
      std::find_if(rows_.begin(), rows_.end(), [&](const RegionRow& each) { return each.id == id; });
  return place == rows_.end() ? -1 : static_cast<int>(place - rows_.begin());
}

int RegionModel::rowCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(rows_.size());
}
int RegionModel::columnCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : columns; }

QVariant RegionModel::data(const QModelIndex& index, int role) const {
  const RegionRow* each = index.isValid() ? row(index.row()) : nullptr;
  if (each == nullptr) return {};
  const ShownReading& shown = each->shown;
  const bool stands = each->read && !shown.reading.refused;
  if (role == Qt::DecorationRole && index.column() == name && stands) return swatch_icon(shown.swatch.color);
  if (role == Qt::EditRole && index.column() == id) return each->id;
  if (role != Qt::DisplayRole && role != Qt::ToolTipRole) return {};
  switch (index.column()) {
    case id:
      return each->id;
    case kind:
      return kind_word(each->kind);
    case name:
      if (!each->read && each->coming) return tr("reading …");
      return stands ? shown.name : tr("no reading");
    case lab:
      if (!stands) return {};
      return QStringLiteral("%1 %2 %3 ±%4").arg(shown.lab[0], shown.lab[1], shown.lab[2], shown.de00);
    default:
      return {};
  }
}

bool RegionModel::setData(const QModelIndex& index, const QVariant& value, int role) {
  const RegionRow* each = index.isValid() ? row(index.row()) : nullptr;
  if (each == nullptr || role != Qt::EditRole || index.column() != id) return false;
  const QString text = value.toString().trimmed();
  if (text.isEmpty() || text == each->id) return false;
  emit rename_asked(each->id, text);
  return true;
}

Qt::ItemFlags RegionModel::flags(const QModelIndex& index) const {
  const Qt::ItemFlags plain = QAbstractTableModel::flags(index);
  return index.isValid() && index.column() == id ? plain | Qt::ItemIsEditable : plain;
}

QVariant RegionModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal || role != Qt::DisplayRole) return {};
  switch (section) {
    case id:
      return tr("Region");
    case kind:
      return tr("Kind");
    case name:
      return tr("Colour in words");
    case lab:
      return tr("L* a* b* ±ΔE00");
    default:
      return {};
  }
}

}  // namespace tintfall::viewer
