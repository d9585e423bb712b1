#include <QCoreApplication>
#include <viewer/models/issue_model.hpp>

namespace tintfall::viewer {

namespace {

/// colorlib's own sentences, where the translation knows them.
QString said(const QString& text) {
  return QCoreApplication::translate("colorlib", text.toUtf8().constData());
}

}  // namespace

QString weight_word(IssueWeight weight) {
  switch (weight) {
    case IssueWeight::note:
      return IssueModel::tr("Note");
    case IssueWeight::advice:
      return IssueModel::tr("Advice");
    case IssueWeight::problem:
      break;
  }
  return IssueModel::tr("Problem");
}

void IssueModel::set_issues(std::vector<Issue> issues) {
  if (issues == issues_) return;
  beginResetModel();
  issues_ = std::move(issues);
  endResetModel();
}

const Issue* IssueModel::issue(int row) const {
  return row >= 0 && row < rowCount() ? &issues_[static_cast<std::size_t>(row)] : nullptr;
}

int IssueModel::rowCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(issues_.size());
}
int IssueModel::columnCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : columns; }

QVariant IssueModel::data(const QModelIndex& index, int role) const {
  const Issue* each = index.isValid() ? issue(index.row()) : nullptr;
  if (each == nullptr) return {};
  if (role == Qt::ToolTipRole || role == Qt::AccessibleDescriptionRole)
    return QStringLiteral("%1 %2").arg(said(each->message), said(each->advice));
  if (role != Qt::DisplayRole) return {};
  switch (index.column()) {
    case weight:
      return weight_word(each->weight);
    case message: {
      const QString times = each->count > 1 ? tr(" (%1 times)").arg(each->count) : QString();
      return (each->code.isEmpty() || each->weight != IssueWeight::advice
                  ? said(each->message)
                  : each->message + QStringLiteral(": ") + each->code) +
             times;
    }
    case advice:
      return said(each->advice);
    default:
      return {};
  }
}

QVariant IssueModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal || role != Qt::DisplayRole) return {};
  switch (section) {
    case weight:
      return tr("Weight");
    case message:
      return tr("What");
    case advice:
      return tr("What to do");
    default:
      return {};
  }
}

}  // namespace tintfall::viewer
