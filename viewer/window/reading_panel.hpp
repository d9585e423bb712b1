#pragma once
/// Everything about one reading: the colour, the words, the numbers, what they rest on.

#include <QWidget>
#include <viewer/tasks/shown_reading.hpp>

class QLabel;

namespace tintfall::viewer {

/// A swatch large enough to judge, on neutral grey.
class SwatchField : public QWidget {
  Q_OBJECT
 public:
  explicit SwatchField(QWidget* parent = nullptr);
  void set_swatch(const ScreenSwatch* swatch);
  void set_low() { setMinimumHeight(56); }
  QSize sizeHint() const override { return {160, 110}; }

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  bool shown_ = false;
  ScreenSwatch swatch_;
};

/// The parts of the error budget as bars, each with what would shorten it.
class BudgetBars : public QWidget {
  Q_OBJECT
 public:
  explicit BudgetBars(QWidget* parent = nullptr);
  void set_bars(std::vector<BudgetBar> bars, bool sheet_measured);
  QSize sizeHint() const override;

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  std::vector<BudgetBar> bars_;
  bool sheet_measured_ = true;
};

/// The name of a budget part for people, and what makes it smaller.
QString budget_part_word(const QString& part);
QString budget_part_cure(const QString& part, bool sheet_measured);

class ReadingPanel : public QWidget {
  Q_OBJECT
 public:
  explicit ReadingPanel(QWidget* parent = nullptr);
  /// `sheet_measured`: else what the sheet's colours are is only hoped for, and measuring it comes before any
  /// other advice.
  void set_reading(const ShownReading* reading, bool sheet_measured = true);
  /// The texts on show, for tests: "L* 42.4 ± 0.8   a* ...".
  QString lab_text() const;
  QString name_text() const;
  QString layer_text() const;

 private:
  void show_layer(const ShownLayer& layer);

  SwatchField* swatch_;
  SwatchField* layer_swatch_;
  QLabel* layer_;
  QLabel *name_, *alternatives_, *lab_, *facts_, *flags_, *budget_title_;
  BudgetBars* bars_;
};

}  // namespace tintfall::viewer
