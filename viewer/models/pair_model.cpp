#include <viewer/models/pair_model.hpp>
#include <viewer/settings/figures.hpp>

namespace tintfall::viewer {

using namespace colorlib;

QString verdict_for_people(Verdict verdict) {
  switch (verdict) {
    case Verdict::same:
      return PairModel::tr("same");
    case Verdict::different:
      return PairModel::tr("different");
    case Verdict::undecided:
      break;
  }
  return PairModel::tr("undecided");
}

void PairModel::set_outcome(std::shared_ptr<const CompareOutcome> outcome) {
  beginResetModel();
  outcome_ = std::move(outcome);
  const int count = rowCount();
  pairs_.assign(static_cast<std::size_t>(count) * static_cast<std::size_t>(count), -1);
  if (outcome_ && outcome_->comparison) {
    std::vector<int> row_of(outcome_->comparison->things.size(), -1);
    for (int r = 0; r < count; ++r) {
      const int thing = outcome_->readings[static_cast<std::size_t>(r)].thing;
      if (thing >= 0) row_of[static_cast<std::size_t>(thing)] = r;
    }
    for (std::size_t i = 0; i < outcome_->comparison->pairs.size(); ++i) {
      const ThingPair& pair = outcome_->comparison->pairs[i];
      const int a = row_of[pair.a], b = row_of[pair.b];
      if (a < 0 || b < 0) continue;
      pairs_[static_cast<std::size_t>(a * count + b)] = pairs_[static_cast<std::size_t>(b * count + a)] =
          static_cast<int>(i);
    }
  }
  endResetModel();
}

const Agreement* PairModel::agreement(int row, int column) const {
  const int count = rowCount();
  if (row < 0 || column < 0 || row >= count || column >= count) return nullptr;
  const int pair = pairs_[static_cast<std::size_t>(row * count + column)];
  return pair < 0 ? nullptr : &outcome_->comparison->pairs[static_cast<std::size_t>(pair)].agreement;
}

int PairModel::rowCount(const QModelIndex& parent) const {
  return parent.isValid() || !outcome_ ? 0 : static_cast<int>(outcome_->readings.size());
}
int PairModel::columnCount(const QModelIndex& parent) const { return rowCount(parent); }

QVariant PairModel::data(const QModelIndex& index, int role) const {
  if (!index.isValid()) return {};
  const Agreement* found = agreement(index.row(), index.column());
  if (role == Qt::TextAlignmentRole) return static_cast<int>(Qt::AlignCenter);
  if (found == nullptr)
    return role == Qt::DisplayRole && index.row() == index.column() ? QVariant(QStringLiteral("·"))
                                                                    : QVariant();
  if (role == Qt::DisplayRole)
    return QStringLiteral("%1\nΔE00 %2 ± %3")
        .arg(verdict_for_people(found->verdict))
        .arg(figure(found->de00, 1))
        .arg(figure(found->de00_expanded, 1));
  if (role == Qt::ToolTipRole)
    return tr("ΔE00 %1 ± %2; E_n %3; true difference within the tolerance with a probability of %4 %")
        .arg(figure(found->de00, 2))
        .arg(figure(found->de00_expanded, 2))
        .arg(with_figures(QString::fromStdString(en_text(found->en))))
        .arg(figure(100 * found->within_probability, 0));
  return {};
}

QVariant PairModel::headerData(int section, Qt::Orientation, int role) const {
  if (!outcome_ || section < 0 || section >= rowCount()) return {};
  const SideReading& reading = outcome_->readings[static_cast<std::size_t>(section)];
  if (role == Qt::ToolTipRole) return reading.label;
  return role == Qt::DisplayRole
             ? QVariant(QStringLiteral("%1  %2").arg(section + 1).arg(reading.short_label))
             : QVariant();
}

void ConsensusModel::set_outcome(std::shared_ptr<const CompareOutcome> outcome) {
  beginResetModel();
  rows_.clear();
  if (outcome && outcome->comparison) {
    const Comparison& comparison = *outcome->comparison;
    for (const ItemConsensus& consensus : comparison.consensus) {
      if (consensus.participants.size() < 2) continue;
      const QString name = outcome->items.value(static_cast<qsizetype>(consensus.item));
      const Lab& lab = consensus.assigned.lab;
      rows_.push_back({name, tr("all together"),
                       QStringLiteral("L* %1  a* %2  b* %3")
                           .arg(figure(lab.l, 1))
                           .arg(figure(lab.a, 1))
                           .arg(figure(lab.b, 1)),
                       consensus.judged ? QString() : tr("too few to judge by")});
      for (const ParticipantDistance& each : consensus.participants)
        rows_.push_back({name, QString::fromStdString(comparison.table.participants[each.participant].name),
                         QStringLiteral("ΔE00 %1").arg(figure(each.de00, 1)),
                         each.agreement
                             ? tr("%1 from the others").arg(verdict_for_people(each.agreement->verdict))
                             : QString()});
    }
  }
  endResetModel();
}

int ConsensusModel::rowCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(rows_.size());
}
int ConsensusModel::columnCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : columns; }

QVariant ConsensusModel::data(const QModelIndex& index, int role) const {
  if (!index.isValid() || index.row() >= rowCount() || (role != Qt::DisplayRole && role != Qt::ToolTipRole))
    return {};
  const Row& row = rows_[static_cast<std::size_t>(index.row())];
  switch (index.column()) {
    case item:
      return row.item;
    case participant:
      return row.participant;
    case distance:
      return row.distance;
    case verdict:
      return row.verdict;
    default:
      return {};
  }
}

QVariant ConsensusModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal || role != Qt::DisplayRole) return {};
  switch (section) {
    case item:
      return tr("Item");
    case participant:
      return tr("Who");
    case distance:
      return tr("Colour, or distance from it");
    case verdict:
      return tr("Agreement");
    default:
      return {};
  }
}

}  // namespace tintfall::viewer
