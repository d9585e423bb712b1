#include <colorlib/chart/placement.hpp>
