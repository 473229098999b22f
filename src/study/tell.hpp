// Parts that many answers have in common.
#pragma once

#include "wingnose/quantity/tree.hpp"
#include "wingnose/study/run.hpp"

#include <span>
#include <string>
#include <vector>

namespace wingnose::study {

// What the case is about, for people: over what, with what, how. move: "facing at 108.0 km/h".
void add_heading(quantity::Tree& tree, const Case& c, const std::string& move);
[[nodiscard]] std::string move_of(const Case& c);
// Title of the rows of the wheel path.
[[nodiscard]] std::string path_title(const Geometry& geometry);
// Closed forms beside the passage, and what they rest on.
void add_estimates(quantity::Tree& tree, std::span<const assess::Estimate> estimates);
void add_assumptions(quantity::Tree& tree, const std::string& title, const std::string& group,
                     std::vector<std::string> sentences);
// The text of the case, all its keys, and the files it came from.
void add_case(quantity::Tree& tree, const Case& c, std::span<const cases::InputFile> further = {});
void add_inputs(quantity::Tree& tree, std::span<const cases::InputFile> inputs);

[[nodiscard]] std::string in_km_h(double speed);      // "108 km/h"
[[nodiscard]] std::string floored_km_h(double speed); // down to the tenth: a permissible speed is not rounded up

} // namespace wingnose::study
