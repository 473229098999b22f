// Answers with all their arrays and no rows, for who lists what answers hold.
#pragma once

#include "wingnose/quantity/tree.hpp"

#include <vector>

namespace wingnose::study {

[[nodiscard]] std::vector<quantity::Tree> empty_answers(); // one of every kind

} // namespace wingnose::study
