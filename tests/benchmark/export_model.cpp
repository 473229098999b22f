#include "export_model.hpp"

#include "wingnose/passage/equilibrium.hpp"
#include "wingnose/words/error.hpp"

#include <nlohmann/json.hpp>

#include <fstream>
#include <span>

namespace benchmark {

using namespace wingnose;

void export_model(const Common& shared, const passage::Passage& move, const std::filesystem::path& folder) {
  std::filesystem::create_directories(folder);
  std::ofstream binary(folder / "model.bin", std::ios::binary);
  nlohmann::json header;
  std::size_t offset = 0; // in numbers
  const auto add = [&](const char* name, std::span<const double> values, const std::vector<int>& shape) {
    binary.write(reinterpret_cast<const char*>(values.data()), static_cast<std::streamsize>(values.size_bytes()));
    header["arrays"][name] = {{"offset", offset}, {"shape", shape}};
    offset += values.size();
  };
  const auto add_matrix = [&](const char* name, const Eigen::MatrixXd& m) {
    const Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor> rows = m;
    add(name, {rows.data(), static_cast<std::size_t>(rows.size())},
        {static_cast<int>(m.rows()), static_cast<int>(m.cols())});
  };

  const track::ModalTrack& t = *move.plan->track;
  add("lambda_re", t.lambda_re, {t.padded});
  add("lambda_im", t.lambda_im, {t.padded});
  add("theta_re", t.theta_re, {t.elements(), 4, t.padded}); // cubic coefficients, constant term first
  add("theta_im", t.theta_im, {t.elements(), 4, t.padded});
  add("node_m", t.assembly.node, {t.elements() + 1});
  add("residual_m_per_N", t.residual, {t.elements(), t.residual_points}); // degree 6 within an element
  add_matrix("vehicle_rate", move.vehicle->step.rate);
  add_matrix("vehicle_input", move.vehicle->step.rate_input);
  const passage::Plan& plan = *move.plan;
  const passage::Equilibrium still = passage::equilibrium(move, plan.from);
  add_matrix("initial_displacement_m", still.displacement);
  add_matrix("initial_force_N", still.force);
  const contact::WheelPath& path = *plan.courses.front().path;
  const int stations = static_cast<int>(path.station.size());
  add("path_station_m", path.station, {stations});
  add("path_height_m", path.bodies.front().height, {stations});
  std::vector<double> stiffness; // the ellipse's law has one coefficient
  stiffness.reserve(path.station.size());
  for (const contact::ForceLaw& law : plan.courses.front().law->body.front()) {
    stiffness.push_back(law.c0);
  }
  add("contact_stiffness_N_per_m15", stiffness, {stations});

  header["modes"] = t.modes;
  header["static_load_N"] = move.vehicle->model.static_load.front();
  header["speed_m_s"] = move.run.speed;
  header["from_m"] = plan.from;
  header["to_m"] = plan.to;
  header["step_s"] = plan.steps->step;
  header["landing_m"] = *move.run.probe_station;
  const assess::MeasureOptions& o = shared.settings.measures;
  header["p2_cut_off_Hz"] = o.p2_cut_off;
  header["p2_order"] = o.p2_order;
  header["first_peak_window_s"] = o.first_peak_window;
  header["window_s"] = o.window;
  std::ofstream(folder / "model.json") << header.dump(1) << '\n';
  if (!binary.flush()) {
    throw InputError("export folder", folder.string(), "a folder that can be written to", "Choose another one.");
  }
}

} // namespace benchmark
