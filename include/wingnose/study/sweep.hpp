// A sweep carried out: its cases answered chunk by chunk and stored as they come, going on where the file ends.
//
// The numbers do not depend on threads, on the size of chunks or on how often the work was stopped; a case that fails
// is recorded with its reason and does not stop the others. Memory holds one chunk, a few tracks and a few wheel paths.
#pragma once

#include "wingnose/io/sweep_file.hpp"
#include "wingnose/study/many.hpp"

#include <atomic>
#include <cstddef>
#include <functional>
#include <optional>

namespace wingnose::study {

struct SweepOptions {
  int threads = 0; // 0: one per core
  // Cases done so far, those stored before included. Called from one thread at a time, not always the same; what it
  // throws ends the sweep between chunks' being stored and is passed on.
  std::function<void(std::size_t done, std::size_t total)> progress = {};
  const std::atomic<bool>* cancel = nullptr; // set it to end soon; the chunk under way is given up
};

// Cases [begin, end) of a sweep, not stored: for a caller that sends them elsewhere. nullopt when cancelled. Throws
// InputError for cases that do not exist and as run_many does.
[[nodiscard]] std::optional<io::SweepRows> answer_cases(const io::Sweep& sweep, std::size_t begin, std::size_t end,
                                                        const SweepOptions& options = {}, SharedParts* parts = nullptr);

struct SweepProgress {
  std::size_t before = 0, done = 0; // cases stored before, and now
  bool finished = false;            // false: cancelled
};
// Throws as answer_cases and SweepFile::write do; what is stored stays.
SweepProgress run_sweep(const io::Sweep& sweep, io::SweepFile& file, const SweepOptions& options = {});

} // namespace wingnose::study
