// One measured section made smooth and resampled by arc length from its running edge.
#pragma once

#include "wingnose/crossing/lofted_body.hpp"
#include "wingnose/crossing/sections.hpp"

#include <string>

namespace wingnose::crossing {

struct FittedSection {
  double edge; // m, y of the running edge
  LoftedBody::Curve curve;
};

// where: names the section in messages. Throws InputError when the points do not run across from the running edge.
[[nodiscard]] FittedSection fit_section(const Section& section, double noise, const std::string& where);

} // namespace wingnose::crossing
