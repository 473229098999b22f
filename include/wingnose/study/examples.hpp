// What the program reads and what it answers, for who lists it.
#pragma once

#include "wingnose/case/key.hpp"
#include "wingnose/quantity/tree.hpp"

#include <vector>

namespace wingnose::study {

[[nodiscard]] std::vector<cases::KeysOf> files_read();     // keys of every kind of file people write
[[nodiscard]] std::vector<quantity::Tree> empty_answers(); // one of every kind, all its arrays without rows

} // namespace wingnose::study
