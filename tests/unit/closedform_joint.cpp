#include "catch.hpp"
#include "wingnose/closedform/joint_forces.hpp"
#include "wingnose/words/error.hpp"

#include <limits>
#include <string>

using namespace wingnose;
using namespace wingnose::closedform;

namespace {

JointCase coach() { return {54.55e3, 906.5, 44.7, 0.02, constant_set("GM/TT0088").track}; }

template <class Error, class Call> std::string message_of(Call call) {
  try {
    call();
  } catch (const Error& error) {
    return error.what();
  }
  return "no such error";
}

bool says(const std::string& message, const std::string& part) { return message.find(part) != std::string::npos; }

} // namespace

TEST_CASE("P1 and P2 refuse impossible input with a message that names it") {
  const auto with = [](auto change) {
    JointCase joint = coach();
    change(joint);
    return message_of<InputError>([&joint] { (void)joint_forces(joint); });
  };
  CHECK(says(with([](JointCase& j) { j.static_load = 0.0; }), "static wheel load: 0 N"));
  CHECK(says(with([](JointCase& j) { j.unsprung_mass = -900.0; }), "unsprung mass per wheel: -900 kg"));
  CHECK(says(with([](JointCase& j) { j.speed = 160.0; }), "not km/h"));
  CHECK(says(with([](JointCase& j) { j.speed = -1.0; }), "speed: -1 m/s"));
  CHECK(says(with([](JointCase& j) { j.dip_angle = 20.0; }), "not mrad"));
  CHECK(says(with([](JointCase& j) { j.dip_angle = std::numeric_limits<double>::quiet_NaN(); }), "total dip angle"));
  CHECK(says(with([](JointCase& j) { j.track.m_T2 = -1.0; }), "track mass m_T2"));
  CHECK(says(with([](JointCase& j) { j.track.k_T2 = 0.0; }), "track stiffness k_T2"));
  CHECK(says(with([](JointCase& j) { j.track.c_T2 = -1.0; }), "track damping c_T2"));
  CHECK(says(with([](JointCase& j) { j.k_H = 0.0; }), "contact stiffness k_H"));
  CHECK(says(with([](JointCase& j) { j.m_e = 0.0; }), "effective rail mass m_e"));
  CHECK(says(message_of<InputError>([] { (void)P1_hertz(coach(), 0.0); }), "Hertz stiffness C_H"));
}

TEST_CASE("P2 is refused where its first-order damping factor has lost its meaning, the exact peaks are not") {
  JointCase joint = coach();
  joint.track.c_T2 = 400e3;
  CHECK(says(message_of<ComputeError>([&joint] { (void)joint_forces(joint); }), "track damping c_T2 of 400 kN s/m"));
  CHECK(lumped_peaks(joint).spring > joint.static_load);
}

TEST_CASE("No speed is permissible when the static load alone breaks the limit, and the message says so") {
  const std::string message = message_of<ComputeError>([] { (void)permissible_speed(coach(), 50e3); });
  CHECK(says(message, "54.55 kN"));
  CHECK(says(message, "50 kN"));
  CHECK_THROWS_AS(permissible_dip_angle(coach(), 50e3), ComputeError);
  CHECK_THROWS_AS(permissible_speed(coach(), -1.0), InputError);
  CHECK(permissible_speed(coach(), coach().static_load) == 0.0);
}

TEST_CASE("A speed cannot be solved for without a dip, nor a dip at standstill") {
  JointCase level = coach();
  level.dip_angle = 0.0;
  CHECK(says(message_of<InputError>([&level] { (void)permissible_speed(level, 322e3); }), "Without a dip"));
  JointCase still = coach();
  still.speed = 0.0;
  CHECK(says(message_of<InputError>([&still] { (void)permissible_dip_angle(still, 322e3); }), "At standstill"));
}

TEST_CASE("Constant sets are found by name, carry their source, and a wrong name lists the right ones") {
  for (const ConstantSet& set : constant_sets()) {
    CHECK(&constant_set(set.name) == &set);
    CHECK_FALSE(set.source.empty());
    CHECK(says(set.status, "from memory"));
    CHECK(joint_forces({100e3, 1000.0, 30.0, set.dip_angle, set.track}).P2 > 100e3);
  }
  const std::string message = message_of<InputError>([] { (void)constant_set("GM/TT88"); });
  CHECK(says(message, "GM/TT0088, ROA-AS7508"));
}

TEST_CASE("The assumptions are always listed, and a strained formula adds a warning") {
  const auto warned = [](const JointCase& joint) {
    int count = 0;
    for (const std::string& line : assumptions(joint))
      count += says(line, "Warning") ? 1 : 0;
    return count;
  };
  JointCase gentle = coach();
  gentle.dip_angle = 0.005;
  CHECK(assumptions(gentle).size() >= 4);
  CHECK(warned(gentle) == 0);
  CHECK(warned(coach()) == 1); // P1 is nearly five times the static load
  gentle.track.c_T2 = 120e3;   // damping ratio 0.22
  CHECK(warned(gentle) == 1);
}
