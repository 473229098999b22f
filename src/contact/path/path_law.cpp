#include "wingnose/contact/path/path_law.hpp"

#include "wingnose/contact/normal/hertz_table.hpp"
#include "wingnose/contact/normal/strips.hpp"
#include "wingnose/words/error.hpp"
#include "wingnose/words/frame.hpp"

#include <array>
#include <optional>
#include <string>

namespace wingnose::contact {
namespace {

constexpr double steel = 115e9; // Pa, about E* of steel: only to tell which depths belong to a wheel's loads
constexpr std::array depths{15e-6, 25e-6, 42e-6, 70e-6, 118e-6, 198e-6, 333e-6, strips_reach}; // m
constexpr std::array compared{30e-6, 90e-6, 200e-6, 400e-6};                                   // m

// Vertical force over vertical depth: F_n = C d_n^1.5 with d_n = d cos(angle), F = F_n cos(angle).
std::vector<ForceLaw> ellipses(const BodyPath& body) {
  static const HertzTable table; // values of a formula, the same for every path
  std::vector<ForceLaw> laws(body.height.size());
  for (std::size_t i = 0; i < laws.size(); ++i) {
    if (std::isfinite(body.height[i])) {
      const double c = std::cos(body.angle[i]);
      laws[i].c0 = table.stiffness(body.curvature_x[i], body.curvature_y[i], unit_elastic) * c * c * std::sqrt(c);
    }
  }
  return laws;
}

struct Fit {
  ForceLaw law;
  double worst = 0.0; // share of the force
};
// nullopt where the strips find nothing to carry.
std::optional<Fit> fit(const GapLine& line) {
  std::array<double, depths.size()> force{};
  for (std::size_t k = 0; k < depths.size(); ++k) {
    force[k] = line.count < 3 ? 0.0 : strips(line, depths[k], unit_elastic).vertical;
  }
  if (!(force.back() > 0.0)) {
    return std::nullopt;
  }
  Fit result{fit_force_law(depths, force, strips_reach, 20e3 / steel)};
  for (std::size_t k = 0; k < depths.size(); ++k) {
    const double newtons = force[k] * steel;
    if (newtons > 20e3 && newtons < 300e3) {
      result.worst = std::max(result.worst, std::abs(result.law.at(depths[k]).force / force[k] - 1.0));
    }
  }
  return result;
}

double difference(const ForceLaw& a, const ForceLaw& b) {
  double most = 0.0;
  for (const double d : compared) {
    const double f = a.at(d).force, g = b.at(d).force;
    most = std::max(most, std::abs(f - g) / std::max(f, g));
  }
  return most;
}

// Laws of one body on all stations of the path from few of them.
class Halving {
public:
  Halving(const WheelPath& path, std::size_t body, const HeldWheel& wheel, const PathLawOptions& options)
      : path_(path), body_(body), wheel_(wheel), options_(options), ellipse_(ellipses(path.bodies[body])),
        laws_(ellipse_) {}

  std::vector<ForceLaw> run(PathLaw& told) {
    const std::vector<double>& height = path_.bodies[body_].height;
    for (std::size_t i = 0; i < height.size();) {
      if (!std::isfinite(height[i])) {
        ++i;
        continue;
      }
      std::size_t end = i;
      while (end + 1 < height.size() && std::isfinite(height[end + 1])) {
        ++end;
      }
      stretch(i, end, told);
      i = end + 1;
    }
    return std::move(laws_);
  }

private:
  [[nodiscard]] bool reached(std::size_t i) const {
    double top = path_.bodies[body_].height[i];
    for (const BodyPath& other : path_.bodies) {
      top = std::max(top, other.height[i]);
    }
    return path_.bodies[body_].height[i] > top - options_.within_reach;
  }

  void search(std::size_t i, PathLaw& told) {
    wheel_.look(body_, path_.station[i], line_);
    const std::optional<Fit> found = fit(line_);
    ++told.searched;
    laws_[i] = found ? found->law : ellipse_[i];
    if (found && found->worst > told.worst_fit && reached(i)) {
      told.worst_fit = found->worst;
      told.worst_body = path_.bodies[body_].name;
      told.worst_station = path_.station[i];
    }
  }

  // Stations from .. to, all over metal.
  void stretch(std::size_t from, std::size_t to, PathLaw& told) {
    search(from, told);
    for (std::size_t i = from; i < to;) {
      std::size_t next = i + 1;
      while (next < to && path_.station[next] - path_.station[i] < options_.coarsest) {
        ++next;
      }
      search(next, told);
      between(i, next, told);
      i = next;
    }
  }

  void between(std::size_t i, std::size_t j, PathLaw& told) {
    if (j - i < 2) {
      return;
    }
    const std::vector<double>& x = path_.station;
    const double middle = 0.5 * (x[i] + x[j]);
    const auto place = std::lower_bound(x.begin() + static_cast<std::ptrdiff_t>(i) + 1,
                                        x.begin() + static_cast<std::ptrdiff_t>(j) - 1, middle);
    const auto m = static_cast<std::size_t>(place - x.begin());
    const bool near = reached(i) || reached(m) || reached(j);
    if (near && x[j] - x[i] > options_.finest) {
      search(m, told);
      const ForceLaw expected = blend(laws_[i], laws_[j], (x[m] - x[i]) / (x[j] - x[i]));
      if (difference(laws_[m], expected) > options_.tolerance) {
        between(i, m, told);
        between(m, j, told);
        return;
      }
      fill(i, m);
      fill(m, j);
      return;
    }
    fill(i, j);
  }

  void fill(std::size_t i, std::size_t j) {
    const std::vector<double>& x = path_.station;
    for (std::size_t k = i + 1; k < j; ++k) {
      laws_[k] = blend(laws_[i], laws_[j], (x[k] - x[i]) / (x[j] - x[i]));
    }
  }

  const WheelPath& path_;
  std::size_t body_;
  const HeldWheel& wheel_;
  const PathLawOptions& options_;
  std::vector<ForceLaw> ellipse_, laws_;
  GapLine line_;
};

void check(const PathLawOptions& o) {
  if (!(o.tolerance >= 1e-4 && o.tolerance <= 0.1)) {
    throw InputError("tolerance of the contact law along the path", number(o.tolerance), "0.0001 to 0.1",
                     "One per cent of the force is usual.");
  }
  for (const auto& [name, value] :
       {std::pair{"coarsest station spacing (m)", o.coarsest}, std::pair{"finest station spacing (m)", o.finest},
        std::pair{"height within which a body is searched closely (m)", o.within_reach}}) {
    if (!(value > 0.0 && std::isfinite(value))) {
      throw InputError(name, number(value), "above 0", "Leave it out for the usual value.");
    }
  }
}

} // namespace

Findings findings_of(const PathLaw& law) {
  constexpr double told_fit = 0.15;
  if (!(law.worst_fit > told_fit)) {
    return {};
  }
  return {{FindingKind::contact_law_fit,
           "the force kept for the passage is up to " + number(std::round(law.worst_fit * 100.0)) +
               " % off that of the strips, where a second patch closes at once",
           law.worst_body + ", station " + number(std::round(law.worst_station * 1e3)) + " mm"}};
}

PathLaw ellipse_law(const WheelPath& path) {
  PathLaw law;
  law.body.reserve(path.bodies.size());
  for (const BodyPath& body : path.bodies) {
    law.body.push_back(ellipses(body));
  }
  return law;
}

PathLaw strips_law(const WheelPath& path, const HeldWheel& wheel, const PathLawOptions& options) {
  check(options);
  if (path.bodies.size() != wheel.bodies().size()) {
    throw InputError("bodies of the path", std::to_string(path.bodies.size()),
                     std::to_string(wheel.bodies().size()) + " as the crossing's",
                     "Roll the wheel over this crossing.");
  }
  PathLaw law;
  law.reach = strips_reach;
  for (std::size_t b = 0; b < path.bodies.size(); ++b) {
    law.body.push_back(Halving(path, b, wheel, options).run(law));
  }
  return law;
}

PathLaw strips_law(const WheelPath& path, const layout::Crossing& crossing, const profile::WheelProfile& wheel,
                   const PathLawOptions& options) {
  return strips_law(
      path, HeldWheel(wheel, crossing.bodies, attitude_of(path), {path.station.front(), path.station.back()}), options);
}

PathLaw strips_law(const WheelPath& path, const profile::RailHead& rail, const profile::WheelProfile& wheel) {
  PathLaw law;
  law.reach = strips_reach;
  GapLine line;
  look(WheelSurface(wheel, path.wheel_radius), layout::plain_rail(rail), {.lateral = taping_line_y}, line);
  const std::optional<Fit> found = fit(line);
  if (!found) {
    throw ComputeError("wheel \"" + wheel.name + "\" does not reach rail head \"" + rail.name + "\"");
  }
  law.searched = 1;
  law.worst_fit = found->worst;
  for (const BodyPath& body : path.bodies) {
    law.worst_body = body.name;
    law.body.emplace_back(body.height.size(), found->law);
  }
  return law;
}

} // namespace wingnose::contact
