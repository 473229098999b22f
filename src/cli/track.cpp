#include "commands.hpp"
#include "report.hpp"

#include "wingnose/version.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <ostream>

namespace wingnose::cli {

namespace {

constexpr std::array frequencies{20.0, 50.0, 100.0, 150.0, 200.0, 300.0, 500.0, 800.0, 1000.0, 1200.0, 1500.0, 2000.0};

struct Point {
  std::string name;
  double station;    // m
  double deflection; // m under the wheel load
  double stiffness;  // N/m
  std::vector<std::complex<double>> receptance;
};

Point answer(const track::Assembly& assembly, std::string name, double station, double load) {
  const std::array<double, 1> at{station};
  const double deflection = track::static_deflection(assembly, load, station, at).front();
  return {std::move(name), station, deflection, load / deflection, track::receptance(assembly, station, frequencies)};
}

struct Report {
  std::vector<Point> points;
  double load;
  std::shared_ptr<const track::ModalTrack> modal;
  double set_up; // s
};

Report answers(const study::Case& c) {
  const auto start = std::chrono::steady_clock::now();
  auto modal = track::modal_track(study::track_for(c));
  const std::chrono::duration<double> time = std::chrono::steady_clock::now() - start;
  const auto& seats = modal->assembly.seat_station;
  const double middle = 0.5 * (modal->begin() + modal->end());
  const double seat = *std::min_element(
      seats.begin(), seats.end(), [middle](double a, double b) { return std::abs(a - middle) < std::abs(b - middle); });
  const double load = vehicle::assemble(c.vehicle).static_load.at(static_cast<std::size_t>(c.passage.reported_wheel));
  Report report{{}, load, modal, time.count()};
  report.points.push_back(answer(modal->assembly, "over a bearer", seat, load));
  report.points.push_back(answer(modal->assembly, "mid-span", seat + 0.5 * c.track.spacing, load));
  return report;
}

void print_json(std::ostream& out, const study::Case& c, const Report& report) {
  nlohmann::ordered_json json;
  json["name"] = c.name;
  json["static_load_kN"] = report.load * 1e-3;
  for (const auto& point : report.points) {
    nlohmann::ordered_json one;
    one["place"] = point.name;
    one["station_mm"] = point.station * 1e3;
    one["static_deflection_mm"] = point.deflection * 1e3;
    one["point_stiffness_MN_m"] = point.stiffness * 1e-6;
    one["frequency_hz"] = frequencies;
    for (const auto& value : point.receptance) {
      one["receptance_magnitude_m_N"].push_back(std::abs(value));
      one["receptance_phase_rad"].push_back(std::arg(value));
    }
    json["points"].push_back(one);
  }
  json["modes"] = report.modal->modes;
  json["highest_mode_hz"] = report.modal->highest_frequency;
  json["modelled_length_m"] = report.modal->end() - report.modal->begin();
  json["set_up_time_s"] = report.set_up;
  json["version"] = version;
  json["commit"] = commit;
  json["caution"] = io::caution;
  out << json.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace) << '\n';
}

void print_text(std::ostream& out, const study::Case& c, const Report& report) {
  const auto& modal = *report.modal;
  print_rows(out, c.name + ": track under one rail",
             {{"modelled length", fixed(modal.end() - modal.begin(), 1), "m"},
              {"bearers", std::to_string(modal.assembly.seat_station.size()), ""},
              {"modes kept", std::to_string(modal.modes), ""},
              {"highest mode", fixed(modal.highest_frequency, 0), "Hz"},
              {"set-up time", fixed(report.set_up, 2), "s"}});
  std::vector<std::vector<std::string>> lines;
  for (const auto& point : report.points) {
    lines.push_back({point.name, fixed(point.station * 1e3, 0), fixed(point.deflection * 1e3, 3),
                     fixed(point.stiffness * 1e-6, 2)});
  }
  print_columns(out, "Static, under the wheel load of " + fixed(report.load * 1e-3, 2) + " kN",
                {"place", "station mm", "deflection mm", "point stiffness MN/m"}, lines);
  lines.clear();
  constexpr double degrees = 180.0 / 3.14159265358979323846;
  for (std::size_t f = 0; f < frequencies.size(); ++f) {
    std::vector<std::string> line{fixed(frequencies[f], 0)};
    for (const auto& point : report.points) {
      line.push_back(fixed(std::abs(point.receptance[f]) * 1e9, 3));
      line.push_back(fixed(std::arg(point.receptance[f]) * degrees, 1));
    }
    lines.push_back(line);
  }
  print_columns(out, "Receptance of the rail (downward deflection per force)",
                {"Hz", "bearer nm/N", "phase deg", "mid-span nm/N", "phase deg"}, lines);
  print_caution(out);
}

} // namespace

void track(const std::filesystem::path& case_file, bool json, std::ostream& out) {
  with_case(case_file, [&](const study::Case& c) {
    const Report report = answers(c);
    json ? print_json(out, c, report) : print_text(out, c, report);
  });
}

} // namespace wingnose::cli
