#include <QCoreApplication>
#include <QFont>
#include <viewer/models/check_model.hpp>
#include <viewer/models/sentence_words.hpp>

namespace tintfall::viewer {

using colorlib::CheckState;
using colorlib::PhotoCheck;

namespace {

struct CheckWord {
  const char *code, *word;
};
constexpr CheckWord check_words[] = {{"sharpness", QT_TRANSLATE_NOOP("Checks", "Sharpness")},
                                     {"exposure", QT_TRANSLATE_NOOP("Checks", "Exposure")},
                                     {"glare", QT_TRANSLATE_NOOP("Checks", "Glare")},
                                     {"even-light", QT_TRANSLATE_NOOP("Checks", "Even light")},
                                     {"light", QT_TRANSLATE_NOOP("Checks", "Kind of light")},
                                     {"sheet-size", QT_TRANSLATE_NOOP("Checks", "Size of the sheet")},
                                     {"tilt", QT_TRANSLATE_NOOP("Checks", "Tilt")},
                                     {"flatness", QT_TRANSLATE_NOOP("Checks", "Flatness")},
                                     {"height", QT_TRANSLATE_NOOP("Checks", "Height of the specimen")},
                                     {"reference", QT_TRANSLATE_NOOP("Checks", "Values of the sheet")}};

QString check_word(const std::string& code) {
  for (const CheckWord& each : check_words)
    if (code == each.code) return QCoreApplication::translate("Checks", each.word);
  return QString::fromStdString(code);
}

/// A sign in front, since colour must not carry it.
QString sign(CheckState state) {
  switch (state) {
    case CheckState::fine:
      return QStringLiteral("–");
    case CheckState::attend:
      return QStringLiteral("!");
    case CheckState::unknown:
      break;
  }
  return QStringLiteral("?");
}

}  // namespace

void CheckModel::set_checks(std::vector<PhotoCheck> checks) {
  beginResetModel();
  checks_ = std::move(checks);
  endResetModel();
}

int CheckModel::rowCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(checks_.size());
}
int CheckModel::columnCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : columns; }

QVariant CheckModel::data(const QModelIndex& index, int role) const {
  if (!index.isValid() || index.row() >= rowCount()) return {};
  const PhotoCheck& check = checks_[static_cast<std::size_t>(index.row())];
  if (role == Qt::FontRole && check.state == CheckState::attend) {
    QFont bold;
    bold.setBold(true);
    return bold;
  }
  const QString advice_text = QCoreApplication::translate("colorlib", check.advice.c_str());
  if (role == Qt::ToolTipRole) return advice_text.isEmpty() ? QVariant() : QVariant(advice_text);
  if (role != Qt::DisplayRole) return {};
  switch (index.column()) {
    case what:
      return QStringLiteral("%1 %2").arg(sign(check.state), check_word(check.code));
    case measured:
      return sentence_words(QString::fromStdString(check.measured));
    case advice:
      return advice_text;
    default:
      return {};
  }
}

QVariant CheckModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal || role != Qt::DisplayRole) return {};
  switch (section) {
    case what:
      return tr("What");
    case measured:
      return tr("Measured");
    case advice:
      return tr("What to do");
    default:
      return {};
  }
}

}  // namespace tintfall::viewer
