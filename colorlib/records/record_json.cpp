#include <colorlib/records/record_json.hpp>
