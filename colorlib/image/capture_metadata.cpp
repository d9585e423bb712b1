#include <colorlib/image/capture_metadata.hpp>
