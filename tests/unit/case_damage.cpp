// [damage] of a case file: steel, friction, law; defaults are those of the values.
#include "catch.hpp"
#include "said.hpp"

#include "wingnose/io/case_file.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <string>

using namespace wingnose;

namespace {

cases::Case parse(const std::string& text) { return io::parse_case(text, "test.toml", "."); }

std::string refusal(const std::string& text) {
  return said::refusal<InputError>([&] { (void)parse(text); });
}

bool lists(const cases::Case& c, const std::string& line) {
  const auto keys = cases::all_keys(c);
  return std::any_of(keys.begin(), keys.end(),
                     [&](const cases::KeyText& key) { return key.key + " = " + key.value == line; });
}

} // namespace

TEST_CASE("A case without a section on damage has the defaults of the values, and lists them") {
  const auto c = parse("[case]\nname = \"bare\"\n");
  CHECK(c.damage == assess::DamageOptions{});
  CHECK(cases::steel_of(c) == assess::steel("R350HT"));
  CHECK(lists(c, "damage.steel = R350HT"));
  CHECK(lists(c, "damage.friction = 0.3"));
  CHECK(lists(c, "damage.creep_law = simplified"));
  CHECK(lists(c, "damage.run_in = true"));
  CHECK_FALSE(lists(c, "damage.slip_reduction = 1"));
}

TEST_CASE("Every key of the section on damage reaches its value in SI, and comes back in the list of keys") {
  const std::string text = "[damage]\nsteel = \"Mn\"\nfriction = 0.15\nfriction_ratio = 0.4\nfriction_decay_s_m = 0.6\n"
                           "creep_law = \"polach\"\nadhesion_reduction = 0.5\nslip_reduction = 0.25\n"
                           "spin_inertia_kg_m2 = 45\nbefore_mm = 200\nafter_mm = 400\nleast_force_N = 900\n"
                           "strips = 12\ncells = 14\nmap_x_mm = 4\nmap_y_mm = 1\nshakedown_shape = \"circle\"\n"
                           "run_in = false\nwear_mild = 0.001\nwear_severe = 0.002\nwear_seizure = 0.003\n";
  const auto c = parse(text);
  assess::DamageOptions o;
  o.friction = 0.15;
  o.friction_ratio = 0.4;
  o.friction_decay = 0.6;
  o.creep_law = assess::CreepTheory::polach;
  o.adhesion_reduction = 0.5;
  o.slip_reduction = 0.25;
  o.spin_inertia = 45.0;
  o.before = 0.2;
  o.after = 0.4;
  o.least_force = 900.0;
  o.strips = 12;
  o.cells = 14;
  o.spacing_x = 0.004;
  o.spacing_y = 0.001;
  o.shakedown_shape = assess::ContactShape::circle;
  o.run_in = false;
  o.wear.mild = 0.001;
  o.wear.severe = 0.002;
  o.wear.seizure = 0.003;
  CHECK(c.damage == o);
  CHECK(cases::steel_of(c) == assess::steel("Mn"));
  for (std::string line : {"steel = Mn", "creep_law = polach", "slip_reduction = 0.25", "shakedown_shape = circle",
                           "map_y_mm = 1", "friction_decay_s_m = 0.6"}) {
    CAPTURE(line);
    CHECK(lists(c, "damage." + line));
  }
}

TEST_CASE("Keys of another law, unknown steels and values out of range are refused with the key and what is allowed") {
  CHECK(refusal("[damage]\nslip_reduction = 0.4\n").find("creep_law = \"polach\"") != std::string::npos);
  CHECK(refusal("[damage]\nsteel = \"R26\"\n").find("Did you mean \"R260\"") != std::string::npos);
  CHECK(refusal("[damage]\nfriction = 1.5\n").find("0 to 1") != std::string::npos);
  CHECK(refusal("[damage]\nfriction_decay = 0.6\n").find("friction_decay_s_m") != std::string::npos);
  const std::string above =
      refusal("[damage]\ncreep_law = \"polach\"\nadhesion_reduction = 0.2\nslip_reduction = 0.4\n");
  CHECK(above.starts_with("test.toml:4: damage.slip_reduction: 0.4 is not allowed; allowed: up to 0.2 with "
                          "damage.adhesion_reduction = 0.2. "));
}
