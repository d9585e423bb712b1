#include <colorlib/specimen/photo_reading.hpp>
