// What a comparison says in sentences.
#pragma once

#include "wingnose/assess/comparison.hpp"

namespace wingnose::assess {

// Fills dependence and findings from the rest of the comparison.
void add_words(CrossingComparison& comparison, const ComparisonTerms& terms);

} // namespace wingnose::assess
