#include <colorlib/chart/reference_values.hpp>
