// Parts that several commands print.
#pragma once

#include "print.hpp"

#include "wingnose/io/case_file.hpp"
#include "wingnose/study/case.hpp"
#include "wingnose/words/error.hpp"

#include <iosfwd>
#include <string>
#include <vector>

namespace wingnose::cli {

// Reads the case and calls `work` with it; an InputError that only comes up in the computation is told with the name of
// the case file, as those of the reader are.
template <class Work> void with_case(const std::filesystem::path& file, Work work) {
  const study::Case c = io::read_case(file);
  try {
    work(c);
  } catch (const InputError& error) {
    throw InputError(file.generic_string() + ": " + error.what());
  } catch (const ComputeError& error) {
    throw ComputeError(file.generic_string() + ": " + error.what());
  }
}

void print_heading(std::ostream& out, const study::Case& c);
void print_geometry(std::ostream& out, const study::Geometry& geometry);
void print_estimates(std::ostream& out, const std::vector<study::Estimate>& estimates);

} // namespace wingnose::cli
