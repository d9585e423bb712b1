#include <colorlib/chart/chart_drawing.hpp>
