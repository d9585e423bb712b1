#include <colorlib/naming/namer.hpp>
