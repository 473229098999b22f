// A case while it is being read: values in SI as the file gives them, before choices are resolved into a study::Case.
#pragma once

#include "wingnose/study/case.hpp"

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace wingnose::io {

struct FileRef {
  std::filesystem::path path;
  std::string where; // file, line and key that named it
  [[nodiscard]] bool given() const { return !path.empty(); }
};

struct Casting {
  double begin = 0.0, end = 0.0; // m
  double EI_factor = 1.0, mass_factor = 1.0;
  std::optional<double> shear_factor;
};

struct Draft {
  study::Case c;                            // values that go straight into the case
  std::map<std::string, std::string> where; // "passage.speed_km_h" -> "case.toml:12", for every key that was given
  std::string document;                     // name of the top file, for messages

  std::string kind = "generated";
  layout::CrossingShape shape;
  double section_noise = layout::SectionedShape{}.noise; // m
  FileRef wing_csv, nose_csv, path_csv;
  layout::DippedJoint joint{0.0, 10.0};
  std::string joint_shape = "kink";
  layout::Modifier modifier; // the element of an array being read, as the four below

  std::string wheel_profile = "S1002";
  FileRef wheel_csv;
  double wheel_noise = 5e-6; // m
  profile::Hollow hollow;
  double conicity = 0.05;
  std::optional<double> wheel_radius; // m

  std::string preset = "wheel";
  FileRef vehicle_file;
  std::optional<double> static_load, unsprung_mass, primary_stiffness, primary_damping;
  std::string given_for; // vehicle files: "one rail" or "both rails"
  vehicle::Vehicle vehicle;
  vehicle::Body body;
  vehicle::Wheel wheel;
  vehicle::Suspension suspension;

  std::string rail = "60E1";
  std::optional<double> EI, kappa_GA, rho_A, rho_I;
  std::vector<Casting> castings;
  Casting casting;
  track::SeatOverride seat_override;

  std::string normal_law = "ellipse", contact_search = "path";
  std::string direction = "facing";
  std::string method = "modal-exponential";
  int reported_wheel = 1;
  std::string grade = study::Case{}.grade.name;
  std::string creep_law = "simplified", shakedown_shape = "line";
  std::vector<std::string> sets{"derived"};
};

// "case.toml:12: passage.speed_km_h" for a key that was given, "case.toml: passage.speed_km_h" otherwise.
[[nodiscard]] std::string place(const Draft& draft, const std::string& key);

// Resolves choices, reads the files named, checks what one key alone cannot show. Throws InputError.
[[nodiscard]] study::Case build(Draft draft, const std::filesystem::path& folder);
void add_input(study::Case& c, std::string role, const std::filesystem::path& file, std::string_view text,
               const std::filesystem::path& folder);

// The parts of build, one file each.
void build_excitation(Draft& draft, const std::filesystem::path& folder);
void build_wheel(Draft& draft, const std::filesystem::path& folder);
void build_vehicle(Draft& draft, const std::filesystem::path& folder);
void build_track(Draft& draft);
void build_passage(Draft& draft); // needs the vehicle
void build_estimate(Draft& draft);
void build_damage(Draft& draft);

// Choices of [damage] by name.
[[nodiscard]] std::string name_of(assess::CreepTheory law);
[[nodiscard]] std::string name_of(assess::ContactShape shape);

} // namespace wingnose::io
