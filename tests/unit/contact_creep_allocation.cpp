// A creep force takes no memory from the system: it is evaluated in every time step of a passage. The C library's
// malloc is counted, where operator new ends as well.
#include "catch.hpp"
#include "wingnose/contact/tangential/saturation.hpp"

#include <atomic>
#include <cstddef>
#include <memory>

namespace {
std::atomic<long> allocations{0};
} // namespace

#if defined(WINGNOSE_SANITIZED)
extern "C" int __sanitizer_install_malloc_and_free_hooks(void (*)(const volatile void*, std::size_t),
                                                         void (*)(const volatile void*));
namespace {
void on_malloc(const volatile void*, std::size_t) { allocations.fetch_add(1, std::memory_order_relaxed); }
void on_free(const volatile void*) {}
const bool counting = __sanitizer_install_malloc_and_free_hooks(on_malloc, on_free) > 0;
} // namespace
#elif defined(__GLIBC__)
extern "C" {
void* __libc_malloc(std::size_t);
void* malloc(std::size_t size) {
  allocations.fetch_add(1, std::memory_order_relaxed);
  return __libc_malloc(size);
}
}
namespace {
const bool counting = true;
} // namespace
#else
namespace {
const bool counting = false;
} // namespace
#endif

using namespace wingnose::contact;

TEST_CASE("No creep law takes memory from the system when it is evaluated") {
  REQUIRE(counting);
  (void)rolling_contact(7e-3, 5e-3, 100e3); // makes the curves of the table, once
  for (const CreepLaw& law : {CreepLaw{Cubic{}}, CreepLaw{polach_dry}, CreepLaw{Simplified{}}}) {
    StripWorkspace ws = make_workspace(law);
    double sum = 0.0;
    const long before = allocations.load();
    for (int i = 0; i < 10; ++i) {
      // The contact changes with every step of a passage: its coefficients must come without memory as well.
      const RollingContact now = rolling_contact(7e-3 + 1e-5 * i, 5e-3, 100e3 + 1e3 * i);
      sum += creep_force(law, now, {1e-3, 1e-4 * i, 0.3}, 30.0, ws).lateral;
    }
    const long taken = allocations.load() - before;
    CHECK(taken == 0);
    CHECK(sum < 0.0);
  }
  const long before = allocations.load();
  const auto block = std::make_unique<double[]>(100); // the counter counts
  CHECK(block[0] == 0.0);
  const long after = allocations.load();
  CHECK(after > before);
}
