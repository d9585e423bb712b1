#include <QCloseEvent>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QLabel>
#include <QMenuBar>
#include <QProgressBar>
#include <QStackedWidget>
#include <QToolButton>
#include <QVBoxLayout>
#include <utility>
#include <viewer/models/sentence_words.hpp>
#include <viewer/tasks/error_words.hpp>
#include <viewer/window/catalogue_page.hpp>
#include <viewer/window/compare_page.hpp>
#include <viewer/window/elided_label.hpp>
#include <viewer/window/guide_page.hpp>
#include <viewer/window/main_window.hpp>
#include <viewer/window/photo_page.hpp>
#include <viewer/window/series_page.hpp>
#include <viewer/window/settings_page.hpp>
#include <viewer/window/shortcut_page.hpp>
#include <viewer/window/tab_order.hpp>
#include <viewer/window/unsaved_work.hpp>

namespace tintfall::viewer {

MainWindow::MainWindow() : screen_lane_(QStringLiteral("screen")) {
  setWindowTitle(QStringLiteral("Tintfall"));
  resize(1280, 720);
  auto* centre = new QWidget;
  auto* column = new QVBoxLayout(centre);
  column->setContentsMargins(6, 4, 6, 6);
  column->setSpacing(4);
  page_row_ = new QWidget;
  auto* row = new QHBoxLayout(page_row_);
  row->setContentsMargins(0, 0, 0, 0);
  row->addStretch(1);
  stage_ = new ElidedLabel;
  stage_->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
  stage_->setAccessibleName(tr("What runs in the background"));
  progress_ = new QProgressBar;
  progress_->setRange(0, 100);
  progress_->setTextVisible(false);
  progress_->setMinimumWidth(60);
  progress_->setMaximumWidth(140);
  progress_->setAccessibleName(tr("Progress"));
  stop_ = new QToolButton;
  stop_->setText(tr("Stop"));
  stop_->setToolTip(tr("Stop working (Ctrl+.)"));
  stop_->setAccessibleName(tr("Stop working"));
  for (QWidget* part :
       {static_cast<QWidget*>(stage_), static_cast<QWidget*>(progress_), static_cast<QWidget*>(stop_)}) {
    row->addWidget(part);
    part->hide();
  }
  pages_ = new QStackedWidget;
  pages_->setAccessibleName(tr("Pages"));
  column->addWidget(page_row_);
  column->addWidget(pages_, 1);
  setCentralWidget(centre);

  page_actions_.title = tr("Pages");
  photo_ = new PhotoPage;
  series_ = new SeriesPage(photo_->document());
  compare_ = new ComparePage;
  catalogue_ = new CataloguePage(*photo_);
  guide_ = new GuidePage;
  auto* settings = new SettingsPage;
  auto* shortcuts = new ShortcutPage;
  add_page(photo_, QStringLiteral("photo"), tr("One photo"), tr("Ctrl+Alt+1"));
  add_page(series_, QStringLiteral("reaction"), tr("Reaction"), tr("Ctrl+Alt+2"));
  add_page(compare_, QStringLiteral("compare"), tr("Side by side"), tr("Ctrl+Alt+3"));
  add_page(catalogue_, QStringLiteral("catalogue"), tr("Catalogue"), tr("Ctrl+Alt+4"));
  add_page(guide_, QStringLiteral("guide"), tr("Guide"), tr("F1"));
  add_page(settings, QStringLiteral("settings"), tr("Settings"), tr("Ctrl+,"));
  add_page(shortcuts, QStringLiteral("keys"), tr("Keys"), tr("Ctrl+/"));
  // Page buttons first, then the page: the stack of pages comes after them in the column.
  set_tab_order(in_reading_order(*centre));
  name_inner_parts(*centre);
  make_menus();
  shortcuts->set_groups(action_groups());

  PhotoDocument& document = photo_->document();
  connect(&document, &PhotoDocument::progressed, this, &MainWindow::show_progress);
  connect(&document, &PhotoDocument::busy_changed, this, [this](bool busy) {
    document_busy_ = busy;
    show_busy();
  });
  connect(stop_, &QToolButton::clicked, &document, &PhotoDocument::stop);
  std::vector<TaskLane*> slow = catalogue_->slow_lanes();
  slow.push_back(&series_->lane());
  for (TaskLane* lane : slow) {
    connect(lane, &TaskLane::progressed, this, &MainWindow::show_progress);
    connect(lane, &TaskLane::began, this, &MainWindow::show_busy);
    connect(lane, &TaskLane::ended, this, &MainWindow::show_busy);
  }
  connect(stop_, &QToolButton::clicked, catalogue_, &CataloguePage::stop);
  connect(stop_, &QToolButton::clicked, series_, &SeriesPage::stop);
  connect(&document, &PhotoDocument::photo_changed, this, &MainWindow::renew_title);
  connect(&document, &PhotoDocument::unsaved_changed, this, &MainWindow::renew_title);
  connect(photo_, &PhotoPage::opened, this, [this](const QString& file) {
    session_.remember(file);
    session_.open_file.set(file);
    show_page(QStringLiteral("photo"));
  });
  connect(&document, &PhotoDocument::saved, this, [this](const QString& file) {
    session_.remember(file);
    session_.open_file.set(file);
  });
  connect(guide_, &GuidePage::photo_wanted, this, [this] {
    show_page(QStringLiteral("photo"));
    photo_->action_groups().front().actions.front()->trigger();
  });
  connect(catalogue_, &CataloguePage::compare_asked, this, [this](const std::vector<NamedRecord>& records) {
    compare_->add_records(records);
    show_page(QStringLiteral("compare"));
  });
  connect(settings, &SettingsPage::screen_changed, this, &MainWindow::load_screen);
  restoreGeometry(session_.geometry.get());
  show_page(session_.guide_seen.get() ? QStringLiteral("photo") : QStringLiteral("guide"));
  session_.guide_seen.set(true);
  load_screen();
}

void MainWindow::add_page(QWidget* page, const QString& name, const QString& title, const QString& shortcut) {
  page->setObjectName(name);
  pages_->addWidget(page);
  auto* go = new QAction(title, this);
  go->setShortcut(QKeySequence(shortcut));
  go->setCheckable(true);
  go->setToolTip(
      QStringLiteral("%1 (%2)").arg(title, QKeySequence(shortcut).toString(QKeySequence::NativeText)));
  connect(go, &QAction::triggered, this, [this, name] { show_page(name); });
  connect(pages_, &QStackedWidget::currentChanged, go,
          [this, go, page] { go->setChecked(pages_->currentWidget() == page); });
  page_actions_.actions.push_back(go);
  auto* button = new QToolButton;
  button->setDefaultAction(go);
  button->setAccessibleName(tr("Page: %1").arg(title));
  const auto set_bold = [button](bool current) {
    QFont font = button->font();
    font.setBold(current);
    button->setFont(font);
  };
  set_bold(true);
  button->setMinimumWidth(
      button->sizeHint().width());  // the width of the page on show, so that no button moves
  set_bold(false);
  connect(go, &QAction::toggled, button, set_bold);
  auto* row = static_cast<QHBoxLayout*>(page_row_->layout());
  row->insertWidget(static_cast<int>(page_actions_.actions.size()) - 1, button);
}

void MainWindow::show_page(const QString& name) {
  for (int i = 0; i < pages_->count(); ++i)
    if (pages_->widget(i)->objectName() == name) {
      pages_->setCurrentIndex(i);
      page_actions_.actions[i]->setChecked(true);
    }
}

std::vector<ActionGroup> MainWindow::action_groups() const {
  std::vector<ActionGroup> groups = photo_->action_groups();
  groups.push_back(series_->action_group());
  groups.push_back(compare_->action_group());
  groups.push_back(catalogue_->action_group());
  groups.push_back(page_actions_);
  return groups;
}

void MainWindow::make_menus() {
  for (const ActionGroup& group : action_groups()) {
    QMenu* menu = menuBar()->addMenu(group.title);
    menu->setAccessibleName(group.title);
    for (QAction* each : group.actions) each == nullptr ? void(menu->addSeparator()) : menu->addAction(each);
    if (menuBar()->actions().size() != 1) continue;
    QMenu* recent = menu->addMenu(tr("Recent"));
    recent->setAccessibleName(tr("Recent files"));
    connect(recent, &QMenu::aboutToShow, this, [this, recent] { show_recent(recent); });
    menu->addSeparator();
    auto* quit = new QAction(tr("Quit"), this);
    quit->setShortcut(QKeySequence(tr("Ctrl+Q")));
    connect(quit, &QAction::triggered, this, &QWidget::close);
    menu->addAction(quit);
    page_actions_.actions.push_back(quit);
  }
  menuBar()->setAccessibleName(tr("Menus"));
}

void MainWindow::show_recent(QMenu* menu) {
  menu->clear();
  for (const QString& file : session_.recent.get())
    connect(menu->addAction(QFileInfo(file).fileName()), &QAction::triggered, this,
            [this, file] { open(file); });
  if (menu->isEmpty()) menu->addAction(tr("none yet"))->setEnabled(false);
}

void MainWindow::open(const QString& file) {
  photo_->open(file);
  show_page(QStringLiteral("photo"));
}

void MainWindow::restore_session() {
  const QStringList abandoned = Recovery::abandoned(Recovery::default_folder());
  if (!abandoned.isEmpty()) {
    photo_->document().open_work(abandoned.front(), true);  // its file stays until the work is saved
    show_page(QStringLiteral("photo"));
    return;
  }
  const QString last = session_.open_file.get();
  if (!last.isEmpty() && QFileInfo::exists(last)) open(last);
}

void MainWindow::show_progress(double fraction, const QString& stage) {
  progress_->setValue(static_cast<int>(100 * fraction));
  stage_->setText(sentence_words(stage));
}

void MainWindow::show_busy() {
  const bool busy = document_busy_ || catalogue_->slow_work() || series_->lane().busy();
  for (QWidget* part :
       {static_cast<QWidget*>(stage_), static_cast<QWidget*>(progress_), static_cast<QWidget*>(stop_)})
    part->setVisible(busy);
  if (!busy) progress_->setValue(0);
}

void MainWindow::load_screen() {
  screen_lane_.start(
      [file = preferences_.screen_profile.get()](colorlib::Progress&) { return screen_from(file); },
      [this](colorlib::Result<Screen> screen) {
        if (screen) {
          photo_->set_screen(*screen);
          series_->set_screen(*screen);
          catalogue_->set_screen(*screen);
          return compare_->set_screen(*screen);
        }
        photo_->document().add_issue({IssueWeight::problem,
                                      QStringLiteral("screen"),
                                      message_words(screen.error()),
                                      advice_words(screen.error()),
                                      {},
                                      {},
                                      1});
        preferences_.screen_profile.set({});
        load_screen();
      });
}

void MainWindow::renew_title() {
  const QString title = photo_->document().title();
  setWindowTitle(title.isEmpty() ? QStringLiteral("Tintfall")
                                 : QStringLiteral("%1[*] – Tintfall").arg(title));
  setWindowModified(photo_->document().has_unsaved_work());
}

void MainWindow::closeEvent(QCloseEvent* event) {
  if (!may_close_) {
    const auto at_once = std::make_shared<bool>(true);
    photo_->unsaved_work().settle([this, at_once] {
      may_close_ = true;
      photo_->recovery().discard();
      if (!*at_once) close();  // the work had to be written first
    });
    *at_once = false;
  }
  event->setAccepted(std::exchange(may_close_, false));
  if (!event->isAccepted()) return;
  session_.geometry.set(saveGeometry());
  photo_->document().stop();
}

}  // namespace tintfall::viewer
