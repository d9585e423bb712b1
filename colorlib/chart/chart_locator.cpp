#include <colorlib/chart/chart_locator.hpp>
