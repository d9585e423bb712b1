#include <colorlib/chart/chart_definition.hpp>
