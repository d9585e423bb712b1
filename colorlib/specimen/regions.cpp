#include <colorlib/specimen/regions.hpp>
