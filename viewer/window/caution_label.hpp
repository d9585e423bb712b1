#pragma once
/// The caution at the foot of every page that shows colours.

#include <initializer_list>
#include <string_view>

class QLabel;

namespace tintfall::viewer {

/// Sentences of colorlib/base/cautions.hpp in the user's language, one behind the other.
QLabel* caution_label(std::initializer_list<std::string_view> sentences);
void set_cautions(QLabel& label, std::initializer_list<std::string_view> sentences);

}  // namespace tintfall::viewer
