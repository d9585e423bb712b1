#include <QComboBox>
#include <QDoubleSpinBox>
#include <QFileDialog>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <viewer/window/appearance.hpp>
#include <viewer/window/settings_page.hpp>

namespace tintfall::viewer {

SettingsPage::SettingsPage(QWidget* parent) : QWidget(parent) {
  setAccessibleName(tr("Settings"));
  auto* form = new QFormLayout(this);
  form->setContentsMargins(24, 24, 24, 24);
  form->setRowWrapPolicy(QFormLayout::WrapLongRows);
  const auto choice = [&](const QString& name, std::initializer_list<std::pair<QString, QString>> entries,
                          SettingValue<QString> Preferences::*setting) {
    auto* box = new QComboBox;
    box->setAccessibleName(name);
    for (const auto& [text, value] : entries) box->addItem(text, value);
    box->setCurrentIndex(std::max(0, box->findData((preferences_.*setting).get())));
    form->addRow(name, box);
    connect(box, &QComboBox::activated, this,
            [this, box, setting] { (preferences_.*setting).set(box->currentData().toString()); });
    return box;
  };
  auto* appearance = choice(tr("Appearance"),
                            {{tr("as the system"), {}},
                             {tr("light"), QStringLiteral("light")},
                             {tr("dark"), QStringLiteral("dark")}},
                            &Preferences::appearance);
  connect(appearance, &QComboBox::activated, this,
          [this] { apply_appearance(appearance_from(preferences_.appearance.get())); });
  choice(tr("Language (after the next start)"),
         {{tr("as the system"), {}},
          {QStringLiteral("English"), QStringLiteral("en")},
          {QStringLiteral("Deutsch"), QStringLiteral("de")}},
         &Preferences::language);

  const auto file_choice = [&](const QString& name, const QString& empty,
                               SettingValue<QString> Preferences::*setting, auto changed) {
    auto* shown = new QLineEdit((preferences_.*setting).get());
    shown->setReadOnly(true);
    shown->setPlaceholderText(empty);
    shown->setAccessibleName(name);
    auto* choose = new QPushButton(tr("Choose …"));
    choose->setAccessibleName(tr("Choose: %1").arg(name));
    auto* none = new QPushButton(tr("None"));
    none->setAccessibleName(tr("None: %1").arg(name));
    auto* row = new QHBoxLayout;
    for (QWidget* part :
         {static_cast<QWidget*>(shown), static_cast<QWidget*>(choose), static_cast<QWidget*>(none)})
      row->addWidget(part);
    form->addRow(name, row);
    const auto take = [this, shown, setting, changed](const QString& file) {
      (preferences_.*setting).set(file);
      shown->setText(file);
      changed();
    };
    connect(choose, &QPushButton::clicked, this, [this, name, take] {
      const QString file = QFileDialog::getOpenFileName(this, name);
      if (!file.isEmpty()) take(file);
    });
    connect(none, &QPushButton::clicked, this, [take] { take({}); });
  };
  file_choice(tr("Colour profile of the screen"), tr("taken to be sRGB"), &Preferences::screen_profile,
              [this] { emit screen_changed(); });
  file_choice(tr("Measured values for new photos"), tr("nominal colours"), &Preferences::reference, [] {});

  auto* collector = new QLineEdit(preferences_.collector.get());
  collector->setAccessibleName(tr("Collector in new records"));
  form->addRow(tr("Collector in new records"), collector);
  connect(collector, &QLineEdit::editingFinished, this,
          [this, collector] { preferences_.collector.set(collector->text().trimmed()); });
  auto* catalogue = new QLineEdit(preferences_.catalogue.get());
  catalogue->setAccessibleName(tr("Catalogue"));
  catalogue->setPlaceholderText(tr("the usual file of this account; a file, or postgresql://host/database"));
  auto* choose_catalogue = new QPushButton(tr("Choose …"));
  choose_catalogue->setAccessibleName(tr("Choose: %1").arg(tr("Catalogue")));
  auto* catalogue_row = new QHBoxLayout;
  catalogue_row->addWidget(catalogue);
  catalogue_row->addWidget(choose_catalogue);
  form->addRow(tr("Catalogue"), catalogue_row);
  const auto take_catalogue = [this, catalogue] { preferences_.catalogue.set(catalogue->text().trimmed()); };
  connect(catalogue, &QLineEdit::editingFinished, this, take_catalogue);
  connect(choose_catalogue, &QPushButton::clicked, this, [this, catalogue, take_catalogue] {
    const QString file =
        QFileDialog::getSaveFileName(this, tr("Catalogue"), catalogue->text(), tr("Catalogues (*.db)"),
                                     nullptr, QFileDialog::DontConfirmOverwrite);
    if (file.isEmpty()) return;
    catalogue->setText(file);
    take_catalogue();
  });
  auto* tolerance = new QDoubleSpinBox;
  tolerance->setRange(0.5, 30);
  tolerance->setSingleStep(0.5);
  tolerance->setPrefix(tr("ΔE00 "));
  tolerance->setValue(preferences_.grow_tolerance.get());
  tolerance->setAccessibleName(tr("Tolerance of 'Grow from here'"));
  form->addRow(tr("Tolerance of 'Grow from here'"), tolerance);
  connect(tolerance, &QDoubleSpinBox::valueChanged, this,
          [this](double de00) { preferences_.grow_tolerance.set(de00); });
  auto* note = new QLabel(tr(
      "Swatches are only as true as the screen. Judge them on a screen whose profile is chosen here, under "
      "the light you would judge a deposit in; the numbers do not depend on it."));
  note->setWordWrap(true);
  note->setAccessibleName(tr("About screens"));
  form->addRow(note);
}

}  // namespace tintfall::viewer
