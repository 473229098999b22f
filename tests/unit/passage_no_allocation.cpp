// A time step takes no memory from the system. Every allocation of this executable is counted: operator new and the
// aligned allocations of Eigen and Boost all end in the C library, so that is where the counting is done.
#include "catch.hpp"
#include "chain_samples.hpp"
#include "passage_cases.hpp"
#include "space_samples.hpp"

#include "wingnose/passage/chain_stepper.hpp"
#include "wingnose/track/chain/stepper.hpp"

#include <atomic>
#include <cstddef>
#include <cstdlib>

namespace {
std::atomic<long> allocations{0};
void count() { allocations.fetch_add(1, std::memory_order_relaxed); }
} // namespace

#if defined(WINGNOSE_SANITIZED)
// The sanitizer owns the allocator and offers hooks instead.
extern "C" int __sanitizer_install_malloc_and_free_hooks(void (*)(const volatile void*, std::size_t),
                                                         void (*)(const volatile void*));
namespace {
void on_malloc(const volatile void*, std::size_t) { count(); }
void on_free(const volatile void*) {}
const bool counting = __sanitizer_install_malloc_and_free_hooks(on_malloc, on_free) > 0;
} // namespace
#elif defined(__GLIBC__)
extern "C" {
void* __libc_malloc(std::size_t);
void* __libc_calloc(std::size_t, std::size_t);
void* __libc_realloc(void*, std::size_t);
void* __libc_memalign(std::size_t, std::size_t);

void* malloc(std::size_t size) {
  count();
  return __libc_malloc(size);
}
void* calloc(std::size_t number, std::size_t size) {
  count();
  return __libc_calloc(number, size);
}
void* realloc(void* block, std::size_t size) {
  count();
  return __libc_realloc(block, size);
}
void* memalign(std::size_t alignment, std::size_t size) {
  count();
  return __libc_memalign(alignment, size);
}
void* aligned_alloc(std::size_t alignment, std::size_t size) {
  count();
  return __libc_memalign(alignment, size);
}
int posix_memalign(void** block, std::size_t alignment, std::size_t size) {
  count();
  *block = __libc_memalign(alignment, size);
  return *block != nullptr ? 0 : 12; // ENOMEM
}
}
namespace {
constexpr bool counting = true;
}
#else
namespace {
constexpr bool counting = false; // another C library: nothing to count with
}
#endif

using namespace wingnose;

namespace {

template <class Work> long allocations_of(Work work) {
  const long before = allocations.load();
  work();
  return allocations.load() - before;
}

} // namespace

TEST_CASE("A thousand time steps allocate nothing") {
  if (!counting) {
    WARN("allocations cannot be counted on this system");
    return;
  }
  // The count itself works: operator new, Eigen's and Boost's aligned memory.
  REQUIRE(allocations_of([] { std::vector<double> v(1000); }) > 0);
  REQUIRE(allocations_of([] { Eigen::MatrixXd m = Eigen::MatrixXd::Zero(40, 40); }) > 0);
  REQUIRE(allocations_of([] { passage::AlignedVector v(1000, 1.0); }) > 0);

  const auto track = cases::usual_track();
  const auto s = cases::settings(40.0, -0.5, 0.5);
  const auto table = passage::step_table(track, s.step);
  const double end = s.from + 1000.0 * s.speed * s.step;
  const auto thousand = [&](auto step) {
    return allocations_of([&] {
      for (int i = 0; i < 1000; ++i) {
        step(i * s.step);
      }
    });
  };
  SECTION("one wheel over a kink") {
    const auto move = cases::over(cases::kink_path(20e-3, -0.1), track, s, -0.1, cases::usual_wheel(), table);
    passage::State state = passage::initial_state(move);
    passage::ExponentialStepper stepper(move);
    CHECK(thousand([&](double t) { stepper.do_step(move, state, t, s.step); }) == 0);
    CHECK(state.station == Approx(end));
  }
  SECTION("a bogie") {
    const auto bogie = vehicle::assemble(vehicle::preset("bogie"));
    const auto move = cases::over(cases::kink_path(20e-3, -0.1), track, s, -0.1, bogie, table);
    passage::State state = passage::initial_state(move);
    passage::ExponentialStepper stepper(move);
    CHECK(thousand([&](double t) { stepper.do_step(move, state, t, s.step); }) == 0);
    CHECK(state.station == Approx(end));
  }
  SECTION("steps that change their length") {
    auto parts = cases::parts(cases::level_path(), track, s, cases::usual_wheel(), table);
    parts.longest_step = 4.0 * s.step;
    const auto move = passage::make_passage(passage::make_plan(parts), passage::run_of(s, 0.0));
    passage::State state = passage::initial_state(move);
    passage::ExponentialStepper stepper(move);
    bool is_long = false;
    CHECK(thousand([&](double t) {
            is_long = !is_long;
            stepper.do_step(move, state, t, is_long ? 4.0 * s.step : s.step);
          }) == 0);
  }
  SECTION("contact searched at every step") {
    const auto crossing = layout::generate({});
    const auto wheel = profile::s1002();
    const auto path = std::make_shared<const contact::WheelPath>(
        contact::roll(crossing, wheel, {.from = s.from - 0.1, .to = s.to + 0.1}));
    for (const contact::NormalLaw law :
         {contact::NormalLaw(contact::Ellipse{}), contact::NormalLaw(contact::Strips{})}) {
      auto parts = cases::parts(path, track, s, cases::usual_wheel(), table);
      parts.courses.front().search = std::make_shared<const contact::StepSearch>(*path, crossing, wheel, law);
      const auto move = passage::make_passage(passage::make_plan(parts), passage::run_of(s, 0.4));
      passage::State state = passage::initial_state(move);
      passage::ExponentialStepper stepper(move);
      stepper.do_step(move, state, 0.0, s.step); // tables of formulas are made at first use
      CHECK(thousand([&](double t) { stepper.do_step(move, state, t, s.step); }) == 0);
      CHECK(state.force[0] > 0.0);
    }
  }
  SECTION("a bogie on a chain of two rails, over a void") {
    namespace chain = track::chain;
    chain::Model model = chain::one_rail(track::Track{});
    model.rails.push_back(model.rails.front());
    for (chain::Bearer& b : model.bearers) {
      b.body = chain::BeamBearer{};
      b.ballast = {};
      b.seat = {{-0.75, b.seat.front().pad}, {0.75, b.seat.front().pad}};
      if (std::abs(b.x) < 0.7) {
        b.voids.push_back({-2.0, 2.0, 0.3e-3});
      }
    }
    const auto bogie = vehicle::assemble(vehicle::preset("bogie"));
    auto parts = cases::parts(cases::kink_path(20e-3, -0.1), nullptr, s, bogie);
    parts.chain = chain::make_chain(model);
    const auto move = passage::make_passage(passage::make_plan(parts), passage::run_of(s, -0.1));
    passage::State state = passage::initial_state(move);
    passage::ChainStepper stepper(move);
    CHECK(thousand([&](double t) { stepper.do_step(move, state, t, s.step); }) == 0);
    CHECK(state.station == Approx(end));
  }
  SECTION("two to four rails that also bend laterally, over a void") {
    namespace chain = track::chain;
    for (chain::Model model : {chain_samples::turnout(20), chain_samples::panel(3, 20), chain_samples::panel(4, 20)}) {
      model = chain_samples::sideways(model);
      model.bearers[10].voids.push_back({-2.0, 9.0, 0.3e-3});
      const auto c = chain::make_chain(model);
      const chain::StepFactor f = chain::step_factor(*c, s.step);
      chain::Motion motion(*c);
      std::vector<chain::WheelForce> from{{chain::rail_point(*c, 0, 6.1), 9e4},
                                          {chain::rail_point(*c, 0, 6.1, chain::Plane::lateral), 2e4}};
      std::vector<chain::WheelForce> to = from;
      chain::Stepper stepper(*c, 2);
      CHECK(thousand([&](double t) {
              to[1].at = chain::rail_point(*c, 0, 6.1 + t, chain::Plane::lateral);
              stepper.begin(motion, f, from, to);
              stepper.set_force(1, 1e4 + 0.01 * stepper.free_deflection(0));
              stepper.meet_links();
              stepper.end(motion);
            }) == 0);
      CHECK(motion.seat.cwiseAbs().maxCoeff() > 1e-4);
    }
  }
  SECTION("eight cases together") {
    std::vector<passage::Passage> moves;
    for (int i = 1; i <= 8; ++i) {
      moves.push_back(cases::over(cases::kink_path(2e-3 * i, -0.1), track, s, -0.1, cases::usual_wheel(), table));
    }
    for (const bool further_terms : {false, true}) {
      moves.front() = cases::with_laws(moves.front(), [&](contact::PathLaw& path) {
        for (contact::ForceLaw& law : path.body.front()) {
          law.c1 = further_terms ? 25.0 * law.c0 : 0.0;
        }
      });
      passage::BatchState state(moves);
      passage::BatchStepper stepper(moves);
      CHECK(stepper.further_terms() == further_terms);
      CHECK(thousand([&](double t) { stepper.do_step(moves, state, t, s.step); }) == 0);
      CHECK(state.station == Approx(end));
    }
  }
}

TEST_CASE("A step of a vehicle in space takes no memory, through curve, crossing and check rail") {
  if (!counting) {
    return;
  }
  layout::CrossingShape shape;
  shape.wing_head = "60E1";
  shape.wing_inclination = std::atan(1.0 / 40.0);
  space_rides::Ground ground =
      space_rides::over_turnout(layout::turnout::preset("R300-1:9"), layout::turnout::Way::diverging, shape,
                                profile::rail_head("60E1", shape.wing_inclination));
  const space_rides::Rolling bogie = space_rides::rolling(vehicle::space::preset("bogie"), profile::s1002());
  // One instant is kept of either run, at its end.
  const auto taken = [&](double length) {
    const passage::space::Ride ride{.speed = 10.0,
                                    .begin = -30.0,
                                    .length = length,
                                    .step = 4e-4,
                                    .stride = static_cast<int>(std::lround(length / 10.0 / 4e-4))};
    return allocations_of([&] { REQUIRE(simulate(bogie, ground, ride).time.size() == 1); });
  };
  (void)taken(0.4);
  CHECK(taken(32.0) == taken(0.4));
  track::chain::Model two = chain_samples::sideways(chain_samples::plain(70)); // 41 m
  for (track::chain::Bearer& bearer : two.bearers) {
    bearer.x -= 34.0;
  }
  two.bearers[40].voids.push_back({-1.3, 1.3, 1e-3});
  ground.bends = track::chain::make_chain(two);
  (void)taken(0.4);
  CHECK(taken(32.0) == taken(0.4));
}
