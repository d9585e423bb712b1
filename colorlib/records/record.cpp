#include <colorlib/records/record.hpp>
