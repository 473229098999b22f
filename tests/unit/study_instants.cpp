// Contact at an instant of a passage: station and forces are the passage's own, and the pressure fields carry them.
#include "catch.hpp"

#include "wingnose/io/case_file.hpp"
#include "wingnose/study/instants.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <string>

using namespace wingnose;
using namespace wingnose::study;

namespace {

const cases::Case& demo() {
  static const cases::Case c = io::read_case(WINGNOSE_SOURCE_DIR "/profiles/demo.toml");
  return c;
}
const Result& passage_of_demo() {
  static const Result r = run(demo());
  return r;
}

double carried(const Instant& i, const std::string& body) {
  const auto load = std::find_if(i.loads.begin(), i.loads.end(), [&](const auto& l) { return l.body == body; });
  return load == i.loads.end() ? 0.0 : load->vertical;
}

double sum_of(const contact::PressureField& f) {
  double sum = 0.0;
  for (std::size_t j = 0; j < f.y.size(); ++j) {
    for (std::size_t i = 0; i < f.x.size(); ++i) {
      sum += f.pressure[j * f.x.size() + i];
    }
  }
  return sum;
}

} // namespace

TEST_CASE("At the transfer of a passage wing and nose carry alike, and together what the wheel carries there") {
  const Result& r = passage_of_demo();
  const Instant now = instant(demo(), r, Moment::transfer);
  REQUIRE(r.assessment.measures->dynamic_transfer_station);
  CHECK(now.station == Approx(*r.assessment.measures->dynamic_transfer_station).margin(1e-9));
  // Between two samples the forces are read linearly, the event is found on the smooth motion: a small part of a step.
  CHECK(carried(now, "nose") == Approx(carried(now, "wing")).epsilon(0.005));
  const auto& h = r.history;
  const auto next = static_cast<std::size_t>(std::upper_bound(h.time.begin(), h.time.end(), now.time) - h.time.begin());
  const double sum = carried(now, "nose") + carried(now, "wing");
  CHECK(sum >= std::min(h.force[next - 1], h.force[next]));
  CHECK(sum <= std::max(h.force[next - 1], h.force[next]));
}

TEST_CASE("Landing is the first peak of the force where there is one, peak the largest force, as measured") {
  const cases::Case joint = io::read_case(WINGNOSE_SOURCE_DIR "/profiles/dipped_joint.toml");
  const Result kink = run(joint);
  REQUIRE(kink.assessment.measures->first_peak);
  const Instant p1 = instant(joint, kink, Moment::landing);
  CHECK(p1.time == Approx(kink.assessment.measures->landing_time + *kink.assessment.measures->first_peak_delay)
                       .margin(0.51 * kink.history.step));
  CHECK(carried(p1, joint.plain_rail.head) ==
        Approx(*kink.assessment.measures->first_peak).epsilon(0.005)); // a sample beside its top
  const Result& r = passage_of_demo();
  const Instant landing = instant(demo(), r, Moment::landing), peak = instant(demo(), r, Moment::peak);
  REQUIRE(r.assessment.measures->peak_nose);
  CHECK(carried(peak, "nose") == Approx(*r.assessment.measures->peak_nose).epsilon(0.005));
  CHECK(carried(peak, "nose") >= carried(landing, "nose"));
  CHECK(landing.time >= r.assessment.measures->landing_time);
}

TEST_CASE("Without a first peak the landing is the largest force on the nose within the window of the first peak") {
  Result r = passage_of_demo();
  r.assessment.measures->first_peak.reset();
  r.assessment.measures->first_peak_delay.reset();
  const Instant landing = instant(demo(), r, Moment::landing);
  CHECK(landing.time >= r.assessment.measures->landing_time - 0.5 * r.history.step);
  CHECK(landing.time <= r.assessment.measures->landing_time + demo().measures.first_peak_window + 0.5 * r.history.step);
  const auto nose = static_cast<std::size_t>(std::find(r.history.bodies.begin(), r.history.bodies.end(), "nose") -
                                             r.history.bodies.begin());
  for (std::size_t i = 0; i < r.history.time.size(); ++i) {
    const double since = r.history.time[i] - r.assessment.measures->landing_time;
    if (since >= 0.0 && since <= demo().measures.first_peak_window) {
      CHECK(r.history.body_force[nose][i] <= carried(landing, "nose"));
    }
  }
}

TEST_CASE("The pressure fields of a passage carry the forces of the passage, body by body") {
  contact::StationOptions options;
  options.half_space = true;
  options.cells = {48, 48};
  for (const Moment m : {Moment::transfer, Moment::landing, Moment::peak}) {
    CAPTURE(name(m));
    const Instant now = instant(demo(), passage_of_demo(), m);
    const auto s = contact_at_instant(demo(), passage_of_demo(), m, options);
    CHECK(s.instant == name(m));
    CHECK(s.time == now.time);
    CHECK(s.station == now.station);
    double total = 0.0;
    for (const auto& body : s.bodies) {
      CAPTURE(body.body);
      REQUIRE(body.field);
      const auto& f = *body.field;
      CHECK(body.vertical == Approx(carried(now, body.body)).epsilon(1e-8));
      CHECK(f.vertical == Approx(carried(now, body.body)).epsilon(2e-5)); // the field's own tolerance is 1e-5
      CHECK(f.force >= f.vertical);
      CHECK(sum_of(f) > 0.0);
      total += body.vertical;
    }
    double passage = 0.0;
    for (const auto& load : now.loads) {
      passage += load.vertical;
    }
    CHECK(total == Approx(passage).epsilon(1e-8));
    CHECK(s.vertical == Approx(passage).epsilon(1e-12));
  }
}

TEST_CASE("Bodies in a passage carry their own forces: changing one leaves the patch of the other alone") {
  const auto crossing = layout::generate({});
  const auto& bodies = crossing.bodies;
  const contact::WheelSurface wheel(profile::s1002(), 0.46);
  const contact::WheelPlace place{.station = 0.412, .lateral = taping_line_y};
  const std::vector<contact::BodyLoad> even{{"wing", 45e3}, {"nose", 45e3}}, heavy{{"wing", 45e3}, {"nose", 180e3}};
  const auto a = contact_under(wheel, bodies, place, even), b = contact_under(wheel, bodies, place, heavy);
  REQUIRE(a.patches.size() == 2);
  REQUIRE(b.patches.size() == 2);
  CHECK(a.patches[0].peak_pressure == b.patches[0].peak_pressure);
  CHECK(b.patches[1].approach > 1.5 * a.patches[1].approach);
  CHECK(b.height == b.bodies[1].height);
  CHECK(b.bodies[1].height < b.bodies[0].height);
  // Under the shares of a standing wheel both find the height at which it stands.
  const auto standing = contact_at(wheel, bodies, place, 90e3);
  std::vector<contact::BodyLoad> shares;
  for (const auto& body : standing.bodies) {
    shares.push_back({body.body, body.vertical});
  }
  for (const auto& body : contact_under(wheel, bodies, place, shares).bodies) {
    CHECK(body.height == Approx(standing.height).margin(1e-10));
  }
}

TEST_CASE("Instants that a passage does not have are refused with what to take instead") {
  const auto refusal = [](auto work) {
    try {
      work();
    } catch (const std::exception& error) {
      return std::string(error.what());
    }
    return std::string();
  };
  CHECK(refusal([] { (void)named<Moment>("middle", "instant"); }).find("\"transfer\", \"landing\" or \"peak\"") !=
        std::string::npos);
  Result flight = passage_of_demo();
  std::erase_if(flight.history.events, [](const auto& e) { return e.kind == passage::Event::Kind::transfer; });
  CHECK_THROWS_AS(instant(demo(), flight, Moment::transfer), ComputeError);
  const cases::Case joint = io::read_case(WINGNOSE_SOURCE_DIR "/profiles/dipped_joint.toml");
  const Result r = run(joint);
  CHECK(refusal([&] { (void)instant(joint, r, Moment::transfer); }).find("landing or peak") != std::string::npos);
  const auto peak = contact_at_instant(joint, r, Moment::peak);
  REQUIRE(peak.bodies.size() == 1);
  CHECK(peak.bodies[0].body == joint.plain_rail.head);
  CHECK(peak.vertical == Approx(*std::max_element(r.history.force.begin(), r.history.force.end())).epsilon(1e-12));
  const auto bodies = layout::generate({}).bodies;
  const contact::WheelSurface wheel(profile::s1002(), 0.46);
  const contact::WheelPlace place{.station = 0.412, .lateral = taping_line_y};
  const auto under = [&](const std::vector<contact::BodyLoad>& loads) {
    return refusal([&] { (void)contact_under(wheel, bodies, place, loads); });
  };
  CHECK(under({{"wing", -1.0}}).find("force on the wing") != std::string::npos);
  CHECK(under({{"check rail", 1e3}}).find("check rail") != std::string::npos);
  CHECK(under({{"wing", 0.0}}).find("no body carries") != std::string::npos);
}
