#include <colorlib/specimen/reading.hpp>
