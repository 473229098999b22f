// Parts of a comparison as a tree.
#pragma once

#include "tell.hpp"

#include "wingnose/study/compare.hpp"

namespace wingnose::study {

template <class Values> void append(Values& values, const Values& more) {
  values.insert(values.end(), more.begin(), more.end());
}
inline double one_if(bool yes) { return yes ? 1.0 : 0.0; }

// Which crossing is better by what, by how much, and for which wheels.
void add_rankings(Tree& tree, const Comparison& c);
void add_differences(Tree& tree, const Comparison& c);
void add_groups(Tree& tree, const Comparison& c);

} // namespace wingnose::study
