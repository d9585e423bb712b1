#pragma once
/// Errors of colorlib in the user's language. colorlib composes its sentences in English; in another language
/// the window says first what the error's code means, then the sentence as the detail.

#include <QString>
#include <colorlib/base/result.hpp>

namespace tintfall::viewer {

/// What the code means, in English, as it stands in the translation: one sentence.
const char* meaning_of(colorlib::ErrorCode code);

/// What happened, without the advice, for lists that show it beside. A sentence that the translation knows as
/// a whole (translations/error_sentences.hpp) stands alone; so does every sentence in English.
QString message_words(const colorlib::Error& error);
/// What to do, translated where the translation knows the sentence.
QString advice_words(const colorlib::Error& error);
/// Both, for a line of text.
QString error_words(const colorlib::Error& error);
/// The same without the detail, where there is little room.
QString short_error_words(const colorlib::Error& error);

}  // namespace tintfall::viewer
