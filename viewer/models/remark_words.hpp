#pragma once
/// What a comparison remarks on the records, why it left one out, and what a fit remarks on its frames, in
/// the user's language.

#include <QString>

namespace tintfall::viewer {

/// As colorlib composed it where there is no translation.
QString remark_words(const QString& remark);

}  // namespace tintfall::viewer
