#include <QActionGroup>
#include <QComboBox>
#include <QCoreApplication>
#include <QFileDialog>
#include <QHeaderView>
#include <QLabel>
#include <QMenu>
#include <QScrollArea>
#include <QSplitter>
#include <QTabWidget>
#include <QTableView>
#include <QToolButton>
#include <QUndoStack>
#include <QVBoxLayout>
#include <colorlib/base/cautions.hpp>
#include <viewer/document/document_commands.hpp>
#include <viewer/window/caution_label.hpp>
#include <viewer/window/color_plane.hpp>
#include <viewer/window/column_widths.hpp>
#include <viewer/window/difference_scale.hpp>
#include <viewer/window/magnifier.hpp>
#include <viewer/window/photo_page.hpp>
#include <viewer/window/reading_panel.hpp>
#include <viewer/window/setup_panel.hpp>
#include <viewer/window/unsaved_work.hpp>
#include <viewer/window/wrapping_row.hpp>

namespace tintfall::viewer {

using namespace colorlib;

QAction* PhotoPage::action(const QString& text, const QKeySequence& shortcut, const QString& hint) {
  auto* made = new QAction(text, this);
  made->setShortcut(shortcut);
  made->setShortcutContext(Qt::WidgetWithChildrenShortcut);
  made->setStatusTip(hint);
  made->setToolTip(shortcut.isEmpty()
                       ? hint
                       : QStringLiteral("%1 (%2)").arg(hint, shortcut.toString(QKeySequence::NativeText)));
  addAction(made);
  return made;
}

void PhotoPage::make_actions() {
  const auto on = [this](QAction* made, auto what) {
    connect(made, &QAction::triggered, this, what);
    return made;
  };
  QAction* open_action =
      on(action(tr("Open …"), QKeySequence::Open, tr("Open a photo or saved work")), [this] { ask_open(); });
  QAction* save =
      on(action(tr("Save work"), QKeySequence::Save, tr("Keep regions and what you said about the photo")),
         [this] { unsaved_->save(false); });
  QAction* save_as =
      on(action(tr("Save work as …"), QKeySequence(tr("Ctrl+Shift+S")), tr("Keep the work in another file")),
         [this] { unsaved_->save(true); });
  QAction* record = on(action(tr("Write record (JSON) …"), QKeySequence(tr("Ctrl+E")),
                              tr("Write the reading as a record for programs")),
                       [this] { write(ExportKind::record); });
  QAction* text =
      on(action(tr("Write text …"), QKeySequence(tr("Ctrl+Shift+E")), tr("Write the reading as text")),
         [this] { write(ExportKind::text); });
  QAction* picture = on(action(tr("Write picture …"), QKeySequence(tr("Ctrl+Alt+E")),
                               tr("Write the photo with what was found on it")),
                        [this] { write(ExportKind::picture); });
  QAction* load_regions = on(
      action(tr("Load regions …"), QKeySequence(tr("Ctrl+Shift+O")), tr("Take regions from a regions file")),
      [this] {
        const QString file =
            QFileDialog::getOpenFileName(this, tr("Load regions"), {}, tr("Regions (*.json)"));
        if (!file.isEmpty()) document_.load_regions(file);
      });
  QAction* save_regions =
      on(action(tr("Save regions …"), QKeySequence(tr("Ctrl+Shift+R")),
                tr("Write the regions to a regions file")),
         [this] {
           const QString file = QFileDialog::getSaveFileName(
               this, tr("Save regions"), document_.photo_path() + QStringLiteral(".regions.json"));
           if (!file.isEmpty()) document_.save_regions(file);
         });
  groups_.push_back(
      {tr("File"),
       {open_action, save, save_as, nullptr, record, text, picture, nullptr, load_regions, save_regions}});

  QAction* undo = document_.undo_stack().createUndoAction(this, tr("Undo"));
  undo->setShortcut(QKeySequence::Undo);
  QAction* redo = document_.undo_stack().createRedoAction(this, tr("Redo"));
  redo->setShortcut(QKeySequence::Redo);
  for (QAction* made : {undo, redo}) {
    made->setShortcutContext(Qt::WidgetWithChildrenShortcut);
    addAction(made);
  }
  QAction* paste_action =
      on(action(tr("Paste photo"), QKeySequence::Paste, tr("Open the photo or file of the clipboard")),
         [this] { paste(); });
  QAction* copy_text = on(action(tr("Copy as text"), QKeySequence::Copy, tr("Copy the reading as text")),
                          [this] { copy(ExportKind::text); });
  QAction* copy_json = on(action(tr("Copy as JSON"), QKeySequence(tr("Ctrl+Shift+C")), tr("Copy the record")),
                          [this] { copy(ExportKind::record); });
  QAction* copy_picture = on(action(tr("Copy as picture"), QKeySequence(tr("Ctrl+Alt+C")),
                                    tr("Copy the photo with what was found on it")),
                             [this] { copy(ExportKind::picture); });
  QAction* stop =
      on(action(tr("Stop working"), QKeySequence(tr("Ctrl+.")), tr("Cancel what runs in the background")),
         [this] { document_.stop(); });
  QAction* clear = on(action(tr("Clear the list of issues"), QKeySequence(tr("Ctrl+Shift+I")),
                             tr("Empty the list under the photo")),
                      [this] { document_.clear_issues(); });
  groups_.push_back(
      {tr("Edit"),
       {undo, redo, nullptr, paste_action, copy_text, copy_json, copy_picture, nullptr, stop, clear}});
}

void PhotoPage::make_drawing_actions() {
  struct Tool {
    DrawingTool tool;
    QString text, key, hint;
  };
  const Tool tools[] = {
      {DrawingTool::look, tr("Look and move"), tr("F2"),
       tr("Pan the photo, choose, move and reshape regions")},
      {DrawingTool::ellipse, tr("Ellipse"), tr("F3"),
       tr("Draw an ellipse from corner to corner; Enter sets one at the crosshair")},
      {DrawingTool::polygon, tr("Polygon"), tr("F4"),
       tr("Click corner after corner; double-click or Shift+Enter closes")},
      {DrawingTool::freehand, tr("By hand"), tr("F5"), tr("Draw round the place")},
      {DrawingTool::grow, tr("Grow from here"), tr("F6"),
       tr("Take everything round a place that has its colour")},
  };
  auto* exclusive = new QActionGroup(this);
  for (const Tool& each : tools) {
    QAction* made = action(each.text, QKeySequence(each.key), each.hint);
    made->setCheckable(true);
    made->setChecked(each.tool == DrawingTool::look);
    exclusive->addAction(made);
    connect(made, &QAction::triggered, this, [this, tool = each.tool] {
      view_->set_tool(tool);
      view_->setFocus();
    });
    connect(view_, &PhotoView::tool_changed, made, [made, tool = each.tool](DrawingTool now) {
      if (now == tool) made->setChecked(true);
    });
    tool_actions_.push_back(made);
  }
  const auto on = [this](QAction* made, auto what) {
    connect(made, &QAction::triggered, this, what);
    return made;
  };
  QAction* duplicate =
      on(action(tr("Duplicate"), QKeySequence(tr("Ctrl+D")), tr("Copy the chosen region beside itself")),
         [this] { duplicate_region(document_, view_->selected()); });
  QAction* remove = on(action(tr("Remove"), QKeySequence::Delete, tr("Take the chosen region away")),
                       [this] { remove_region(document_, view_->selected()); });
  QAction* rename =
      on(action(tr("Rename"), QKeySequence(tr("Ctrl+R")), tr("Give the chosen region another name")), [this] {
        const int row = regions_.row_of(view_->selected());
        if (row >= 0) region_table_->edit(regions_.index(row, RegionModel::id));
      });
  QAction* next =
      on(action(tr("Next region"), QKeySequence(tr("Ctrl+Tab")), tr("Choose the next region")), [this] {
        if (regions_.rowCount() == 0) return;
        view_->select(regions_.row((regions_.row_of(view_->selected()) + 1) % regions_.rowCount())->id);
      });
  QAction* find = on(action(tr("Find specimens again"), QKeySequence(tr("Ctrl+F")),
                            tr("Drop the drawn regions and look in each opening")),
                     [this] { find_regions_again(document_); });
  QAction* corners = action(tr("Place sheet by its corners"), QKeySequence(tr("F8")),
                            tr("Show the sheet's four corners and drag them where they belong"));
  corners->setCheckable(true);
  connect(corners, &QAction::toggled, view_, &PhotoView::set_corner_handles);
  QAction* by_markers =
      on(action(tr("Place sheet by its markers"), QKeySequence(tr("Shift+F8")),
                tr("Forget corners placed by hand")),
         [this] {
           if (!document_.setup().corners) return;
           PhotoSetup setup = document_.setup();
           setup.corners.reset();
           document_.undo_stack().push(new SetupCommand(document_, tr("Place sheet by its markers"), setup));
         });
  QList<QAction*> all = tool_actions_;
  all << nullptr << duplicate << remove << rename << next << find << nullptr << corners << by_markers;
  groups_.push_back({tr("Region"), all});
}

void PhotoPage::make_view_actions() {
  const std::pair<PhotoRendering, std::array<QString, 3>> renderings[] = {
      {PhotoRendering::as_taken, {tr("As taken"), tr("Ctrl+1"), tr("The photo as the camera developed it")}},
      {PhotoRendering::calibrated,
       {tr("Calibrated"), tr("Ctrl+2"), tr("Every pixel through the calibration, under one white")}},
      {PhotoRendering::difference,
       {tr("Difference from the reading"), tr("Ctrl+3"),
        tr("How far each pixel is from the chosen reading, in ΔE00")}}};
  auto* exclusive = new QActionGroup(this);
  for (const auto& [rendering, words] : renderings) {
    QAction* made = action(words[0], QKeySequence(words[1]), words[2]);
    made->setCheckable(true);
    made->setChecked(rendering == PhotoRendering::as_taken);
    exclusive->addAction(made);
    connect(made, &QAction::triggered, this, [this, wanted = rendering] { view_->set_rendering(wanted); });
    rendering_actions_.push_back(made);
  }
  const std::pair<bool PhotoLayers::*, std::array<QString, 2>> layers[] = {
      {&PhotoLayers::sheet, {tr("Outline of the sheet"), tr("Alt+1")}},
      {&PhotoLayers::patches, {tr("Patches, used and dropped"), tr("Alt+2")}},
      {&PhotoLayers::opening, {tr("Opening"), tr("Alt+3")}},
      {&PhotoLayers::regions, {tr("Regions"), tr("Alt+4")}},
      {&PhotoLayers::paper, {tr("Samples of bare paper"), tr("Alt+5")}}};
  for (const auto& [layer, words] : layers) {
    QAction* made = action(words[0], QKeySequence(words[1]), tr("Show or hide: %1").arg(words[0]));
    made->setCheckable(true);
    made->setChecked(PhotoLayers().*layer);
    connect(made, &QAction::toggled, this, [this, place = layer](bool shown) {
      PhotoLayers changed = view_->layers();
      changed.*place = shown;
      view_->set_layers(changed);
    });
    layer_actions_.push_back(made);
  }
  const auto on = [this](QAction* made, auto what) {
    connect(made, &QAction::triggered, this, what);
    return made;
  };
  QAction* fit = on(action(tr("Whole photo"), QKeySequence(tr("Ctrl+0")), tr("Fit the photo into the view")),
                    [this] { view_->fit(); });
  QAction* pixels = on(
      action(tr("Pixel for pixel"), QKeySequence(tr("Ctrl+9")), tr("One photo pixel for one of the screen")),
      [this] { view_->zoom_to_pixels(); });
  QAction* closer =
      on(action(tr("Closer"), QKeySequence::ZoomIn, tr("Enlarge")), [this] { view_->zoom_by(1.4); });
  QAction* farther = on(action(tr("Farther"), QKeySequence::ZoomOut, tr("Make smaller")),
                        [this] { view_->zoom_by(1 / 1.4); });
  QAction* left =
      on(action(tr("Turn left"), QKeySequence(tr("Ctrl+L")), tr("Turn the view a quarter to the left")),
         [this] { view_->rotate_by(-90); });
  QAction* right = on(
      action(tr("Turn right"), QKeySequence(tr("Ctrl+Shift+L")), tr("Turn the view a quarter to the right")),
      [this] { view_->rotate_by(90); });
  QAction* tilt = on(action(tr("Turn by 5°"), QKeySequence(tr("Ctrl+Alt+L")), tr("Turn the view a little")),
                     [this] { view_->rotate_by(5); });
  QAction* others = on(action(tr("Show other readings in the diagram …"), QKeySequence(tr("Ctrl+B")),
                              tr("Lay readings from record files over the diagram")),
                       [this] { overlay_other_records(); });
  QAction* names = action(tr("Names in the diagram"), QKeySequence(tr("Ctrl+Shift+B")),
                          tr("Show the regions of the names"));
  names->setCheckable(true);
  names->setChecked(true);
  connect(names, &QAction::toggled, plane_, &ColorPlane::set_show_names);
  bar_actions_ = {fit, pixels, closer, farther, left, right};
  QList<QAction*> all = rendering_actions_;
  all << nullptr << layer_actions_ << nullptr << fit << pixels << closer << farther << left << right << tilt
      << nullptr << others << names;
  groups_.push_back({tr("View"), all});
}

QWidget* PhotoPage::view_bar() {
  auto* bar = new QWidget;
  auto* row = new WrappingRow(bar);
  row->setContentsMargins(4, 2, 4, 2);
  row->setSpacing(4);
  const auto menu_button = [&](const QString& text, const QList<QAction*>& actions) {
    auto* button = new QToolButton;
    button->setText(text);
    button->setAccessibleName(text);
    button->setPopupMode(QToolButton::InstantPopup);
    auto* menu = new QMenu(button);
    menu->setAccessibleName(text);
    menu->addActions(actions);
    button->setMenu(menu);
    row->addWidget(button);
  };
  const auto buttons = [&](const QList<QAction*>& actions) {
    for (QAction* each : actions) {
      auto* button = new QToolButton;
      button->setDefaultAction(each);
      button->setAccessibleName(each->text());
      row->addWidget(button);
    }
  };
  buttons(tool_actions_);
  kind_ = new QComboBox;
  kind_->setAccessibleName(tr("Kind of the region"));
  for (const RegionKind kind : region_kinds()) kind_->addItem(kind_word(kind), static_cast<int>(kind));
  connect(kind_, &QComboBox::activated, this, [this] {
    const auto kind = static_cast<RegionKind>(kind_->currentData().toInt());
    view_->set_kind(kind);
    if (view_->tool() == DrawingTool::look) set_region_kind(document_, view_->selected(), kind);
  });
  row->addWidget(kind_);
  row->add_stretch();
  menu_button(tr("Picture"), rendering_actions_);
  menu_button(tr("Layers"), layer_actions_);
  menu_button(tr("Zoom and turn"), bar_actions_);
  return bar;
}

QWidget* PhotoPage::side_column() {
  auto* column = new QWidget;
  auto* stack = new QVBoxLayout(column);
  stack->setContentsMargins(4, 4, 4, 4);
  region_table_ = new QTableView;
  region_table_->setIconSize(QSize(24, 22));
  region_table_->setModel(&regions_);
  region_table_->setAccessibleName(tr("Regions and their colours"));
  region_table_->setSelectionBehavior(QAbstractItemView::SelectRows);
  region_table_->setSelectionMode(QAbstractItemView::SingleSelection);
  region_table_->setEditTriggers(QAbstractItemView::DoubleClicked | QAbstractItemView::EditKeyPressed);
  region_table_->verticalHeader()->hide();
  // The colour's words and figures are what was asked for: the kind, then the region's name give way.
  new ColumnWidths(*region_table_, RegionModel::name,
                   {RegionModel::kind, RegionModel::id, RegionModel::name});
  region_table_->horizontalHeader()->setHighlightSections(false);  // bold would take room from the words
  region_table_->setWordWrap(false);
  region_table_->setTabKeyNavigation(false);
  region_table_->setMaximumHeight(124);
  connect(region_table_->selectionModel(), &QItemSelectionModel::currentRowChanged, this,
          [this](const QModelIndex& now) {
            const RegionRow* row = regions_.row(now.row());
            if (row != nullptr && row->id != view_->selected()) view_->select(row->id);
          });
  stack->addWidget(region_table_);
  tabs_ = new QTabWidget;
  tabs_->setAccessibleName(tr("About the reading and the photo"));
  tabs_->setUsesScrollButtons(false);  // every tab stays in sight, if need be with fewer letters
  tabs_->setElideMode(Qt::ElideRight);
  const auto scrolled = [](QWidget* inner) {
    auto* area = new QScrollArea;
    area->setWidgetResizable(true);
    area->setFrameShape(QFrame::NoFrame);
    area->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    area->setAccessibleName(inner->accessibleName());
    auto* holder = new QWidget;
    auto* layout = new QVBoxLayout(holder);
    layout->setContentsMargins(6, 6, 6, 6);
    layout->addWidget(inner);
    layout->addStretch(1);
    area->setWidget(holder);
    return area;
  };
  auto* checks = new QTableView;
  checks->setModel(&checks_);
  checks->setAccessibleName(tr("Checks of the photo"));
  checks->verticalHeader()->hide();
  checks->setWordWrap(true);
  checks->setTabKeyNavigation(false);
  checks->setSelectionMode(QAbstractItemView::NoSelection);
  checks->horizontalHeader()->setSectionResizeMode(QHeaderView::Stretch);
  checks->horizontalHeader()->setSectionResizeMode(CheckModel::what, QHeaderView::ResizeToContents);
  checks->verticalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
  tabs_->addTab(scrolled(reading_), tr("Reading"));
  tabs_->addTab(plane_, tr("Diagram"));
  tabs_->addTab(checks, tr("Checks"));
  tabs_->addTab(scrolled(new SetupPanel(document_)), tr("About this photo"));
  for (int i = 0; i < tabs_->count(); ++i) tabs_->setTabToolTip(i, tabs_->tabText(i));
  stack->addWidget(tabs_, 1);
  caution_ = caution_label({caution_safety});
  QFont small = caution_->font();
  small.setPointSizeF(small.pointSizeF() * 0.9);
  caution_->setFont(small);
  stack->addWidget(caution_);
  return column;
}

void PhotoPage::lay_out() {
  auto* left = new QWidget;
  auto* column = new QVBoxLayout(left);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(0);
  column->addWidget(view_bar());
  column->addWidget(view_, 1);
  scale_note_ = new DifferenceScale(*view_);
  scale_note_->hide();
  connect(view_, &PhotoView::view_changed, this,
          [this] { scale_note_->setVisible(view_->rendering() == PhotoRendering::difference); });
  column->addWidget(scale_note_);
  column->addWidget(magnifier_);
  auto* across = new QSplitter(Qt::Horizontal);
  across->setAccessibleName(tr("Photo and reading"));
  across->addWidget(left);
  across->addWidget(side_column());
  across->setStretchFactor(0, 1);  // a narrower window takes its width from the photo
  across->setStretchFactor(1, 0);
  across->setSizes({800, 440});
  issue_table_ = new QTableView;
  issue_table_->setModel(&issues_);
  issue_table_->setAccessibleName(tr("Issues; Enter jumps to the place"));
  issue_table_->verticalHeader()->hide();
  issue_table_->setSelectionBehavior(QAbstractItemView::SelectRows);
  issue_table_->setTabKeyNavigation(false);
  issue_table_->horizontalHeader()->setSectionResizeMode(IssueModel::weight, QHeaderView::ResizeToContents);
  issue_table_->horizontalHeader()->setSectionResizeMode(IssueModel::message, QHeaderView::Stretch);
  issue_table_->horizontalHeader()->setSectionResizeMode(IssueModel::advice, QHeaderView::Stretch);
  connect(issue_table_, &QTableView::activated, this,
          [this](const QModelIndex& at) { jump_to_issue(at.row()); });
  connect(issue_table_, &QTableView::clicked, this,
          [this](const QModelIndex& at) { jump_to_issue(at.row()); });
  auto* down = new QSplitter(Qt::Vertical);
  down->setAccessibleName(tr("Photo and issues"));
  down->addWidget(across);
  down->addWidget(issue_table_);
  down->setStretchFactor(0, 1);
  down->setSizes({560, 92});
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(0, 0, 0, 0);
  whole->addWidget(down);
}

}  // namespace tintfall::viewer
