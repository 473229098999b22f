// What a wheel path shows that a designer or measurer should look at.
#pragma once

#include "wingnose/contact/path/kinematics.hpp"

#include <span>

namespace wingnose::contact {

// transfers: where the wheel lands, in the order of travel. crossing: nullptr for prescribed paths.
[[nodiscard]] Findings path_findings(const WheelPath& path, const layout::Crossing* crossing,
                                     const profile::WheelProfile& wheel, const KinematicsOptions& options,
                                     std::span<const double> transfers);

} // namespace wingnose::contact
