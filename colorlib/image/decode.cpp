#include <colorlib/image/decode.hpp>
