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

/// What a reading rests on, as far as the advice depends on it.
struct ReadingGrounds {
  bool sheet_measured = true;  ///< else what the sheet's colours are is only hoped for: measuring goes first
  bool light_known = true;     ///< what kind it was: the user said so, or a raw file tells
};

/// The parts of the error budget as bars, the longest three each with what would shorten it.
class BudgetBars : public QWidget {
  Q_OBJECT
 public:
  explicit BudgetBars(QWidget* parent = nullptr);
  void set_bars(std::vector<BudgetBar> bars, const ReadingGrounds& grounds);
  QSize sizeHint() const override;
  bool hasHeightForWidth() const override { return true; }
  int heightForWidth(int width) const override;

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  QFont small_font() const;
  /// What shortens bar `index`; empty: nothing is said.
  QString advice(std::size_t index) const;
  int row_height(std::size_t index, int width) const;

  std::vector<BudgetBar> bars_;
  ReadingGrounds grounds_;
};

/// The name of a budget part for people, and what makes it smaller.
QString budget_part_word(const QString& part);
QString budget_part_cure(const QString& part, const ReadingGrounds& grounds);

class ReadingPanel : public QWidget {
  Q_OBJECT
 public:
  explicit ReadingPanel(QWidget* parent = nullptr);
  void set_reading(const ShownReading* reading, const ReadingGrounds& grounds = {});
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
