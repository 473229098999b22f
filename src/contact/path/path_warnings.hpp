// Sentences about what a wheel path shows that a designer or measurer should look at.
#pragma once

#include "wingnose/contact/path/kinematics.hpp"

#include <span>
#include <string>
#include <vector>

namespace wingnose::contact {

[[nodiscard]] std::vector<std::string> path_warnings(const WheelPath& path, const profile::WheelProfile& wheel,
                                                     const KinematicsOptions& options,
                                                     std::span<const double> transfers);

} // namespace wingnose::contact
