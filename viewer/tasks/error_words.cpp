#include <QCoreApplication>
#include <viewer/tasks/error_words.hpp>

namespace tintfall::viewer {

using colorlib::Error;
using colorlib::ErrorCode;

namespace {

/// The code's meaning in the user's language; empty in English, where the library's sentence says more.
QString translated_meaning(ErrorCode code) {
  const char* meaning = meaning_of(code);
  const QString words = QCoreApplication::translate("Errors", meaning);
  return words == QLatin1String(meaning) ? QString() : words;
}

}  // namespace

const char* meaning_of(ErrorCode code) {
  switch (code) {
    case ErrorCode::bad_call:
      return QT_TRANSLATE_NOOP("Errors", "What was asked for cannot be meant.");
    case ErrorCode::unreadable_photo:
      return QT_TRANSLATE_NOOP("Errors", "The photo is missing, empty, cut short, damaged or too large.");
    case ErrorCode::unsupported_photo:
      return QT_TRANSLATE_NOOP("Errors", "The file is of a kind that cannot serve as a photo.");
    case ErrorCode::unreadable_chart:
      return QT_TRANSLATE_NOOP("Errors", "The definition of the sheet is missing or wrong.");
    case ErrorCode::unreadable_reference:
      return QT_TRANSLATE_NOOP("Errors",
                               "The values of the sheet are missing or wrong, or they are of another sheet.");
    case ErrorCode::unreadable_regions:
      return QT_TRANSLATE_NOOP(
          "Errors", "The regions are missing or wrong, or one lies off the sheet or off the photo.");
    case ErrorCode::unreadable_record:
      return QT_TRANSLATE_NOOP("Errors", "A record is missing or wrong.");
    case ErrorCode::unreadable_catalogue:
      return QT_TRANSLATE_NOOP("Errors",
                               "The catalogue is missing, damaged, none at all or of a newer version, or its "
                               "server does not answer.");
    case ErrorCode::unreadable_table:
      return QT_TRANSLATE_NOOP("Errors", "A table is missing or wrong.");
    case ErrorCode::chart_not_found:
      return QT_TRANSLATE_NOOP("Errors", "No sheet was found in the photo, or not enough of it.");
    case ErrorCode::untrustworthy:
      return QT_TRANSLATE_NOOP("Errors", "No honest number can be given here.");
    case ErrorCode::cannot_write:
      return QT_TRANSLATE_NOOP("Errors", "It could not be written; what was there before is unchanged.");
    case ErrorCode::cancelled:
      return QT_TRANSLATE_NOOP("Errors", "The work was stopped before its end.");
  }
  return "";
}

QString message_words(const Error& error) {
  const QString sentence = QString::fromStdString(error.message);
  const QString whole = QCoreApplication::translate("colorlib", error.message.c_str());
  const QString meaning = translated_meaning(error.code);
  if (whole != sentence || meaning.isEmpty()) return whole;
  return QCoreApplication::translate("Errors", "%1 In detail: %2").arg(meaning, sentence);
}

QString advice_words(const Error& error) {
  return QCoreApplication::translate("colorlib", error.advice.c_str());
}

QString error_words(const Error& error) {
  return QStringLiteral("%1 %2").arg(message_words(error), advice_words(error)).trimmed();
}

QString short_error_words(const Error& error) {
  const QString sentence = QString::fromStdString(error.message);
  const QString whole = QCoreApplication::translate("colorlib", error.message.c_str());
  const QString meaning = translated_meaning(error.code);
  return whole != sentence || meaning.isEmpty() ? whole : meaning;
}

}  // namespace tintfall::viewer
