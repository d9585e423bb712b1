#pragma once
/// The same with the JSON library, for the .cpp files that build objects.

#include <colorlib/records/json_layout.hpp>
#include <nlohmann/json.hpp>
