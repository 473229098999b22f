// What every target has: one function that takes bytes and may only end, or refuse with one of our two errors.
// libFuzzer calls it where the compiler has it, otherwise our own program (mutate.cpp).
#pragma once

#include "wingnose/words/error.hpp"

#include <cstddef>
#include <cstdint>
#include <string>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace fuzz {

// What the last input was answered with; answers not heard before make an input worth keeping.
inline std::string& answer() {
  static std::string text;
  return text;
}

// Anything else that is thrown, and whatever a sanitizer finds, is a fault. So is a message nobody can read.
template <class Work> void expect_answer(const Work& work) {
  try {
    work();
    answer() = "done";
  } catch (const wingnose::InputError& error) {
    answer() = error.what();
  } catch (const wingnose::ComputeError& error) {
    answer() = error.what();
  }
  if (answer().empty()) {
    __builtin_trap();
  }
}

} // namespace fuzz
