// One function per command: from a file to text on `out`. Errors are thrown and told by main.
#pragma once

#include <cstddef>
#include <filesystem>
#include <iosfwd>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

namespace CLI {
class App;
}

namespace wingnose::cli {

void geometry(const std::filesystem::path& case_file, bool json, std::ostream& out);
void estimate(const std::filesystem::path& case_file, bool json, std::ostream& out);
void track(const std::filesystem::path& case_file, bool json, std::ostream& out);
// Stores the result when `output` is not empty.
void run(const std::filesystem::path& case_file, const std::filesystem::path& output, bool json, std::ostream& out);
void show(const std::filesystem::path& result_file, bool json, std::ostream& out);
void keys(bool json, std::ostream& out);

// What "wingnose speeds" was asked for, in the units of the command line.
struct SpeedsRequest {
  double from_km_h = 0.0, to_km_h = 0.0, step_km_h = 5.0;
  std::optional<double> today_km_h, proposed_km_h;
  std::vector<std::string> limits, sources;
  std::string order; // 'l' and 's' as limits and sources came
  bool steel = false;
  int threads = 0;
};
void speeds_options(CLI::App& command, SpeedsRequest& request);
void speeds(const std::filesystem::path& case_file, const std::filesystem::path& output, const SpeedsRequest& request,
            bool json, std::ostream& out);

// What "wingnose contact" was asked for, in the units of the command line.
struct ContactRequest {
  std::string at; // instant of the passage; empty: a wheel that stands
  std::optional<double> station_mm, force_kN;
  std::string law = "strips";
  std::size_t cells = 64;
  std::optional<double> roll_mrad, yaw_mrad; // absent: as the case says
};
void contact_options(CLI::App& command, ContactRequest& request);
void contact(const std::filesystem::path& case_file, const std::filesystem::path& output, const ContactRequest& request,
             bool json, std::ostream& out);

// What "wingnose damage" was asked for.
struct DamageRequest {
  std::optional<std::string> steel; // otherwise the case's own
  std::optional<double> friction;
  std::optional<double> tonnage_MGT;
  int stages = 10;
  std::string traffic; // file of wheels; empty: wheels like the case's own
  int threads = 0;
};
void damage_options(CLI::App& command, DamageRequest& request);
// Throws Interrupted on Ctrl-C.
void damage(const std::filesystem::path& case_file, const std::filesystem::path& output, const DamageRequest& request,
            bool json, std::ostream& out);

// The user stopped the work; what was done is kept.
struct Interrupted : std::runtime_error {
  using std::runtime_error::runtime_error;
};
struct SweepRequest {
  std::string output;
  int threads = 0;
  std::size_t chunk = 1024; // cases
};
void sweep_options(CLI::App& command, SweepRequest& request);
// Goes on where the output file ends. Throws Interrupted on Ctrl-C.
void sweep(const std::filesystem::path& sweep_file, const SweepRequest& request, bool json, std::ostream& out);

struct CompareRequest {
  int threads = 0;
};
void compare_options(CLI::App& command, CompareRequest& request);
// Stores the comparison when `output` is not empty. Throws Interrupted on Ctrl-C.
void compare(const std::filesystem::path& comparison_file, const std::filesystem::path& output,
             const CompareRequest& request, bool json, std::ostream& out);

} // namespace wingnose::cli
