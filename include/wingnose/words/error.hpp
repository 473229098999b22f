// The two ways a wingnose function refuses to answer. Both carry one sentence a user can act on.
// InputError: what was given cannot be right (command line exit code 2).
// ComputeError: the input is plausible, but no trustworthy number could be computed (exit code 1).
#pragma once

#include "wingnose/words/number.hpp"

#include <stdexcept>
#include <string>
#include <string_view>

namespace wingnose {

class InputError : public std::runtime_error {
public:
  using std::runtime_error::runtime_error;

  // where: file and key or line; value: as the user wrote it; allowed: the admissible range; advice: what to do.
  InputError(std::string_view where, std::string_view value, std::string_view allowed, std::string_view advice)
      : std::runtime_error(std::string(where) + ": " + std::string(value) +
                           " is not allowed; allowed: " + std::string(allowed) + ". " + std::string(advice)) {}
};

// work(); where an InputError of it was met is told before what it says.
template <class Work> auto with_place(const std::string& where, Work work) {
  try {
    return work();
  } catch (const InputError& error) {
    throw InputError(where + ": " + error.what());
  }
}

class ComputeError : public std::runtime_error {
public:
  using std::runtime_error::runtime_error;
};

} // namespace wingnose
