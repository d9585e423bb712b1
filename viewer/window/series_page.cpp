#include <QCheckBox>
#include <QCompleter>
#include <QCoreApplication>
#include <QDoubleSpinBox>
#include <QDragEnterEvent>
#include <QFileDialog>
#include <QFileInfo>
#include <QLabel>
#include <QLineEdit>
#include <QMimeData>
#include <QSplitter>
#include <QToolButton>
#include <QVBoxLayout>
#include <colorlib/base/cautions.hpp>
#include <viewer/document/photo_document.hpp>
#include <viewer/models/remark_words.hpp>
#include <viewer/settings/figures.hpp>
#include <viewer/tasks/error_words.hpp>
#include <viewer/tasks/export_jobs.hpp>
#include <viewer/tasks/reagent_names.hpp>
#include <viewer/window/before_after.hpp>
#include <viewer/window/caution_label.hpp>
#include <viewer/window/change_curve.hpp>
#include <viewer/window/new_setup.hpp>
#include <viewer/window/series_page.hpp>
#include <viewer/window/time_line.hpp>
#include <viewer/window/wrapping_row.hpp>

namespace tintfall::viewer {

using namespace colorlib;

namespace {

constexpr int field_frame_px = 24;  // round the words of a field

}  // namespace

SeriesPage::SeriesPage(PhotoDocument& one_photo, QWidget* parent)
    : QWidget(parent),
      one_photo_(one_photo),
      lane_(QStringLiteral("series")),
      file_lane_(QStringLiteral("series file"), TaskLane::Order::one_after_another) {
  setAcceptDrops(true);
  setAccessibleName(tr("Reaction"));
  actions_.title = tr("Reaction");
  auto* bar = new WrappingRow;
  const auto button = [&](QAction* made) {
    auto* shown = new QToolButton;
    shown->setDefaultAction(made);
    shown->setAccessibleName(made->text());
    bar->addWidget(shown);
    return made;
  };
  button(action(
      tr("Add photos or a video …"), tr("Ctrl+Alt+O"), tr("Add the photos of one reaction, or its video"),
      [this] { add_photos(QFileDialog::getOpenFileNames(this, tr("Photos of one reaction, or a video"))); }));
  button(action(tr("Regions of the open photo"), tr("Ctrl+Alt+R"),
                tr("Look where regions are drawn on the page 'One photo'"),
                [this] { use_regions(one_photo_.regions().regions, one_photo_.title()); }));
  action(tr("Regions from a file …"), tr("Ctrl+Alt+Shift+R"), tr("Take regions from a regions file"), [this] {
    const QString file = QFileDialog::getOpenFileName(this, tr("Regions"), {}, tr("Regions (*.json)"));
    if (file.isEmpty()) return;
    file_lane_.start([file](Progress&) { return load_regions(file); },
                     [this, file](Result<Regions> regions) {
                       if (regions) return use_regions(*regions, QFileInfo(file).fileName());
                       say(error_words(regions.error()));
                     });
  });
  button(
      action(tr("Read series"), tr("Ctrl+Return"), tr("Read every photo of the series"), [this] { read(); }));
  action(tr("Stop reading the series"), tr("Ctrl+Alt+."), tr("Cancel; the photos stay in the list"),
         [this] { stop(); });
  action(tr("Zero at this frame"), tr("Ctrl+T"), tr("The drop fell, or the cut was made, at the frame shown"),
         [this] {
           if (outcome_ && line_->frame() >= 0)
             move_zero(outcome_->frames[static_cast<std::size_t>(line_->frame())].seconds);
         });
  QAction* turns = action(tr("Before and after by turns"), tr("Ctrl+Alt+T"),
                          tr("Show both in one place, one after the other"), [] {});
  turns->setCheckable(true);
  button(turns);
  action(tr("Write strip of key moments …"), tr("Ctrl+Alt+K"),
         tr("Write the telling pictures in a row, as PNG"), [this] {
           const QString file = QFileDialog::getSaveFileName(
               this, tr("Strip of key moments"), QStringLiteral("moments.png"), tr("PNG (*.png)"));
           if (!file.isEmpty()) write_strip_to(file);
         });
  action(tr("Write series record …"), tr("Ctrl+Alt+J"), tr("Write the series as JSON"), [this] {
    const QString file = QFileDialog::getSaveFileName(this, tr("Series record"),
                                                      QStringLiteral("series.json"), tr("JSON (*.json)"));
    if (!file.isEmpty()) write_record_to(file);
  });
  action(tr("Take all photos away"), tr("Ctrl+Alt+X"), tr("Begin another series"), [this] {
    photos_.clear();
    add_photos({});
    clear();
  });

  reagent_ = new QLineEdit;
  reagent_->setAccessibleName(tr("Reagent with its strength"));
  reagent_->setPlaceholderText(tr("reagent, or none"));
  auto* offered = new QCompleter(offered_reagents(), reagent_);
  offered->setCaseSensitivity(Qt::CaseInsensitive);
  reagent_->setCompleter(offered);
  reagent_->setMinimumWidth(120);
  reagent_->setMaximumWidth(150);
  applied_ = new QLineEdit;
  applied_->setAccessibleName(tr("When it was applied"));
  applied_->setPlaceholderText(tr("+12 (s), 11:07:13, a photo, %1").arg(tr("found")));
  applied_->setMinimumWidth(applied_->fontMetrics().horizontalAdvance(applied_->placeholderText()) +
                            field_frame_px);
  applied_->setToolTip(
      tr("When the drop fell or the cut was made: seconds after the first photo (+12), a time of the "
         "camera's clock, "
         "the name of a photo, or '%1' to look for it. It can also be dragged on the line below.")
          .arg(tr("found")));
  even_ = new QCheckBox(tr("every"));
  even_->setAccessibleName(tr("Photos were taken at even intervals"));
  interval_ = new QDoubleSpinBox;
  interval_->setRange(0.01, 86400);
  interval_->setValue(5);
  interval_->setSuffix(tr(" s"));
  interval_->setAccessibleName(tr("Interval between photos"));
  interval_->setEnabled(false);
  connect(even_, &QCheckBox::toggled, interval_, &QWidget::setEnabled);
  auto* said = new WrappingRow;
  const auto labelled = [&](const QString& text, QWidget* widget) {
    auto* label = new QLabel(text);
    label->setBuddy(widget);
    said->add_together({label, widget});
  };
  labelled(tr("Reagent"), reagent_);
  labelled(tr("Applied"), applied_);
  said->add_together({even_, interval_});

  inputs_ = new QLabel;
  inputs_->setWordWrap(true);
  inputs_->setAccessibleName(tr("What will be read"));
  pictures_ = new BeforeAfter;
  curve_ = new ChangeCurve;
  line_ = new TimeLine;
  words_ = new QLabel;
  words_->setWordWrap(true);
  words_->setAccessibleName(tr("The change in words"));
  words_->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
  auto* across = new QSplitter(Qt::Horizontal);
  across->setAccessibleName(tr("Pictures and curve"));
  across->addWidget(pictures_);
  across->addWidget(curve_);
  across->setSizes({720, 520});
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->addLayout(bar);
  column->addLayout(said);
  column->addWidget(inputs_);
  column->addWidget(across, 1);
  column->addWidget(line_);
  column->addWidget(words_);
  column->addWidget(caution_label({caution_reagents, caution_safety}));

  connect(turns, &QAction::toggled, pictures_, &BeforeAfter::set_by_turns);
  connect(line_, &TimeLine::frame_changed, this, &SeriesPage::show_frame);
  connect(line_, &TimeLine::zero_dragged, this, &SeriesPage::move_zero);
  connect(curve_, &ChangeCurve::moment_picked, this, [this](double seconds) {
    int nearest = -1;
    for (int i = 0; outcome_ && i < static_cast<int>(outcome_->frames.size()); ++i)
      if (nearest < 0 || std::abs(outcome_->frames[static_cast<std::size_t>(i)].seconds - seconds) <
                             std::abs(outcome_->frames[static_cast<std::size_t>(nearest)].seconds - seconds))
        nearest = i;
    if (nearest >= 0) line_->set_frame(nearest);
  });
  connect(&one_photo_, &PhotoDocument::setup_changed, this, &SeriesPage::show_inputs);
  connect(&one_photo_, &PhotoDocument::photo_changed, this, &SeriesPage::show_inputs);
  add_photos({});
}

QAction* SeriesPage::action(const QString& text, const QString& key, const QString& hint,
                            std::function<void()> what) {
  auto* made = new QAction(text, this);
  made->setShortcut(QKeySequence(key));
  made->setShortcutContext(Qt::WidgetWithChildrenShortcut);
  made->setToolTip(QStringLiteral("%1 (%2)").arg(hint, made->shortcut().toString(QKeySequence::NativeText)));
  connect(made, &QAction::triggered, this, std::move(what));
  addAction(made);
  actions_.actions.push_back(made);
  return made;
}

void SeriesPage::add_photos(const QStringList& photos) {
  for (const QString& photo : photos)
    if (!photos_.contains(photo)) photos_.push_back(photo);
  show_inputs();
}

PhotoSetup SeriesPage::setup() const {
  PhotoSetup setup = one_photo_.photo_path().isEmpty() ? setup_of_new_photos() : one_photo_.setup();
  setup.corners.reset();  // each photo is placed for itself
  return setup;
}

void SeriesPage::show_inputs() {
  QStringList names;
  for (const Region& region : regions_.items) names.push_back(QString::fromStdString(region.id));
  const PhotoSetup sheet = setup();
  QStringList said{
      tr("files: %1").arg(photos_.size()),
      names.isEmpty() ? tr("no regions yet") : tr("regions %1").arg(names.join(QStringLiteral(", ")))};
  if (!sheet.sheet.isEmpty()) {
    said.push_back(tr("printed sheet %1 of your list").arg(sheet.sheet));
  } else {
    said.push_back(sheet.chart.isEmpty() ? tr("sheet told by its markers") : tr("sheet %1").arg(sheet.chart));
    said.push_back(sheet.reference.isEmpty()
                       ? tr("nominal colours, nothing measured")
                       : tr("measured values from %1").arg(QFileInfo(sheet.reference).fileName()));
  }
  inputs_->setText(said.join(QStringLiteral(" · ")));
  inputs_->setToolTip(sheet.sheet.isEmpty() ? sheet.reference : QString());
}

void SeriesPage::use_regions(const Regions& regions, const QString& from) {
  regions_ = regions;
  add_photos({});
  say(regions_.items.empty()
          ? tr("'%1' has no regions: draw the spot, a water drop and untreated tissue first.").arg(from)
          : QString());
}

QString SeriesPage::applied_moment(const QString& typed) {
  const QString text = typed.trimmed();
  return text.compare(tr("found"), Qt::CaseInsensitive) == 0 ? QStringLiteral("found") : text;
}

void SeriesPage::read() {
  if (regions_.items.empty()) regions_ = one_photo_.regions().regions;
  add_photos({});
  if (photos_.isEmpty()) return say(tr("Add the photos of the series first."));
  SeriesParameters parameters;
  parameters.photos = photos_;
  parameters.setup = setup();
  parameters.regions = regions_;
  parameters.applied = applied_moment(applied_->text());
  parameters.screen = screen_;
  parameters.protocol.reagent = reagent_->text().trimmed().toStdString();
  if (even_->isChecked()) parameters.interval_s = interval_->value();
  clear();  // what was shown is of the series before
  reading_ = true;
  lane_.start([parameters](Progress& progress) { return read_series(parameters, progress); },
              [this](Result<SeriesOutcome> outcome) {
                reading_ = false;
                take(std::move(outcome));
              });
}

void SeriesPage::stop() {
  if (!lane_.busy()) return;
  lane_.cancel();
  if (reading_)
    say(tr("Stopped before the series was read, so nothing is shown. 'Read series' begins again."));
  else
    say(tr("Stopped; the zero is where it was."));
  reading_ = false;
}

void SeriesPage::clear() {
  outcome_.reset();
  pictures_->set_outcome(nullptr);
  curve_->set_outcome(nullptr);
  line_->set_outcome(nullptr);
  say({});
  emit outcome_changed();
}

void SeriesPage::take(Result<SeriesOutcome> outcome) {
  if (!outcome) return say(error_words(outcome.error()));
  outcome_ = std::make_shared<const SeriesOutcome>(std::move(*outcome));
  pictures_->set_outcome(outcome_);
  curve_->set_outcome(outcome_);
  line_->set_outcome(outcome_);
  if (!outcome_->lines.empty() && !outcome_->lines.front().key_frames.empty())
    line_->set_frame(static_cast<int>(outcome_->lines.front().key_frames.back()));
  show_frame(line_->frame());
  emit outcome_changed();
}

void SeriesPage::show_frame(int frame) {
  if (!outcome_ || frame < 0 || frame >= static_cast<int>(outcome_->frames.size())) return;
  const auto place = static_cast<std::size_t>(frame);
  const bool has_line = !outcome_->lines.empty() && !outcome_->lines.front().key_frames.empty();
  pictures_->set_frames(has_line ? static_cast<int>(outcome_->lines.front().key_frames.front()) : 0, frame);
  curve_->set_moment(outcome_->frames[place].seconds);
  QStringList said;
  for (const CourseLine& line : outcome_->lines)
    for (const CourseMark& mark : line.marks)
      if (mark.frame == place)
        said.push_back(tr("%1 at %2 s: %3").arg(line.id).arg(figure(mark.seconds, 1)).arg(mark.words));
  for (const CourseLine& line : outcome_->lines) {
    if (!line.verdict.isEmpty())
      said.push_back(QStringLiteral("%1: %2. %3").arg(line.id, line.verdict, line.sentence));
    said.push_back(tr("%1: change ΔE00 %2 ± %3 (k = 2); %4 is needed to count as a reaction")
                       .arg(line.id)
                       .arg(figure(line.change_de00, 1))
                       .arg(figure(line.change_expanded, 1))
                       .arg(figure(line.threshold_de00, 1)));
    for (const auto& [time, word] :
         {std::pair{line.onset, tr("%1: began at %2 s (%3 to %4 s, 95 %)")},
          std::pair{line.half_time, tr("%1: half done at %2 s (%3 to %4 s, 95 %)")}})
      if (time)
        said.push_back(word.arg(line.id)
                           .arg(figure(time->seconds, 1))
                           .arg(figure(time->low_s, 1))
                           .arg(figure(time->high_s, 1)));
  }
  for (const CourseLine& line : outcome_->lines)
    for (const QString& remark : line.remarks)
      said.push_back(QStringLiteral("%1: %2").arg(line.id, remark_words(remark)));
  if (!outcome_->frames[place].dropped.isEmpty()) said.push_back(outcome_->frames[place].dropped);
  said += outcome_->remarks;
  say(said.join(QStringLiteral("\n")));
}

void SeriesPage::move_zero(double seconds) {
  if (!outcome_) return;
  lane_.start([outcome = outcome_, seconds, screen = screen_](
                  Progress& progress) { return with_zero(*outcome, seconds, screen, progress); },
              [this](Result<SeriesOutcome> moved) { take(std::move(moved)); });
}

void SeriesPage::write_strip_to(const QString& file) {
  if (!outcome_) return say(tr("Read a series first."));
  file_lane_.start(
      [outcome = outcome_, file](Progress& progress) { return write_strip(file, *outcome, 0, progress); },
      [this, file](Result<std::monostate> done) {
        if (!done) return say(error_words(done.error()));
        emit written(file);
      });
}

void SeriesPage::write_record_to(const QString& file) {
  if (!outcome_ || !outcome_->record) return say(tr("Read a series first."));
  file_lane_.start([outcome = outcome_, file](Progress&) { return write_series(file, *outcome); },
                   [this, file](Result<std::monostate> done) {
                     if (!done) return say(error_words(done.error()));
                     emit written(file);
                   });
}

void SeriesPage::say(const QString& text) {
  words_->setText(text);
  words_->setVisible(!text.isEmpty());
}

void SeriesPage::showEvent(QShowEvent* event) {
  QWidget::showEvent(event);
  show_inputs();  // the settings may have changed
}

void SeriesPage::dragEnterEvent(QDragEnterEvent* event) {
  if (event->mimeData()->hasUrls()) event->acceptProposedAction();
}

void SeriesPage::dropEvent(QDropEvent* event) {
  QStringList dropped;
  for (const QUrl& url : event->mimeData()->urls()) dropped.push_back(url.toLocalFile());
  file_lane_.start([dropped](Progress&) { return photos_among(dropped); },
                   [this](Result<QStringList> photos) {
                     if (!photos) return say(error_words(photos.error()));
                     add_photos(*photos);
                   });
}

}  // namespace tintfall::viewer
