#include <colorlib/chart/patch_sampler.hpp>
