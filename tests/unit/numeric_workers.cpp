// Work of several threads, and what they share.
#include "catch.hpp"

#include "wingnose/numeric/shared_parts.hpp"
#include "wingnose/numeric/workers.hpp"
#include "wingnose/words/error.hpp"

#include <stdexcept>
#include <string>
#include <vector>

using namespace wingnose;

TEST_CASE("Every item is worked off once and progress ends at the total, whatever the number of threads") {
  for (const int threads : {1, 3, 20}) {
    std::vector<int> times(50, 0);
    std::size_t last = 0;
    WorkOptions options;
    options.threads = threads;
    options.done = 7;
    options.total = 107;
    options.progress = [&](std::size_t done, std::size_t total) {
      CHECK(done > last);
      CHECK(total == 107);
      last = done;
    };
    work_off(times.size(), options, [&](std::size_t i) {
      ++times[i];
      return std::size_t{2};
    });
    CHECK(times == std::vector<int>(50, 1));
    CHECK(last == 107);
  }
}

TEST_CASE("The first exception ends the work and is thrown, and no item is begun once it is cancelled") {
  std::atomic<int> begun{0};
  WorkOptions options;
  options.threads = 1;
  CHECK_THROWS_AS(work_off(10, options,
                           [&](std::size_t i) -> std::size_t {
                             ++begun;
                             return i == 3 ? throw std::runtime_error("no") : 1;
                           }),
                  std::runtime_error);
  CHECK(begun == 4);
  std::atomic<bool> cancel{false};
  options.cancel = &cancel;
  begun = 0;
  work_off(10, options, [&](std::size_t i) -> std::size_t {
    ++begun;
    cancel = i == 5;
    return 1;
  });
  CHECK(begun == 6);
  CHECK_THROWS_AS(threads_of(-1), InputError);
}

TEST_CASE("A shared part is made once, dropped after its last use, and kept for the next call where there is room") {
  Pool<std::string, int> pool(1);
  int made = 0;
  const auto get = [&](std::size_t i) { return pool[i].get([&] { return ++made; }); };
  const std::size_t a = pool.find(1, "a"), again = pool.find(1, "a"), b = pool.find(1, "b"); // equal hashes
  CHECK(a == again);
  CHECK(a != b);
  CHECK(*get(a) == 1);
  CHECK(*get(again) == 1);
  CHECK(*get(b) == 2);
  pool.release(a);
  CHECK(pool[a].value() != nullptr); // one use is to come
  pool.release(again);
  CHECK(pool[a].value() != nullptr); // idle, and kept
  pool.release(b);
  CHECK(pool[b].value() == nullptr); // no room for another
  pool.keep_for_next_call();
  CHECK(*get(pool.find(1, "a")) == 1);
  CHECK(*get(pool.find(1, "b")) == 3);
}

TEST_CASE("A part that cannot be made tells every user the same") {
  Part<int> part;
  const auto refuse = []() -> int { throw InputError("no such track"); };
  part.help(refuse);
  CHECK_THROWS_AS(part.get(refuse), InputError);
  CHECK_THROWS_AS(part.get([] { return 1; }), InputError);
}
