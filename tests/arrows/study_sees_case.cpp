// A right arrow: a study loops over cases and tells quantities. It must compile, so that the others can fail.
#include "wingnose/case/document.hpp"
#include "wingnose/quantity/tree.hpp"
#include "wingnose/study/run.hpp"

int main() { return wingnose::cases::Case{}.name.empty() ? 1 : 0; }
