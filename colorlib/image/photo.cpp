#include <colorlib/image/photo.hpp>
