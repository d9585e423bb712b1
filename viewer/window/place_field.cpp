#include <QCheckBox>
#include <QComboBox>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <viewer/settings/figures.hpp>
#include <viewer/tasks/error_words.hpp>
#include <viewer/window/place_field.hpp>

namespace tintfall::viewer {

using namespace colorlib;

PlaceField::PlaceField(QWidget* parent) : QWidget(parent), lane_(QStringLiteral("place")) {
  setAccessibleName(tr("Place"));
  auto* form = new QFormLayout(this);
  form->setRowWrapPolicy(QFormLayout::WrapLongRows);
  const auto line = [&](const QString& name, const QString& hint) {
    auto* edit = new QLineEdit;
    edit->setAccessibleName(name);
    edit->setPlaceholderText(hint);
    edit->setToolTip(hint);  // whole, where the field is too narrow for it
    form->addRow(name, edit);
    connect(edit, &QLineEdit::textChanged, this, [this] { check(false); });
    return edit;
  };
  place_ = line(tr("Site"), tr("the place itself; never in a coarse export"));
  area_ = line(tr("Larger area"), tr("county, range of hills; may always be told"));
  latitude_ = line(tr("Degrees north"), tr("south is negative"));
  longitude_ = line(tr("Degrees east"), tr("west is negative"));
  grid_ = new QComboBox;
  grid_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
  grid_->setMinimumContentsLength(12);
  grid_->setAccessibleName(tr("How much of the coordinates is kept"));
  grid_->addItem(tr("all that was typed"), 0.0);
  grid_->addItem(tr("0.01 degree: a wood, about 1 km"), 0.01);
  grid_->addItem(tr("0.1 degree: a hill, about 11 km"), 0.1);
  grid_->addItem(tr("1 degree: a landscape, about 110 km"), 1.0);
  form->addRow(tr("Keep"), grid_);
  connect(grid_, &QComboBox::activated, this, [this] { check(false); });
  hidden_ = new QCheckBox(tr("Never export this site"));
  hidden_->setAccessibleName(hidden_->text());
  form->addRow(QString(), hidden_);
  connect(hidden_, &QCheckBox::toggled, this, [this] { check(false); });
  sentence_ = new QLabel;
  sentence_->setWordWrap(true);
  sentence_->setAccessibleName(tr("What of the place is kept and told"));
  form->addRow(sentence_);
  keep_ = new QPushButton(tr("Keep this place"));
  keep_->setAccessibleName(keep_->text());
  form->addRow(QString(), keep_);
  connect(keep_, &QPushButton::clicked, this, [this] { check(true); });
  set_collection(nullptr);
}

void PlaceField::set_collection(const CollectionShown* collection) {
  filling_ = true;
  setEnabled(collection != nullptr);
  const Collection said = collection == nullptr ? Collection() : collection->collection;
  const auto degrees = [](const std::optional<double>& value) {
    return value ? short_figure(*value, 10) : QString();
  };
  place_->setText(QString::fromStdString(said.place));
  area_->setText(QString::fromStdString(said.area));
  latitude_->setText(degrees(said.latitude_deg));
  longitude_->setText(degrees(said.longitude_deg));
  int grid = 0;
  for (int i = 0; i < grid_->count(); ++i)
    if (said.place_coarseness_deg && *said.place_coarseness_deg >= grid_->itemData(i).toDouble() - 1e-9)
      grid = i;
  grid_->setCurrentIndex(grid);
  hidden_->setChecked(said.hide_place == "yes");
  filling_ = false;
  if (collection != nullptr)
    check(false);
  else
    sentence_->clear();
}

PlaceTyped PlaceField::typed() const {
  return {place_->text(),
          area_->text(),
          latitude_->text(),
          longitude_->text(),
          grid_->currentData().toDouble(),
          hidden_->isChecked()};
}

QString PlaceField::sentence() const { return sentence_->text(); }

void PlaceField::check(bool keep) {
  if (filling_) return;
  lane_.start([typed = typed()](Progress&) { return check_place(typed); },
              [this, keep](const Result<PlaceChecked>& checked) {
                if (!checked) return sentence_->setText(error_words(checked.error()));
                sentence_->setText(checked->sentence);
                if (keep) emit keep_asked(checked->fields);
              });
}

}  // namespace tintfall::viewer
