#pragma once
/// The address of a server, made fit for the library between us and libpq, and why a server lets nobody in.

#include <colorlib/base/result.hpp>
#include <string>
#include <string_view>

namespace colorlib {

/// `address` is what libpq takes: a URI, or words such as "host=x dbname=y". SOCI cuts such a text at its
/// spaces, and at the end of what has no '=' it adds one; the result means the same and holds no space, each
/// value percent-encoded behind a '='. Errors: bad_call: libpq cannot read it, or it holds a password.
Result<std::string> server_uri(std::string_view address);

/// Tries the connection that failed once more, and says what libpq and the server say of it. Never a
/// password.
Error why_not_connected(std::string_view doing, const std::string& uri);

}  // namespace colorlib
