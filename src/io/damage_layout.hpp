// Parts of writing a file of damage.
#pragma once

#include "wingnose/io/damage_output.hpp"

#include <hdf5.h>

#include <cstddef>
#include <string>
#include <vector>

namespace wingnose::io::damage {

// Maps of one body below `part`; nothing for a body that was never touched.
void write_map(hid_t file, const std::string& part, const assess::DamageMap& map);
void write_numbers(hid_t file, const std::string& group, const std::vector<DamageNumber>& numbers);
// Contacts of the case's own wheel, over new steel.
void write_contacts(hid_t file, const DamageReport& report);
// Sums, maps, stages, the contacts of the case's own wheel in each stage, the wheels of a mixed traffic.
void write_traffic(hid_t file, const DamageReport& report);

} // namespace wingnose::io::damage
