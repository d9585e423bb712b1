#pragma once
/// How deep JSON text nests, known before it is parsed.

#include <string_view>

namespace colorlib {

/// The most lists and objects that are open at once, counted on brackets outside quotes. One pass, no
/// recursion. For any text: what is no JSON gives some number. Asked before parsing, because the parser's own
/// callback, which could count as well, walks all brothers of an object at its end: a file of a million empty
/// objects would take hours.
int json_nesting(std::string_view text);

}  // namespace colorlib
