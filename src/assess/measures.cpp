#include "wingnose/assess/measures.hpp"

#include "peaks.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>

namespace wingnose::assess {
namespace {

using passage::Event;
using passage::History;

double speed(const History& h) { return (h.station.back() - h.station.front()) / (h.time.back() - h.time.front()); }

// Time at which the reported wheel passes a station; may lie outside the history.
double time_at(const History& h, double station) { return h.time.front() + (station - h.station.front()) / speed(h); }

// Durations, within [begin, end], of the states "both bodies loaded" and "no body loaded", from the located events.
struct ContactTimes {
  double both = 0.0, none = 0.0;
};
ContactTimes contact_times(const History& h, double begin, double end) {
  std::vector<bool> loaded;
  for (const std::vector<double>& f : h.body_force) {
    loaded.push_back(f.front() > 0.0);
  }
  ContactTimes result;
  double since = h.time.front();
  const auto account = [&](double until) {
    const double length = std::min(until, end) - std::max(since, begin);
    const auto count = std::count(loaded.begin(), loaded.end(), true);
    if (length > 0.0) {
      result.both += count == 2 ? length : 0.0;
      result.none += count == 0 ? length : 0.0;
    }
    since = until;
  };
  for (const Event& e : h.events) {
    if (e.kind == Event::Kind::transfer) {
      continue;
    }
    account(e.time);
    const auto body = std::find(h.bodies.begin(), h.bodies.end(), e.body);
    loaded[static_cast<std::size_t>(body - h.bodies.begin())] = e.kind == Event::Kind::touch;
  }
  account(h.time.back());
  return result;
}

std::optional<double> largest_acceleration(const std::vector<double>& a, double step, const MeasureOptions& o,
                                           std::size_t from, std::size_t to) {
  if (a.empty()) {
    return std::nullopt;
  }
  double top = 0.0;
  const std::vector<double> filtered = low_pass_zero_phase(a, step, o.acceleration_cut_off, o.p2_order);
  for (std::size_t i = from; i < to; ++i) {
    top = std::max(top, std::abs(filtered[i]));
  }
  return top;
}

// Of a sampled signal, straight between samples; from, to: in samples.
double integral(const std::vector<double>& signal, double from, double to) {
  double sum = 0.0;
  for (auto i = static_cast<std::size_t>(from); static_cast<double>(i) < to; ++i) {
    const double begin = std::max(from, static_cast<double>(i)) - static_cast<double>(i);
    const double end = std::min(to, static_cast<double>(i + 1)) - static_cast<double>(i);
    const double middle = std::lerp(signal[i], signal[std::min(i + 1, signal.size() - 1)], 0.5 * (begin + end));
    sum += (end - begin) * middle;
  }
  return sum;
}

// Index of the body a crossing's wheel lands on; nullopt for a prescribed path.
std::optional<std::size_t> landing_body(const History& h) {
  if (h.bodies.size() < 2) {
    return std::nullopt;
  }
  const auto nose = std::find(h.roles.begin(), h.roles.end(), layout::Role::nose);
  const auto n = static_cast<std::size_t>(nose - h.roles.begin());
  return speed(h) > 0.0 ? n : 1 - n;
}

// landing_body is known; the landing is its first touch, or else the passing of the station.
void find_landing(const History& h, double landing_station, bool on_a_body, Measures& m) {
  m.landing_time = time_at(h, landing_station);
  if (on_a_body) {
    const auto touch = std::find_if(h.events.begin(), h.events.end(), [&](const Event& e) {
      return e.kind == Event::Kind::touch && e.body == m.landing_body;
    });
    if (touch != h.events.end()) {
      m.landing_time = touch->time;
    } else {
      m.findings.push_back({FindingKind::no_landing_of_its_own,
                            "the wheel never touched the " + m.landing_body +
                                " as a separate body; the landing is taken at the kinematic transfer"});
    }
  }
  if (!(m.landing_time > h.time.front() + 1e-3 && m.landing_time < h.time.back() - 1e-3)) {
    throw ComputeError("the landing at station " + number(landing_station) + " m lies outside the simulated window " +
                       number(h.station.front()) + " to " + number(h.station.back()) +
                       " m; move or lengthen the window");
  }
  m.landing_station = h.station.front() + speed(h) * (m.landing_time - h.time.front());
}

// Where the body landed on carries more than the other; before: the sample before the landing.
void find_load_transfer(const History& h, std::size_t body, std::size_t before, Measures& m) {
  const auto transfer = std::find_if(h.events.begin(), h.events.end(), [&](const Event& e) {
    return e.kind == Event::Kind::transfer && e.body == m.landing_body && e.time >= m.landing_time;
  });
  const auto clear = std::find_if(h.events.begin(), h.events.end(), [&](const Event& e) {
    return e.kind == Event::Kind::lift_off && e.body != m.landing_body && e.time >= m.landing_time;
  });
  if (transfer != h.events.end()) {
    m.dynamic_transfer_station = transfer->station;
  } else if (h.body_force[1 - body][before] == 0.0) {
    m.dynamic_transfer_station = m.landing_station; // it flew over: the body landed on carries all from the touch
  } else if (clear != h.events.end()) {
    m.dynamic_transfer_station = clear->station;
  }
}

// before: the sample before the landing; last: of the window for it.
void find_first_peak(const History& h, const std::vector<double>& slow, std::size_t before, std::size_t last,
                     const MeasureOptions& o, Measures& m) {
  const auto peak =
      first_peak(h.force, before, std::min(last + 1, h.force.size()), o.first_peak_prominence, 0.01 * h.static_load);
  if (!peak) {
    m.findings.push_back({FindingKind::no_first_peak, "the force rises without a separate first peak within " +
                                                          number(1e3 * o.first_peak_window) + " ms of the landing"});
    return;
  }
  m.first_peak = peak->peak.value;
  m.first_peak_delay = peak->peak.position * h.step - (m.landing_time - h.time.front());
  m.first_peak_over_valleys = peak->over_valleys;
  m.first_peak_over_low_pass = h.force[peak->sample] - slow[peak->sample];
  if (*m.first_peak_over_low_pass < 0.0) {
    m.findings.push_back({FindingKind::slow_first_peak, "it lies " + fixed(-1e-3 * *m.first_peak_over_low_pass, 2) +
                                                            " kN below the low-passed force at its instant"});
  }
}

// What lies outside the samples in which the measures look: [first, landing) and [landing, end).
struct Looked {
  std::size_t first, landing, end;
};
void tell_ends(const History& h, const std::vector<double>& slow, const Looked& at, Measures& m) {
  const double before = *std::max_element(h.force.begin() + static_cast<std::ptrdiff_t>(at.first),
                                          h.force.begin() + static_cast<std::ptrdiff_t>(at.landing));
  if (before > m.peak_total) {
    m.findings.push_back({FindingKind::peak_before_landing, "the force reaches " + fixed(1e-3 * before, 2) +
                                                                " kN before the landing, more than the " +
                                                                fixed(1e-3 * m.peak_total, 2) + " kN after it"});
  }
  const auto ends = [&](const char* what) {
    m.findings.push_back({FindingKind::measures_cut, what, "station " + fixed(1e3 * h.station[at.end - 1], 0) + " mm"});
  };
  if (h.force[at.end - 1] == 0.0) {
    ends("the wheel is in the air where the window of the measures ends");
  } else if (slow[at.end - 1] >= m.p2) {
    ends("the force still rises where the window of the measures ends");
  }
}

} // namespace

Measures measure(const History& h, double landing_station, const MeasureOptions& o) {
  Measures m{};
  const std::optional<std::size_t> body = landing_body(h);
  m.landing_body = body ? h.bodies[*body] : "path";
  find_landing(h, landing_station, body.has_value(), m);
  m.static_load = h.static_load;

  const std::size_t samples = h.time.size();
  const auto sample = [&](double t) {
    return static_cast<std::size_t>(
        std::clamp(std::ceil((t - h.time.front()) / h.step), 0.0, static_cast<double>(samples - 1)));
  };
  const std::size_t landing = sample(m.landing_time);
  const std::size_t before = landing > 0 ? landing - 1 : 0;
  const double window = std::max(o.window, o.window_length / std::abs(speed(h)));
  const std::size_t first = sample(m.landing_time - window);
  const std::size_t end = sample(m.landing_time + window) + 1;
  if (m.landing_time + window > h.time.back() + h.step) {
    m.findings.push_back({FindingKind::window_cut, "the simulation ends " +
                                                       number(1e3 * (h.time.back() - m.landing_time)) +
                                                       " ms after the landing; measures look no further"});
  }
  m.force_before_landing = h.force[before];

  const std::vector<double> slow = low_pass_zero_phase(h.force, h.step, o.p2_cut_off, o.p2_order);
  const double since_start = m.landing_time - h.time.front();
  find_first_peak(h, slow, before, sample(m.landing_time + o.first_peak_window), o, m);
  const Peak p2 = largest(slow, landing, end);
  m.p2 = p2.value;
  m.p2_delay = p2.position * h.step - since_start;
  m.p2_cut_off = o.p2_cut_off;

  const Peak total = largest(h.force, landing, end);
  m.peak_total = total.value;
  m.peak_total_station = h.station.front() + speed(h) * total.position * h.step;
  m.high_frequency_excess = h.force[landing] - slow[landing];
  for (std::size_t i = landing; i < end; ++i) {
    m.high_frequency_excess = std::max(m.high_frequency_excess, h.force[i] - slow[i]);
  }
  tell_ends(h, slow, {first, landing, end}, m);
  if (m.p2 > m.peak_total) {
    m.findings.push_back({FindingKind::low_pass_overshoot,
                          "P2 lies " + number(1e-3 * (m.p2 - m.peak_total), 2) + " kN above the largest total force"});
  }
  if (body) {
    for (std::size_t b = 0; b < 2; ++b) {
      const double peak = largest(h.body_force[b], landing, end).value;
      (h.roles[b] == layout::Role::nose ? m.peak_nose : m.peak_wing) = peak;
    }
    find_load_transfer(h, *body, before, m);
  }

  const ContactTimes times = contact_times(h, m.landing_time - window, m.landing_time + window);
  m.overlap_length = times.both * std::abs(speed(h));
  m.lost_contact = times.none;
  m.minimum_force = *std::min_element(h.force.begin() + static_cast<std::ptrdiff_t>(first),
                                      h.force.begin() + static_cast<std::ptrdiff_t>(end));
  for (std::size_t i = landing; i + 1 < end; ++i) {
    m.impulse +=
        0.5 * h.step * (std::max(0.0, h.force[i] - h.static_load) + std::max(0.0, h.force[i + 1] - h.static_load));
  }
  const double landed = since_start / h.step, impulse_end = landed + o.impulse_window / h.step;
  if (impulse_end <= static_cast<double>(samples - 1)) {
    m.landing_impulse = h.step * integral(body ? h.body_force[*body] : h.force, landed, impulse_end);
  }
  m.dynamic_factor = m.peak_total / m.static_load;
  m.p2_dynamic_factor = m.p2 / m.static_load;
  m.rail_acceleration = largest_acceleration(h.rail_acceleration, h.step, o, first, end);
  m.bearer_acceleration = largest_acceleration(h.bearer_acceleration, h.step, o, first, end);
  return m;
}

} // namespace wingnose::assess
