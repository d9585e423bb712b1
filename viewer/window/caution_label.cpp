#include <QCoreApplication>
#include <QLabel>
#include <QStringList>
#include <string>
#include <viewer/window/caution_label.hpp>

namespace tintfall::viewer {

QLabel* caution_label(std::initializer_list<std::string_view> sentences) {
  auto* label = new QLabel;
  label->setWordWrap(true);
  label->setAccessibleName(QCoreApplication::translate("Cautions", "Caution"));
  set_cautions(*label, sentences);
  return label;
}

void set_cautions(QLabel& label, std::initializer_list<std::string_view> sentences) {
  QStringList words;
  for (const std::string_view sentence : sentences)
    words.push_back(QCoreApplication::translate("colorlib", std::string(sentence).c_str()));
  label.setText(words.join(QLatin1Char(' ')));
}

}  // namespace tintfall::viewer
