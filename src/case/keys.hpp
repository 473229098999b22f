// Rows of the table of keys, one function per part of a case file.
#pragma once

#include "wingnose/case/key.hpp"

namespace wingnose::cases {

inline Case& whole(Case& c) { return c; }

// The table of a section, or an element of a list (counted from 1); nullptr where it is not written.
[[nodiscard]] const Sheet* table_of(const Sheet* top, const std::string& section, std::size_t element = 0);

void add_crossing_keys(Schema& schema);
void add_wheel_keys(Schema& schema);
void add_vehicle_keys(Schema& schema);
void add_track_keys(Schema& schema);
void add_bearer_keys(Schema& schema);
void add_passage_keys(Schema& schema);
void add_damage_keys(Schema& schema);
void add_sensor_keys(Schema& schema);
void add_turnout_keys(Schema& schema);
void add_spatial_keys(Schema& schema);

// Points and sections as files give them; the case has made the choice they belong to.
using Path = std::filesystem::path;
void read_wing(Case& c, const Path& file, const std::string& where, Files& files);
void read_nose(Case& c, const Path& file, const std::string& where, Files& files);
void read_path(Case& c, const Path& file, const std::string& where, Files& files);
void read_curvature(Case& c, const Path& file, const std::string& where, Files& files);
void read_points(Case& c, const Path& file, const std::string& where, Files& files);
void read_bearers(Case& c, const Path& file, const std::string& where, Files& files);
void read_vehicle(Case& c, const Path& file, const std::string& where, Files& files);
void read_irregularity(Case& c, const Path& file, const std::string& where, Files& files);
void read_space_vehicle(Case& c, const Path& file, const std::string& where, Files& files);

} // namespace wingnose::cases
