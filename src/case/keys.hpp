// Rows of the table of keys, one function per part of a case file.
#pragma once

#include "wingnose/case/key.hpp"

namespace wingnose::cases {

inline Case& whole(Case& c) { return c; }

void add_crossing_keys(Schema& schema);
void add_wheel_keys(Schema& schema);
void add_vehicle_keys(Schema& schema);
void add_track_keys(Schema& schema);
void add_passage_keys(Schema& schema);
void add_damage_keys(Schema& schema);

// Points and sections as files give them.
void read_wing(layout::SectionedShape& shape, const std::filesystem::path& file, const std::string& where,
               Files& files);
void read_nose(layout::SectionedShape& shape, const std::filesystem::path& file, const std::string& where,
               Files& files);
void read_path(layout::GivenPath& path, const std::filesystem::path& file, const std::string& where, Files& files);
void read_points(MeasuredWheel& wheel, const std::filesystem::path& file, const std::string& where, Files& files);
void read_vehicle(Vehicle& vehicle, const std::filesystem::path& file, const std::string& where, Files& files);

} // namespace wingnose::cases
